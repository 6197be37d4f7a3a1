import type { EyeParameter, Scenario } from '../../../physics/index.ts';
import { textOf } from '../../i18n/content.ts';
import { MESSAGES, type Messages } from '../../i18n/languages.ts';
import { t } from '../../i18n/text.ts';
import { number, quantity } from '../../ui/format.ts';
import { withUnit } from '../../ui/plain-number.ts';
import { type Path, valueIn } from './draft.ts';
import { useEditor } from './editor-context.ts';
import { ageParameters, type FieldText } from './field-texts.ts';
import { CheckField, ChoiceField, NumberField, Tag } from './fields.tsx';

type OverrideKey = keyof Scenario['eye']['overrides'];

/** Parts of the eye that a scenario may replace, with the step of the arrow keys. */
const REPLACEABLE: Readonly<Record<OverrideKey, number>> = {
  thickness_um: 0.5,
  youngModulus_MPa: 0.05,
  stiffening: 0.1,
  tearResistance_mN: 1,
  lensDiameter_mm: 0.1,
  anteriorRadius_mm: 0.1,
  zonuleFreeDiameter_mm: 0.1,
  zonuleStiffness_mN_per_mm2: 0.5,
  baseTension_mN_per_mm: 0.02,
};

const isReplaceable = (key: string): key is OverrideKey => Object.hasOwn(REPLACEABLE, key);

export const unitWords = (unit: string): string => (unit === '1' ? '' : unit.replace('um', 'µm').replace('^2', '²'));

/** Three or four figures, as a person reads them. */
export function figures(value: number): string {
  return number(value, decimalsFor(value));
}

const decimalsFor = (value: number): number =>
  Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : Math.abs(value) >= 1 ? 2 : 3;

/** The eye: its age, what follows from that, and what the scenario replaces. */
export function EyePart() {
  const { draft } = useEditor();
  const parameters = ageParameters(draft);
  return (
    <>
      <NumberField path={['eye', 'age_years']} />
      <ChoiceField
        path={['eye', 'stiffnessPreset']}
        options={[
          ['uniaxial', t('eyes.eye.rings')],
          ['inflation', t('eyes.eye.blown')],
        ]}
      />
      <CheckField path={['eye', 'dyed']} />
      <h2>{t('eyes.eye.follows')}</h2>
      {parameters === null ? (
        <p className="eyes-hint">{t('eyes.eye.noAge')}</p>
      ) : (
        <>
          <p className="eyes-hint">{t('eyes.eye.how')}</p>
          {parameters.map((parameter) =>
            isReplaceable(parameter.key) ? (
              <Replaceable key={parameter.key} parameter={parameter} step={REPLACEABLE[parameter.key]} />
            ) : (
              <Given key={parameter.key} parameter={parameter} />
            ),
          )}
        </>
      )}
      <h2>{t('eyes.eye.seen')}</h2>
      <NumberField path={['eye', 'pupilDiameter_mm']} />
      <NumberField path={['eye', 'opacityDiameter_mm']} />
      <NumberField path={['eye', 'lensOffset_mm', 0]} />
      <NumberField path={['eye', 'lensOffset_mm', 1]} />
      <WeakZonule />
    </>
  );
}

/** Every part of the eye has a definition among the explained numbers. */
const isDefined = (key: string): key is keyof Messages['numbers'] => key in MESSAGES.en.numbers;

function sourceOf({ key, value, unit, range: [low, high], tag, source }: EyeParameter): string {
  const atThisAge = t('eyes.eye.atThisAge', {
    value: quantity(value, decimalsFor(value), unitWords(unit)),
    low: figures(low),
    high: figures(high),
    tag: t(`eyes.tag.${tag}`),
    source: textOf(source),
  });
  return isDefined(key) ? `${t(`numbers.${key}.definition`)} ${atThisAge}` : atThisAge;
}

function rangeOf({ range: [low, high], unit }: EyeParameter): string {
  return t('eyes.range.between', { low: figures(low), high: withUnit(figures(high), unitWords(unit)) });
}

function Replaceable({ parameter, step }: { readonly parameter: EyeParameter; readonly step: number }) {
  const { draft } = useEditor();
  const path: Path = ['eye', 'overrides', parameter.key];
  const unit = unitWords(parameter.unit);
  const replaced = valueIn(draft, path) !== undefined;
  const text: FieldText = {
    label: textOf(parameter.label),
    unit,
    step,
    tag: replaced ? 'assumed' : parameter.tag,
    source: replaced ? `${t('eyes.eye.replaced')} ${sourceOf(parameter)}` : sourceOf(parameter),
  };
  return (
    <NumberField
      path={path}
      text={text}
      optional
      placeholder={figures(parameter.value)}
      shownRange={rangeOf(parameter)}
    />
  );
}

/** A value that a scenario cannot replace. It takes the focus, so that its source can be read by keyboard. */
function Given({ parameter }: { readonly parameter: EyeParameter }) {
  const { tell } = useEditor();
  const unit = unitWords(parameter.unit);
  const label = textOf(parameter.label);
  const text: FieldText = { label, unit, step: 1, tag: parameter.tag, source: sourceOf(parameter) };
  const note = () => tell({ text, range: '' });
  return (
    // biome-ignore lint/a11y/useSemanticElements: a row of values, not a set of inputs
    <div
      className="eyes-field"
      role="group"
      aria-label={t('eyes.eye.given', {
        label,
        value: quantity(parameter.value, decimalsFor(parameter.value), unit),
        source: text.source,
      })}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: its source is told on focus
      tabIndex={0}
      onFocus={note}
      onMouseEnter={note}
    >
      <span>{label}</span>
      <span className="eyes-control eyes-given">{figures(parameter.value)}</span>
      <span className="eyes-unit">{unit}</span>
      <span className="eyes-range">{rangeOf(parameter)}</span>
      <Tag tag={parameter.tag} />
    </div>
  );
}

function WeakZonule() {
  const { draft, edit, settle } = useEditor();
  const there = valueIn(draft, ['eye', 'weakZonule']) !== undefined;
  return (
    <>
      <label className="eyes-check">
        <input
          type="checkbox"
          data-testid="weak-zonule"
          checked={there}
          onChange={(event) => {
            settle();
            const sector = { fromClock_h: 1, toClock_h: 3, strength: 0.3 };
            edit(['eye', 'weakZonule'], event.target.checked ? sector : undefined);
            settle();
          }}
        />
        {t('eyes.eye.weak')}
      </label>
      {there && (
        <>
          <NumberField path={['eye', 'weakZonule', 'fromClock_h']} />
          <NumberField path={['eye', 'weakZonule', 'toClock_h']} />
          <NumberField path={['eye', 'weakZonule', 'strength']} />
        </>
      )}
    </>
  );
}

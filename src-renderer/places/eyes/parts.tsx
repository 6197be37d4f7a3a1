import { FLUID_IDS, type FluidId } from '../../../physics/index.ts';
import { fluidName } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { checkDraft } from './check-draft.ts';
import { type Json, type Path, valueIn, withValue } from './draft.ts';
import { useEditor } from './editor-context.ts';
import { fieldText, fluidText } from './field-texts.ts';
import { CheckField, ChoiceField, NumberField, TextField } from './fields.tsx';
import { placedLine_mm } from './what-follows.ts';

/** Name and brief of the scenario. */
export function NamePart() {
  const { idFixed } = useEditor();
  return (
    <>
      <TextField path={['title']} />
      <TextField path={['brief']} rows={4} />
      <TextField path={['id']} fixed={idFixed} />
    </>
  );
}

/** The fluid and the pressures on the capsule. */
export function ChamberPart() {
  const { draft } = useEditor();
  const fluid = FLUID_IDS.find((id) => id === valueIn(draft, ['chamber', 'fluid']));
  const plain = fieldText(['chamber', 'fluid']);
  const text = fluid === undefined ? plain : { ...plain, source: fluidText(fluid) };
  return (
    <>
      <ChoiceField
        path={['chamber', 'fluid']}
        options={FLUID_IDS.map((id: FluidId) => [id, fluidName(id)])}
        text={text}
      />
      <NumberField path={['chamber', 'fillPressure_mmHg']} />
      <NumberField path={['chamber', 'behindPressure_mmHg']} />
      <NumberField path={['chamber', 'insidePressure_mmHg']} />
      <NumberField path={['chamber', 'startFill_share']} optional placeholder="1" />
      <p className="eyes-hint">{t('eyes.chamber.hint')}</p>
    </>
  );
}

const START_KINDS = ['flap', 'needle', 'two-nicks'] as const;

/** A sensible start of each kind on a line of the given diameter, mm. */
function freshStart(kind: string, line_mm: number): Json {
  const round = (value: number) => Math.round(100 * value) / 100;
  if (kind === 'needle') return { kind, slitLimit_mm: 2.2 };
  if (kind === 'two-nicks') return { kind, distance_mm: round(line_mm), nick_mm: 0.4, axisClock_h: 12 };
  return { kind: 'flap', clock_h: 12, radius_mm: round(line_mm / 2), arc_deg: 70, innerRadius_mm: 0.2 };
}

/** How the attempt begins, and the ways into the eye. */
export function StartPart() {
  const { draft, edit } = useEditor();
  const kind = valueIn(draft, ['start', 'kind']);
  const line = valueIn(draft, ['target', 'lineDiameter_mm']);
  const line_mm = typeof line === 'number' ? line : 4;
  return (
    <>
      <fieldset className="eyes-choice">
        <legend>{t('eyes.start.with')}</legend>
        {START_KINDS.map((id) => (
          <label key={id}>
            <input
              type="radio"
              name="start-kind"
              data-testid={`start-${id}`}
              checked={kind === id}
              onChange={() => edit(['start'], freshStart(id, line_mm), `start-${id}`)}
            />
            {t(`eyes.start.${id}`)}
          </label>
        ))}
      </fieldset>
      {kind === 'flap' && (
        <>
          <NumberField path={['start', 'clock_h']} />
          <NumberField path={['start', 'radius_mm']} />
          <button
            type="button"
            className="eyes-inline"
            onClick={() => edit(['start', 'radius_mm'], Math.round(50 * line_mm) / 100, 'start-on-line')}
          >
            {t('eyes.start.onLine')}
          </button>
          <NumberField path={['start', 'arc_deg']} />
          <NumberField path={['start', 'innerRadius_mm']} />
          <NumberField path={['start', 'outward_mm']} optional placeholder="0" />
        </>
      )}
      {kind === 'needle' && <NumberField path={['start', 'slitLimit_mm']} />}
      {kind === 'two-nicks' && (
        <>
          <NumberField path={['start', 'distance_mm']} />
          <NumberField path={['start', 'nick_mm']} />
          <NumberField path={['start', 'axisClock_h']} />
        </>
      )}
      <Incisions />
    </>
  );
}

/** As many as the format takes. */
const MOST_INCISIONS = 8;

function Incisions() {
  const { draft, edit, settle } = useEditor();
  const list = valueIn(draft, ['incisions']);
  const incisions = Array.isArray(list) ? (list as readonly Json[]) : [];
  const change = (next: readonly Json[]) => {
    settle();
    edit(['incisions'], next, 'incisions');
    settle();
  };
  return (
    <>
      <h2>{t('eyes.start.incisions')}</h2>
      {incisions.map((_, index) => (
        <fieldset className="eyes-row" key={index}>
          <legend>{t('eyes.start.incision', { index: index + 1 })}</legend>
          <NumberField path={['incisions', index, 'clock_h']} />
          <NumberField path={['incisions', index, 'width_mm']} />
          <button
            type="button"
            disabled={incisions.length === 1}
            onClick={() => change(incisions.toSpliced(index, 1))}
            aria-label={t('eyes.start.takeIncision', { index: index + 1 })}
          >
            {t('eyes.start.takeAway')}
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        className="eyes-inline"
        data-testid="add-incision"
        disabled={incisions.length >= MOST_INCISIONS}
        onClick={() => change([...incisions, { clock_h: 2, width_mm: 1.2 }])}
      >
        {t('eyes.start.addIncision')}
      </button>
    </>
  );
}

/** Smallest line that any file may hold: puts the line itself out of the question while another is looked for. */
const SMALLEST_LINE_mm = 1;

/** The opening that is wanted and the line that should give it. */
export function TargetPart() {
  const { edit, settle, draft } = useEditor();
  const wanted = valueIn(draft, ['target', 'diameter_mm']);
  const line: Path = ['target', 'lineDiameter_mm'];
  // whatever stands in the line's field now must not keep it from being placed
  const { scenario } = checkDraft(withValue(draft, line, SMALLEST_LINE_mm), new Set());
  const place = () => {
    if (scenario === null || typeof wanted !== 'number') return;
    settle();
    edit(line, placedLine_mm(scenario, wanted), 'place-line');
    settle();
  };
  return (
    <>
      <NumberField path={['target', 'diameter_mm']} />
      <NumberField path={['target', 'lineDiameter_mm']} />
      <button
        type="button"
        className="eyes-inline"
        data-testid="place-line"
        disabled={scenario === null}
        onClick={place}
      >
        {t('eyes.target.place')}
      </button>
      <ChoiceField
        path={['target', 'reference']}
        options={[
          ['pupil', t('eyes.target.pupil')],
          ['limbus', t('eyes.target.limbus')],
          ['lens', t('eyes.target.lens')],
        ]}
      />
      <NumberField path={['target', 'opticDiameter_mm']} />
    </>
  );
}

/** What is shown during an attempt, and its rules. */
export function RulesPart() {
  return (
    <>
      <h2>{t('eyes.rules.aids')}</h2>
      <CheckField path={['aids', 'arrows']} />
      <CheckField path={['aids', 'targetCircle']} />
      <CheckField path={['aids', 'tipCard']} />
      <h2>{t('eyes.rules.rules')}</h2>
      <NumberField path={['timeLimit_s']} />
      <CheckField path={['trial', 'pause']} />
      <NumberField path={['seed']} />
    </>
  );
}

import { useState } from 'react';
import { METRIC_LABELS, type MetricKey } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { problemLine } from '../../ui/judged-words.ts';
import { type Json, valueIn } from './draft.ts';
import { useEditor } from './editor-context.ts';
import { limitText } from './field-texts.ts';
import { fieldId, NumberField, Tag } from './fields.tsx';

const KEYS = Object.keys(METRIC_LABELS) as MetricKey[];
const nameOf = (key: MetricKey): string => limitText(key).label;

/** What is graded: a limit below, above or both for any measure of the opening or of the work. */
export function GradesPart() {
  const { draft, edit, settle } = useEditor();
  const [next, setNext] = useState<MetricKey | ''>('');
  const list = valueIn(draft, ['tolerances']);
  const tolerances = Array.isArray(list) ? (list as readonly Json[]) : [];
  const used = new Set(tolerances.map((one) => valueIn(one, ['metric'])));
  const change = (items: readonly Json[]) => {
    settle();
    edit(['tolerances'], items, 'tolerances');
    settle();
  };
  return (
    <>
      <p className="eyes-hint">{t('eyes.grades.hint')}</p>
      {tolerances.map((item, index) => (
        <Tolerance
          key={String(valueIn(item, ['metric']))}
          index={index}
          onTake={() => change(tolerances.toSpliced(index, 1))}
        />
      ))}
      {tolerances.length === 0 && <p className="eyes-hint">{t('eyes.grades.nothing')}</p>}
      <div className="eyes-add">
        <select
          aria-label={t('eyes.grades.measure')}
          data-testid="add-metric"
          value={next}
          onChange={(event) => setNext(event.target.value as MetricKey | '')}
        >
          <option value="">{t('eyes.grades.choose')}</option>
          {(['opening', 'work'] as const).map((of) => (
            <optgroup key={of} label={t(`eyes.grades.${of}`)}>
              {KEYS.filter((key) => METRIC_LABELS[key].of === of && !used.has(key)).map((key) => (
                <option key={key} value={key}>
                  {nameOf(key)}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
        <button
          type="button"
          data-testid="add-tolerance"
          disabled={next === ''}
          onClick={() => {
            change([...tolerances, { metric: next }]);
            setNext('');
          }}
        >
          {t('eyes.grades.add')}
        </button>
      </div>
    </>
  );
}

function Tolerance({ index, onTake }: { readonly index: number; onTake(): void }) {
  const { draft, problems } = useEditor();
  const path = ['tolerances', index] as const;
  const metric = String(valueIn(draft, [...path, 'metric']));
  const text = limitText(metric);
  // what is wrong with the line as a whole, such as no limit at all
  const wrong = [
    ...(problems.get(`tolerances[${index}]`) ?? []),
    ...(problems.get(`tolerances[${index}].metric`) ?? []),
  ];
  return (
    <fieldset className="eyes-row eyes-limits" id={fieldId(path)} data-testid={`tolerance-${metric}`}>
      <legend>
        {text.label}
        {text.tag !== null && (
          <span className="eyes-limit-tag">
            {' '}
            <Tag tag={text.tag} />
          </span>
        )}
      </legend>
      <NumberField
        path={[...path, 'atLeast']}
        text={{ ...text, label: t('eyes.grades.atLeast') }}
        optional
        placeholder={t('eyes.grades.noLimit')}
        shownRange=""
      />
      <NumberField
        path={[...path, 'atMost']}
        text={{ ...text, label: t('eyes.grades.atMost') }}
        optional
        placeholder={t('eyes.grades.noLimit')}
        shownRange=""
      />
      <button type="button" onClick={onTake} aria-label={t('eyes.grades.doNot', { metric: text.label })}>
        {t('eyes.grades.takeAway')}
      </button>
      {wrong.map((problem) => (
        <span className="eyes-wrong" key={`${problem.found} ${problem.allowed}`}>
          {problemLine(problem)}
        </span>
      ))}
    </fieldset>
  );
}

import { useState } from 'react';
import { OLDEST_AGE_years } from '../../../../physics/index.ts';
import { MOST_LINES } from '../../../charts/line-looks.ts';
import { t } from '../../../i18n/text.ts';
import { problemWords } from '../../../ui/problem-words.ts';
import { outcomesOf } from './age-chart.ts';
import { isAtPressure } from './age-measures.ts';
import { useAgeCharts } from './age-store.ts';
import { type NumberLimits, parseNumbers, writtenNumbers } from './parse-numbers.ts';

/** What the fields take. */
const limits = (): Readonly<Record<'ages' | 'pressures' | 'opening', NumberLimits>> => ({
  ages: { field: t('lecture.ages.fieldAges'), from: 0, to: OLDEST_AGE_years, most: 40 },
  pressures: { field: t('lecture.ages.fieldPressures'), from: -10, to: 30, most: MOST_LINES },
  opening: { field: t('lecture.ages.fieldOpening'), from: 3, to: 6.5, most: 1 },
});

/** What is to be computed: which ages, at which pressures. */
export function AgeForm() {
  const { measure, asked, values, run, ask, compute } = useAgeCharts();
  const now = asked[measure];
  const [ages, setAges] = useState(() => writtenNumbers(now.ages_years));
  const [pressures, setPressures] = useState(() => writtenNumbers(now.pressures_mmHg));
  const [opening, setOpening] = useState(() => writtenNumbers([now.opening_mm]));
  const [problems, setProblems] = useState<readonly string[]>([]);
  const cost = t(`lecture.ages.${measure}.cost`);
  /** Takes what stands in the fields, or says what is wrong with it. */
  const take = (): boolean => {
    const allowed = limits();
    const read = [
      parseNumbers(ages, allowed.ages),
      parseNumbers(pressures, allowed.pressures),
      parseNumbers(opening, allowed.opening),
    ] as const;
    const found = read.flatMap((one) => (one.ok ? [] : one.problems)).map(problemWords);
    setProblems(found);
    const [ages_years, pressures_mmHg, openings_mm] = read;
    if (!ages_years.ok || !pressures_mmHg.ok || !openings_mm.ok) return false;
    ask({
      ages_years: ages_years.value,
      pressures_mmHg: pressures_mmHg.value,
      opening_mm: openings_mm.value[0]!,
    });
    return true;
  };
  const { missing } = outcomesOf(measure, now, values);
  return (
    <form
      className="age-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (take()) void compute();
      }}
    >
      <Field label={t('lecture.ages.fieldAges')} value={ages} onChange={setAges} onLeave={take} testid="age-ages" />
      {isAtPressure(measure) && (
        <Field
          label={t('lecture.ages.fieldPressures')}
          value={pressures}
          onChange={setPressures}
          onLeave={take}
          testid="age-pressures"
        />
      )}
      {measure === 'line' && (
        <Field
          label={t('lecture.ages.fieldOpening')}
          value={opening}
          onChange={setOpening}
          onLeave={take}
          testid="age-opening"
        />
      )}
      <button type="submit" className="first" disabled={run !== null} data-testid="age-compute">
        {missing === 0 ? t('lecture.ages.compute') : t('lecture.ages.computePoints', { count: missing })}
      </button>
      <span className="hint">
        {missing === 0 ? t('lecture.ages.allComputed') : t('lecture.ages.onOneCore', { cost })}
      </span>
      {problems.length > 0 && (
        <ul className="problems" role="alert">
          {problems.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </form>
  );
}

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly testid: string;
  onChange(text: string): void;
  onLeave(): void;
}

function Field({ label, value, testid, onChange, onLeave }: FieldProps) {
  return (
    <label className="field">
      {label}
      <input value={value} onChange={(event) => onChange(event.target.value)} onBlur={onLeave} data-testid={testid} />
    </label>
  );
}

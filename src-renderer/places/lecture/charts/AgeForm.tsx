import { useState } from 'react';
import { formatProblem, OLDEST_AGE_years } from '../../../../physics/index.ts';
import { MOST_LINES } from '../../../charts/line-looks.ts';
import { outcomesOf } from './age-chart.ts';
import { AGE_MEASURES } from './age-measures.ts';
import { useAgeCharts } from './age-store.ts';
import { type NumberLimits, parseNumbers } from './parse-numbers.ts';

const AGES: NumberLimits = { field: 'ages', from: 0, to: OLDEST_AGE_years, unit: 'years', most: 40 };
const PRESSURES: NumberLimits = { field: 'net pressures', from: -10, to: 30, unit: 'mmHg', most: MOST_LINES };
const OPENING: NumberLimits = { field: 'planned opening', from: 3, to: 6.5, unit: 'mm', most: 1 };

/** What is to be computed: which ages, at which pressures. */
export function AgeForm() {
  const { measure, asked, values, run, ask, compute } = useAgeCharts();
  const now = asked[measure];
  const [ages, setAges] = useState(now.ages_years.join(', '));
  const [pressures, setPressures] = useState(now.pressures_mmHg.join(', '));
  const [opening, setOpening] = useState(String(now.opening_mm));
  const [problems, setProblems] = useState<readonly string[]>([]);
  const { atPressure, cost } = AGE_MEASURES[measure];
  /** Takes what stands in the fields, or says what is wrong with it. */
  const take = (): boolean => {
    const read = [
      parseNumbers(ages, AGES),
      parseNumbers(pressures, PRESSURES),
      parseNumbers(opening, OPENING),
    ] as const;
    const found = read.flatMap((one) => (one.ok ? [] : one.problems)).map(formatProblem);
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
      <Field label="Ages, years" value={ages} onChange={setAges} onLeave={take} testid="age-ages" />
      {atPressure && (
        <Field
          label="Net pressures, mmHg"
          value={pressures}
          onChange={setPressures}
          onLeave={take}
          testid="age-pressures"
        />
      )}
      {measure === 'line' && (
        <Field label="Planned opening, mm" value={opening} onChange={setOpening} onLeave={take} testid="age-opening" />
      )}
      <button type="submit" className="first" disabled={run !== null} data-testid="age-compute">
        {missing === 0 ? 'Compute' : `Compute ${missing} ${missing === 1 ? 'point' : 'points'}`}
      </button>
      <span className="hint">{missing === 0 ? 'All points are computed.' : `${cost} on one core`}</span>
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

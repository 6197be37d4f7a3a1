import { type FormEvent, useState } from 'react';
import {
  type CourseLimits,
  type FlatLimits,
  flatLimits,
  type LimitKey,
  limitProblems,
  limitsOf,
  type SimulatedLimit,
  USUAL_LIMITS,
} from '../../../../physics/index.ts';
import { number } from '../../../ui/format.ts';
import { LIMIT_FIELDS, saveLimits } from './course-limits.ts';

const shown = (flat: FlatLimits): Record<LimitKey, string> =>
  Object.fromEntries(
    LIMIT_FIELDS.map(({ key, percent }) => [key, String(Number((percent ? 100 * flat[key] : flat[key]).toFixed(4)))]),
  ) as Record<LimitKey, string>;

const read = (texts: Record<LimitKey, string>): CourseLimits =>
  limitsOf(
    Object.fromEntries(
      LIMIT_FIELDS.map(({ key, percent }) => {
        const value = texts[key].trim() === '' ? Number.NaN : Number(texts[key]);
        return [key, percent ? value / 100 : value];
      }),
    ) as unknown as FlatLimits,
  );

/** The limits that the course sets, with what follows from them. */
export function CourseLimitsForm({
  limits,
  simulated,
}: {
  readonly limits: CourseLimits;
  readonly simulated: SimulatedLimit;
}) {
  const [texts, setTexts] = useState(() => shown(flatLimits(limits)));
  const wanted = read(texts);
  const problems = limitProblems(wanted);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (problems.length === 0) void saveLimits(wanted);
  };
  return (
    <details className="log-details" data-testid="limits">
      <summary>Limits of the course</summary>
      <form className="log-form" onSubmit={submit}>
        {LIMIT_FIELDS.map(({ key, label, percent }) => (
          <label key={key} className="log-field">
            {label}
            <span>
              <input
                inputMode="decimal"
                size={6}
                value={texts[key]}
                onChange={(event) => setTexts({ ...texts, [key]: event.target.value })}
                data-testid={`limit-${key}`}
              />
              {percent ? ' %' : ''}
            </span>
          </label>
        ))}
        <button type="submit" disabled={problems.length > 0} data-testid="limits-save">
          Use these limits
        </button>
        <button type="button" onClick={() => setTexts(shown(flatLimits(USUAL_LIMITS)))}>
          Fill in the usual ones
        </button>
      </form>
      {problems.length > 0 && (
        <ul className="log-missed">
          {problems.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <p className="log-quiet" data-testid="simulated">
        The line of the learning-curve chart stands at {number(simulated.limit, 2)}: of {simulated.runs} simulated
        learners who are not there, {number(100 * simulated.falseSignalRate, 1)} % reach it within {limits.cases}{' '}
        attempts; of as many who are, {number(100 * simulated.trueSignalRate, 1)} % do. Usual: misses of 5 and 10 %,
        both risks 10 %, 100 attempts, 5 %. The rates are those used for surgical trainees; the last two are our choice.
      </p>
    </details>
  );
}

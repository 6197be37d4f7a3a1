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
import { t } from '../../../i18n/text.ts';
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

const WRONG = {
  acceptable: 'wrongShare',
  unacceptable: 'wrongUnacceptable',
  falseAlarm: 'wrongRisk',
  falseAcceptance: 'wrongRisk',
  cases: 'wrongCases',
  falseSignalRate: 'wrongShare',
} as const satisfies Readonly<Record<LimitKey, string>>;

/** A line of the check, which names its limit by key, as a line under the field's own name. */
function wrongWords(line: string): string {
  const found = LIMIT_FIELDS.find(({ key }) => line.startsWith(`limits: ${key}: `));
  if (found === undefined) return line;
  return t(`logbook.course.${WRONG[found.key]}`, { field: t(`logbook.course.${found.key}`) });
}

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
  const problems = limitProblems(wanted).map(wrongWords);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (problems.length === 0) void saveLimits(wanted);
  };
  return (
    <details className="log-details" data-testid="limits">
      <summary>{t('logbook.course.heading')}</summary>
      <form className="log-form" onSubmit={submit}>
        {LIMIT_FIELDS.map(({ key, percent }) => (
          <label key={key} className="log-field">
            {t(`logbook.course.${key}`)}
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
          {t('logbook.course.use')}
        </button>
        <button type="button" onClick={() => setTexts(shown(flatLimits(USUAL_LIMITS)))}>
          {t('logbook.course.fillUsual')}
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
        {t('logbook.course.simulated', {
          limit: number(simulated.limit, 2),
          runs: simulated.runs,
          falsePercent: number(100 * simulated.falseSignalRate, 1),
          truePercent: number(100 * simulated.trueSignalRate, 1),
          cases: limits.cases,
        })}
      </p>
    </details>
  );
}

/** What a course asks of the cumulative-sum charts: rates, risks, and how long a learner may take. */
import { formatProblem, type Problem } from '../core/result.ts';
import {
  type BoundaryRisks,
  type FailureRates,
  rateProblems,
  riskProblems,
  USUAL_RATES,
  USUAL_RISKS,
} from './cusum.ts';

export interface CourseLimits {
  readonly rates: FailureRates;
  readonly risks: BoundaryRisks;
  /** Attempts a learner gets before the learning-curve chart is judged, 1 to 500. */
  readonly cases: number;
  /** Share of people who are not there yet whom it may call ready within those attempts. */
  readonly falseSignalRate: number;
}

/** The usual rates and risks (sources beside them); 100 attempts and 5 % are our choice. */
export const USUAL_LIMITS: CourseLimits = { rates: USUAL_RATES, risks: USUAL_RISKS, cases: 100, falseSignalRate: 0.05 };

/** More would keep a page waiting. */
const MOST_CASES = 500;

/** Every number of the limits and the preference it is kept under. */
export const LIMIT_PREFERENCES = {
  acceptable: 'cusum.acceptable',
  unacceptable: 'cusum.unacceptable',
  falseAlarm: 'cusum.falseAlarm',
  falseAcceptance: 'cusum.falseAcceptance',
  cases: 'cusum.cases',
  falseSignalRate: 'cusum.falseSignal',
} as const;
export type LimitKey = keyof typeof LIMIT_PREFERENCES;

export type FlatLimits = Readonly<Record<LimitKey, number>>;

export const flatLimits = ({ rates, risks, cases, falseSignalRate }: CourseLimits): FlatLimits => ({
  ...rates,
  ...risks,
  cases,
  falseSignalRate,
});

export const limitsOf = (flat: FlatLimits): CourseLimits => ({
  rates: { acceptable: flat.acceptable, unacceptable: flat.unacceptable },
  risks: { falseAlarm: flat.falseAlarm, falseAcceptance: flat.falseAcceptance },
  cases: flat.cases,
  falseSignalRate: flat.falseSignalRate,
});

/** What is wrong with limits, as lines for a person; empty when they are sound. */
export function limitProblems(limits: CourseLimits): string[] {
  const problems: Problem[] = [...rateProblems(limits.rates), ...riskProblems(limits.risks)];
  const { cases, falseSignalRate } = limits;
  if (!(Number.isInteger(cases) && cases >= 1 && cases <= MOST_CASES)) {
    problems.push({
      file: 'limits',
      path: 'cases',
      found: String(cases),
      allowed: `a whole number from 1 to ${MOST_CASES}`,
    });
  }
  if (!(falseSignalRate > 0 && falseSignalRate < 1)) {
    const allowed = 'a risk above 0 and below 1';
    problems.push({ file: 'limits', path: 'falseSignalRate', found: String(falseSignalRate), allowed });
  }
  return problems.map(formatProblem);
}

/** The course's limits from what is kept; what is not there is as usual, limits that are not sound as a whole are the usual ones. */
export function courseLimitsOf(kept: Readonly<Record<string, unknown>>): CourseLimits {
  const flat: Record<LimitKey, number> = { ...flatLimits(USUAL_LIMITS) };
  for (const [key, preference] of Object.entries(LIMIT_PREFERENCES) as [LimitKey, string][]) {
    const value = kept[preference];
    if (typeof value === 'number') flat[key] = value;
  }
  const limits = limitsOf(flat);
  return limitProblems(limits).length === 0 ? limits : USUAL_LIMITS;
}

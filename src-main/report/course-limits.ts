/** What the course asks of the cumulative-sum charts, as it is kept among the preferences. */
import {
  type BoundaryRisks,
  type FailureRates,
  rateProblems,
  riskProblems,
  USUAL_RATES,
  USUAL_RISKS,
} from '../../physics/index.ts';
import type { Preferences } from '../ipc/contract.ts';

export interface CourseLimits {
  readonly rates: FailureRates;
  readonly risks: BoundaryRisks;
  /** Attempts that a learner gets before the learning-curve chart is judged. */
  readonly cases: number;
  /** Share of people who are not there yet whom that chart may call ready within those attempts. */
  readonly falseSignalRate: number;
}

/** The usual rates and risks; 100 attempts and 5 % are our choice. */
export const USUAL_LIMITS: CourseLimits = { rates: USUAL_RATES, risks: USUAL_RISKS, cases: 100, falseSignalRate: 0.05 };

const MOST_CASES = 500;

function sound({ rates, risks, cases, falseSignalRate }: CourseLimits): boolean {
  const known = rateProblems(rates).length === 0 && riskProblems(risks).length === 0;
  return (
    known && Number.isInteger(cases) && cases >= 1 && cases <= MOST_CASES && falseSignalRate > 0 && falseSignalRate < 1
  );
}

/** The course's limits from the preferences of this machine; limits that are not sound as a whole are the usual ones. */
export function courseLimitsOf(preferences: Preferences): CourseLimits {
  const kept = (key: string, usual: number): number => {
    const value = preferences[`cusum.${key}`];
    return typeof value === 'number' ? value : usual;
  };
  const limits: CourseLimits = {
    rates: {
      acceptable: kept('acceptable', USUAL_RATES.acceptable),
      unacceptable: kept('unacceptable', USUAL_RATES.unacceptable),
    },
    risks: {
      falseAlarm: kept('falseAlarm', USUAL_RISKS.falseAlarm),
      falseAcceptance: kept('falseAcceptance', USUAL_RISKS.falseAcceptance),
    },
    cases: kept('cases', USUAL_LIMITS.cases),
    falseSignalRate: kept('falseSignal', USUAL_LIMITS.falseSignalRate),
  };
  return sound(limits) ? limits : USUAL_LIMITS;
}

/** What the course asks of the cumulative-sum charts: rates, risks, and how long a learner may take. Kept as preferences. */
import { create } from 'zustand';
import {
  type BoundaryRisks,
  type FailureRates,
  formatProblem,
  type Problem,
  rateProblems,
  riskProblems,
  type SimulatedLimit,
  simulateLimit,
  USUAL_RATES,
  USUAL_RISKS,
} from '../../../../physics/index.ts';
import { say } from '../save-text.ts';
import { faultWords, storeHost } from '../store-host.ts';

export interface CourseLimits {
  readonly rates: FailureRates;
  readonly risks: BoundaryRisks;
  /** Attempts a learner gets before the learning-curve chart is judged, 1 to 500. */
  readonly cases: number;
  /** Share of people who are not there yet whom it may call ready within those attempts. */
  readonly falseSignalRate: number;
}

/** The usual rates and risks (sources beside them in the physics); 100 attempts and 5 % are our choice. */
export const USUAL_LIMITS: CourseLimits = { rates: USUAL_RATES, risks: USUAL_RISKS, cases: 100, falseSignalRate: 0.05 };

/** More would keep the page waiting. */
const MOST_CASES = 500;

/** Every number of the limits: its preference, its name, and where it stands. */
export const LIMIT_FIELDS = [
  { key: 'acceptable', preference: 'cusum.acceptable', label: 'Good enough: misses at most', percent: true },
  { key: 'unacceptable', preference: 'cusum.unacceptable', label: 'Not good enough: misses from', percent: true },
  { key: 'falseAlarm', preference: 'cusum.falseAlarm', label: 'Risk of blaming good work', percent: true },
  {
    key: 'falseAcceptance',
    preference: 'cusum.falseAcceptance',
    label: 'Risk of passing work that is not',
    percent: true,
  },
  { key: 'cases', preference: 'cusum.cases', label: 'Attempts a learner gets', percent: false },
  {
    key: 'falseSignalRate',
    preference: 'cusum.falseSignal',
    label: 'Risk of calling a learner ready too early',
    percent: true,
  },
] as const;
export type LimitKey = (typeof LIMIT_FIELDS)[number]['key'];

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

export const useLimits = create<{ readonly limits: CourseLimits; readonly loaded: boolean }>(() => ({
  limits: USUAL_LIMITS,
  loaded: false,
}));

/** Takes the course's limits from the preferences; what is not there or not sound stays as usual. */
export async function loadLimits(): Promise<void> {
  try {
    const kept = await storeHost().loadPreferences();
    const flat: Record<string, number> = { ...flatLimits(USUAL_LIMITS) };
    for (const { key, preference } of LIMIT_FIELDS) {
      const value = kept[preference];
      if (typeof value === 'number') flat[key] = value;
    }
    const limits = limitsOf(flat as FlatLimits);
    useLimits.setState({ limits: limitProblems(limits).length === 0 ? limits : USUAL_LIMITS, loaded: true });
  } catch (fault) {
    useLimits.setState({ loaded: true });
    say(`The course's limits could not be read: ${faultWords(fault)}`, true);
  }
}

export async function saveLimits(limits: CourseLimits): Promise<void> {
  useLimits.setState({ limits });
  const flat = flatLimits(limits);
  try {
    for (const { key, preference } of LIMIT_FIELDS) await storeHost().savePreference(preference, flat[key]);
    say("The course's limits are kept on this machine.");
  } catch (fault) {
    say(`The limits hold until the window is closed; they could not be kept: ${faultWords(fault)}`, true);
  }
}

const simulated = new Map<string, SimulatedLimit>();

/** The limit h of the learning-curve chart for these course limits; simulated once, then remembered. */
export function learningLimit({ rates, cases, falseSignalRate }: CourseLimits): SimulatedLimit {
  const key = JSON.stringify([rates, cases, falseSignalRate]);
  const known = simulated.get(key);
  if (known !== undefined) return known;
  const made = simulateLimit({ rates, cases, falseSignalRate });
  simulated.set(key, made);
  return made;
}

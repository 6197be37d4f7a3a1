/** What the course asks of the cumulative-sum charts, as this page holds and keeps it. */
import { create } from 'zustand';
import {
  type CourseLimits,
  courseLimitsOf,
  flatLimits,
  LIMIT_PREFERENCES,
  type LimitKey,
  type SimulatedLimit,
  simulateLimit,
  USUAL_LIMITS,
} from '../../../../physics/index.ts';
import { say } from '../save-text.ts';
import { faultWords, storeHost } from '../store-host.ts';

/** Every number of the limits as a field: its name, and whether it is written in per cent. */
export const LIMIT_FIELDS = [
  { key: 'acceptable', label: 'Good enough: misses at most', percent: true },
  { key: 'unacceptable', label: 'Not good enough: misses from', percent: true },
  { key: 'falseAlarm', label: 'Risk of blaming good work', percent: true },
  { key: 'falseAcceptance', label: 'Risk of passing work that is not', percent: true },
  { key: 'cases', label: 'Attempts a learner gets', percent: false },
  { key: 'falseSignalRate', label: 'Risk of calling a learner ready too early', percent: true },
] as const satisfies readonly { readonly key: LimitKey; readonly label: string; readonly percent: boolean }[];

export const useLimits = create<{ readonly limits: CourseLimits; readonly loaded: boolean }>(() => ({
  limits: USUAL_LIMITS,
  loaded: false,
}));

/** Takes the course's limits from the preferences; what is not there or not sound stays as usual. */
export async function loadLimits(): Promise<void> {
  try {
    useLimits.setState({ limits: courseLimitsOf(await storeHost().loadPreferences()), loaded: true });
  } catch (fault) {
    useLimits.setState({ loaded: true });
    say(`The course's limits could not be read: ${faultWords(fault)}`, true);
  }
}

export async function saveLimits(limits: CourseLimits): Promise<void> {
  useLimits.setState({ limits });
  const flat = flatLimits(limits);
  try {
    for (const { key } of LIMIT_FIELDS) await storeHost().savePreference(LIMIT_PREFERENCES[key], flat[key]);
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

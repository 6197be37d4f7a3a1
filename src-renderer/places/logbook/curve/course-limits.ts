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
import { t } from '../../../i18n/text.ts';
import { say } from '../save-text.ts';
import { faultWords, storeHost } from '../store-host.ts';

/** Every number of the limits as a field, and whether it is written in per cent; its name is the message `logbook.course.<key>`. */
export const LIMIT_FIELDS = [
  { key: 'acceptable', percent: true },
  { key: 'unacceptable', percent: true },
  { key: 'falseAlarm', percent: true },
  { key: 'falseAcceptance', percent: true },
  { key: 'cases', percent: false },
  { key: 'falseSignalRate', percent: true },
] as const satisfies readonly { readonly key: LimitKey; readonly percent: boolean }[];

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
    say(t('logbook.course.notRead', { fault: faultWords(fault) }), true);
  }
}

export async function saveLimits(limits: CourseLimits): Promise<void> {
  useLimits.setState({ limits });
  const flat = flatLimits(limits);
  try {
    for (const { key } of LIMIT_FIELDS) await storeHost().savePreference(LIMIT_PREFERENCES[key], flat[key]);
    say(t('logbook.course.kept'));
  } catch (fault) {
    say(t('logbook.course.notKept', { fault: faultWords(fault) }), true);
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

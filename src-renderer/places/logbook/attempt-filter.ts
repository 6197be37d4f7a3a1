/** Which attempts of the logbook are shown. */
import type { AttemptPlace, AttemptSummary, ClassGroup } from '../../../src-main/ipc/contract.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { localDay } from './attempt-columns.ts';

export type PassedFilter = 'any' | 'passed' | 'missed' | 'unfinished';

/** Null or an empty text lets everything through. Dates are year-month-day in this machine's time zone, inclusive. */
export interface LogbookFilter {
  readonly personId: string | null;
  readonly classId: string | null;
  readonly scenarioId: string | null;
  readonly place: AttemptPlace | null;
  readonly passed: PassedFilter;
  readonly fromBundle: string | null;
  readonly since: string;
  readonly until: string;
}

export const NO_FILTER: LogbookFilter = {
  personId: null,
  classId: null,
  scenarioId: null,
  place: null,
  passed: 'any',
  fromBundle: null,
  since: '',
  until: '',
};

/** How the attempts that were made on this machine are chosen among bundles. */
export const MADE_HERE = '(here)';

/** The attempts that pass. A class that is gone lets nobody through. */
export function filterAttempts(
  attempts: readonly AttemptSummary[],
  filter: LogbookFilter,
  classes: readonly ClassGroup[],
): AttemptSummary[] {
  const members =
    filter.classId === null ? null : new Set(classes.find(({ id }) => id === filter.classId)?.memberIds ?? []);
  return attempts.filter((attempt) => {
    if (filter.personId !== null && attempt.personId !== filter.personId) return false;
    if (members !== null && !members.has(attempt.personId)) return false;
    if (filter.scenarioId !== null && attempt.scenarioId !== filter.scenarioId) return false;
    if (filter.place !== null && attempt.place !== filter.place) return false;
    if (!fitsPassed(attempt, filter.passed)) return false;
    if (filter.fromBundle !== null && (attempt.fromBundle ?? MADE_HERE) !== filter.fromBundle) return false;
    const day = filter.since === '' && filter.until === '' ? '' : localDay(attempt.startedAt);
    return (filter.since === '' || day >= filter.since) && (filter.until === '' || day <= filter.until);
  });
}

function fitsPassed({ ended, passed }: AttemptSummary, wanted: PassedFilter): boolean {
  if (wanted === 'any') return true;
  if (wanted === 'unfinished') return ended === null;
  return ended !== null && passed === (wanted === 'passed');
}

export interface Choice {
  readonly id: string;
  readonly label: string;
}

function choicesBy(
  attempts: readonly AttemptSummary[],
  id: (attempt: AttemptSummary) => string,
  label: (attempt: AttemptSummary) => string,
): Choice[] {
  const labels = new Map<string, string>();
  for (const attempt of attempts) if (!labels.has(id(attempt))) labels.set(id(attempt), label(attempt));
  return [...labels].map(([key, text]) => ({ id: key, label: text })).sort((a, b) => a.label.localeCompare(b.label));
}

/** The eyes that occur, by title. */
export const scenarioChoices = (attempts: readonly AttemptSummary[]): Choice[] =>
  choicesBy(
    attempts,
    ({ scenarioId }) => scenarioId,
    ({ scenarioTitle }) => textOf(scenarioTitle),
  );

/** The bundles that occur, and "made here". */
export const bundleChoices = (attempts: readonly AttemptSummary[]): Choice[] =>
  choicesBy(
    attempts,
    ({ fromBundle }) => fromBundle ?? MADE_HERE,
    ({ fromBundle }) => fromBundle ?? t('logbook.filter.madeHere'),
  );

/** True when anything is held back. */
export const isFiltering = (filter: LogbookFilter): boolean =>
  (Object.keys(NO_FILTER) as (keyof LogbookFilter)[]).some((key) => filter[key] !== NO_FILTER[key]);

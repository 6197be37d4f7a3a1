/** The columns of the logbook's list: what each shows, and what it is sorted by. */
import type { AttemptSummary, ReplayState, SealState } from '../../../src-main/ipc/contract.ts';
import { number } from '../../ui/format.ts';

export const COLUMN_IDS = [
  'when',
  'who',
  'eye',
  'place',
  'ended',
  'passed',
  'diameter',
  'centreOff',
  'circularity',
  'time',
  'seal',
  'replayed',
] as const;
export type ColumnId = (typeof COLUMN_IDS)[number];

export interface AttemptColumn {
  readonly label: string;
  /** Unit, printed once in the heading; empty where there is none. */
  readonly unit: string;
  readonly numeric: boolean;
  readonly text: (attempt: AttemptSummary) => string;
  /** What the column is sorted by; null sorts last either way. */
  readonly rank: (attempt: AttemptSummary) => string | number | null;
}

const pad = (value: number): string => String(value).padStart(2, '0');

/** Day in this machine's time zone as year-month-day; empty for what is no date. */
export function localDay(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return '';
  return `${at.getFullYear()}-${pad(at.getMonth() + 1)}-${pad(at.getDate())}`;
}

/** Day and minute in this machine's time zone. */
export function whenWords(iso: string): string {
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? '–' : `${localDay(iso)} ${pad(at.getHours())}:${pad(at.getMinutes())}`;
}

const ENDED_WORDS = { complete: 'complete', 'run-out': 'run-out', open: 'left open', stalled: 'stalled' } as const;

/** How an attempt ended, in one or two words. */
export const endedWord = ({ ended }: AttemptSummary): string => (ended === null ? 'unfinished' : ENDED_WORDS[ended]);

/** Mark and word, so that neither depends on seeing colours. */
export const passedWords = (passed: boolean | null): string =>
  passed === null ? '–' : passed ? '✓ passed' : '✕ not passed';

export const SEAL_WORDS: Readonly<Record<SealState, string>> = {
  fits: '✓ fits',
  broken: '✕ broken',
  unsealed: '– none',
};
export const REPLAY_WORDS: Readonly<Record<ReplayState, string>> = {
  same: '✓ same',
  different: '✕ different',
  'not-tried': 'not yet',
};

const text = (label: string, read: (attempt: AttemptSummary) => string, rank = read as AttemptColumn['rank']) => ({
  label,
  unit: '',
  numeric: false,
  text: read,
  rank,
});

const figure = (
  label: string,
  unit: string,
  decimals: number,
  read: (attempt: AttemptSummary) => number | undefined,
): AttemptColumn => ({
  label,
  unit,
  numeric: true,
  text: (attempt) => number(read(attempt), decimals),
  rank: (attempt) => {
    const value = read(attempt);
    return value === undefined || !Number.isFinite(value) ? null : value;
  },
});

const REPLAY_RANK: readonly ReplayState[] = ['different', 'not-tried', 'same'];
const SEAL_RANK: readonly SealState[] = ['broken', 'unsealed', 'fits'];

export const COLUMNS: Readonly<Record<ColumnId, AttemptColumn>> = {
  when: text(
    'When',
    ({ startedAt }) => whenWords(startedAt),
    ({ startedAt }) => startedAt,
  ),
  who: text('Who', ({ personName }) => personName),
  eye: text('Eye', ({ scenarioTitle }) => scenarioTitle),
  place: text('Place', ({ place }) => (place === 'trial' ? 'Trial' : 'Bench')),
  ended: text('Ended', endedWord),
  passed: text(
    'Passed',
    ({ passed }) => passedWords(passed),
    ({ passed }) => (passed === null ? null : Number(passed)),
  ),
  diameter: figure('Diameter', 'mm', 2, ({ opening }) => opening?.equivalentDiameter_mm),
  centreOff: figure('Centre off', 'mm', 2, ({ opening }) => opening?.centroidDistance_mm),
  circularity: figure('Circularity', '', 2, ({ opening }) => opening?.circularity),
  time: figure('Time', 's', 0, ({ work }) => work?.time_s),
  seal: text(
    'Seal',
    ({ seal }) => SEAL_WORDS[seal],
    ({ seal }) => SEAL_RANK.indexOf(seal),
  ),
  replayed: text(
    'Replayed',
    ({ replay }) => REPLAY_WORDS[replay],
    ({ replay }) => REPLAY_RANK.indexOf(replay),
  ),
};

export interface Sorting {
  readonly column: ColumnId;
  readonly descending: boolean;
}

const collator = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

function compareRanks(a: string | number, b: string | number): number {
  return typeof a === 'number' && typeof b === 'number' ? a - b : collator.compare(String(a), String(b));
}

/** A sorted copy. What has no value stands last either way; equals keep the newest first. */
export function sortAttempts(attempts: readonly AttemptSummary[], sorting: Sorting): AttemptSummary[] {
  const { rank } = COLUMNS[sorting.column];
  const way = sorting.descending ? -1 : 1;
  const keyed = attempts.map((attempt) => ({ attempt, key: rank(attempt) }));
  keyed.sort((a, b) => {
    if (a.key === null || b.key === null) {
      if (a.key !== b.key) return a.key === null ? 1 : -1;
    } else {
      const order = way * compareRanks(a.key, b.key);
      if (order !== 0) return order;
    }
    return a.attempt.startedAt < b.attempt.startedAt ? 1 : a.attempt.startedAt > b.attempt.startedAt ? -1 : 0;
  });
  return keyed.map(({ attempt }) => attempt);
}

/** What a click on a column's heading asks for: that column, and the other way round when it is already that column. */
export function sortingAfter(sorting: Sorting, column: ColumnId): Sorting {
  if (sorting.column === column) return { column, descending: !sorting.descending };
  return { column, descending: column === 'when' || column === 'passed' };
}

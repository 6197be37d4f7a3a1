/** The columns of the logbook's list: what each shows, and what it is sorted by. */
import type { AttemptSummary, ReplayState, SealState } from '../../../src-main/ipc/contract.ts';
import { textOf } from '../../i18n/content.ts';
import { t, useLanguage } from '../../i18n/text.ts';
import { DASH, number } from '../../ui/format.ts';

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

/** Its name is the message `logbook.column.<id>`. */
export interface AttemptColumn {
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

const dayAndMinute = new Map<string, Intl.DateTimeFormat>();

/** Day and minute in this machine's time zone, as the language writes them; the month is a word, so that no order misleads. */
export function whenWords(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return DASH;
  const { language } = useLanguage.getState();
  let format = dayAndMinute.get(language);
  if (format === undefined) {
    // the day before the month, as in the other languages
    format = new Intl.DateTimeFormat(`${language === 'en' ? 'en-GB' : language}-u-nu-latn`, {
      day: '2-digit',
      month: 'short',
      year: 'numeric',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    });
    dayAndMinute.set(language, format);
  }
  return format.format(at);
}

/** How an attempt ended, in one or two words. */
export const endedWord = ({ ended }: AttemptSummary): string => t(`logbook.ended.${ended ?? 'unfinished'}`);

/** Mark and word, so that neither depends on seeing colours. */
export const passedWords = (passed: boolean | null): string =>
  passed === null ? DASH : t(passed ? 'logbook.passed.yes' : 'logbook.passed.no');

const text = (read: (attempt: AttemptSummary) => string, rank = read as AttemptColumn['rank']) => ({
  unit: '',
  numeric: false,
  text: read,
  rank,
});

const figure = (
  unit: string,
  decimals: number,
  read: (attempt: AttemptSummary) => number | undefined,
): AttemptColumn => ({
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
    ({ startedAt }) => whenWords(startedAt),
    ({ startedAt }) => startedAt,
  ),
  who: text(({ personName }) => personName),
  eye: text(({ scenarioTitle }) => textOf(scenarioTitle)),
  place: text(({ place }) => t(`logbook.place.${place}`)),
  ended: text(endedWord),
  passed: text(
    ({ passed }) => passedWords(passed),
    ({ passed }) => (passed === null ? null : Number(passed)),
  ),
  diameter: figure('mm', 2, ({ opening }) => opening?.equivalentDiameter_mm),
  centreOff: figure('mm', 2, ({ opening }) => opening?.centroidDistance_mm),
  circularity: figure('', 2, ({ opening }) => opening?.circularity),
  time: figure('s', 0, ({ work }) => work?.time_s),
  seal: text(
    ({ seal }) => t(`logbook.seal.${seal}`),
    ({ seal }) => SEAL_RANK.indexOf(seal),
  ),
  replayed: text(
    ({ replay }) => t(`logbook.replayed.${replay}`),
    ({ replay }) => REPLAY_RANK.indexOf(replay),
  ),
};

/** Which columns stand in each cell of a wide table, and of one that is folded because it would not fit. */
export const WIDE_CELLS: readonly (readonly ColumnId[])[] = COLUMN_IDS.map((id) => [id]);
export const FOLDED_CELLS: readonly (readonly ColumnId[])[] = [
  ['when', 'who'],
  ['eye', 'place'],
  ['ended', 'passed'],
  ['diameter', 'centreOff'],
  ['circularity', 'time'],
  ['seal', 'replayed'],
];

interface CsvColumn {
  readonly head: string;
  readonly value: (attempt: AttemptSummary) => string | number | null;
}

const figureCell = (id: ColumnId, head: string): CsvColumn => ({ head, value: COLUMNS[id].rank });

/** The same columns in a file: English whatever the language, numbers unrounded, times as ISO 8601, null as an empty cell. */
export const CSV_COLUMNS: Readonly<Record<ColumnId, CsvColumn>> = {
  when: { head: 'When', value: ({ startedAt }) => startedAt },
  who: { head: 'Who', value: ({ personName }) => personName },
  eye: { head: 'Eye', value: ({ scenarioTitle }) => scenarioTitle },
  place: { head: 'Place', value: ({ place }) => place },
  ended: { head: 'Ended', value: ({ ended }) => ended ?? 'unfinished' },
  passed: { head: 'Passed', value: ({ passed }) => (passed === null ? null : passed ? 'passed' : 'not passed') },
  diameter: figureCell('diameter', 'Diameter, mm'),
  centreOff: figureCell('centreOff', 'Centre off, mm'),
  circularity: figureCell('circularity', 'Circularity'),
  time: figureCell('time', 'Time, s'),
  seal: { head: 'Seal', value: ({ seal }) => seal },
  replayed: { head: 'Replayed', value: ({ replay }) => replay },
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

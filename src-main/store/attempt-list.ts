import type { AttemptFilter, AttemptSummary, OpeningShape } from '../ipc/contract.ts';
import { ENTRY_SQL, ENTRY_TABLES, summaryOf } from './entry.ts';
import { unpackOutline } from './outline.ts';
import type { Database } from './sqlite.ts';

const MOST_LISTED = 5000;

/** A date without a time means its whole day, in both directions. */
const endOf = (date: string): string => (date.length === 10 ? `${date}T23:59:59.999Z` : date);

interface Where {
  readonly sql: string;
  readonly values: readonly (string | number)[];
}

function whereOf(filter: AttemptFilter): Where {
  const parts: [string, string | number][] = [];
  if (filter.personId !== undefined) parts.push(['a.person_id = ?', filter.personId]);
  if (filter.classId !== undefined) {
    parts.push(['a.person_id IN (SELECT m.person_id FROM class_members m WHERE m.class_id = ?)', filter.classId]);
  }
  if (filter.scenarioId !== undefined) parts.push(['s.scenario_id = ?', filter.scenarioId]);
  if (filter.place !== undefined) parts.push(['a.place = ?', filter.place]);
  if (filter.passed !== undefined) parts.push(['a.passed = ?', filter.passed ? 1 : 0]);
  if (filter.fromBundle !== undefined) parts.push(['a.from_bundle = ?', filter.fromBundle]);
  if (filter.since !== undefined) parts.push(['a.started_at >= ?', filter.since]);
  if (filter.until !== undefined) parts.push(['a.started_at <= ?', endOf(filter.until)]);
  return { sql: parts.map(([sql]) => ` AND ${sql}`).join(''), values: parts.map(([, value]) => value) };
}

const NEWEST_FIRST = 'ORDER BY a.started_at DESC, a.number DESC LIMIT ?';

/** Lines of the logbook, newest first. */
export function listAttempts(database: Database, filter: AttemptFilter): readonly AttemptSummary[] {
  const { sql, values } = whereOf(filter);
  const query = `SELECT ${ENTRY_SQL} FROM ${ENTRY_TABLES} WHERE 1${sql} ${NEWEST_FIRST}`;
  return database.all(query, ...values, filter.limit ?? MOST_LISTED).map(summaryOf);
}

/** Attempts that were begun and never finished, newest first; those without a single command are nothing to offer. */
export function unfinishedAttempts(database: Database): readonly AttemptSummary[] {
  const query = `SELECT ${ENTRY_SQL} FROM ${ENTRY_TABLES} WHERE a.ended_at IS NULL ${NEWEST_FIRST}`;
  return database
    .all(query, MOST_LISTED)
    .map(summaryOf)
    .filter(({ steps }) => steps > 0);
}

/** So many outlines are drawn over each other as a cloud, in which half the corners do: half the way to the page. */
const MOST_WITH_ALL_CORNERS = 400;

/** Outlines of the finished openings that the filter lets through; of more than 400, every second corner. */
export function openingShapes(database: Database, filter: AttemptFilter): readonly OpeningShape[] {
  const { sql, values } = whereOf(filter);
  const query = `SELECT a.id, o.outline FROM ${ENTRY_TABLES} JOIN shapes o ON o.attempt = a.number
    WHERE 1${sql} ${NEWEST_FIRST}`;
  const rows = database.all(query, ...values, filter.limit ?? MOST_LISTED);
  const every = rows.length > MOST_WITH_ALL_CORNERS ? 2 : 1;
  return rows.flatMap(({ id, outline }) => {
    const outline_mm = outline instanceof Uint8Array ? unpackOutline(outline, every) : null;
    return outline_mm === null ? [] : [{ attemptId: String(id), outline_mm }];
  });
}

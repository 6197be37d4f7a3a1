import type { Database, Row } from './sqlite.ts';

/** What was carried over into a new store, and what could not be. */
export interface Carried {
  readonly people: number;
  readonly attempts: number;
  /** Attempts that were there but could not be read, or not all of them. */
  readonly unreadable: number;
}

const NAMELESS = 'Name not readable';

/**
 * Rows of a table as far as they can be read: from the front, and where damage stops that, from the back up to it.
 * The key is the table's row number.
 */
function* readableRows(from: Database, table: string): Generator<Row> {
  let last = Number.NEGATIVE_INFINITY;
  const key = (row: Row): number => Number(row.row_number);
  try {
    for (const row of from.db.prepare(`SELECT rowid AS row_number, * FROM ${table} ORDER BY rowid`).iterate()) {
      last = key(row as Row);
      yield row as Row;
    }
    return;
  } catch {
    // Damage: the rest is tried from its other end.
  }
  try {
    for (const row of from.db.prepare(`SELECT rowid AS row_number, * FROM ${table} ORDER BY rowid DESC`).iterate()) {
      if (key(row as Row) <= last) return;
      yield row as Row;
    }
  } catch {
    // What lies between is lost.
  }
}

const tryTo = <T>(work: () => T): T | null => {
  try {
    return work();
  } catch {
    return null;
  }
};

/** Puts one row in; false where it does not fit the table's rules. Only columns that we know are taken. */
function put(into: Database, table: string, columns: readonly string[], row: Row): boolean {
  const marks = columns.map(() => '?').join(', ');
  const sql = `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${marks})`;
  return tryTo(() => into.run(sql, ...columns.map((column) => row[column] ?? null))) !== null;
}

const ATTEMPT_COLUMNS = [
  ...['number', 'id', 'person_id', 'place', 'scenario_digest', 'seed', 'model_version', 'started_at', 'ended_at'],
  ...['steps', 'passed', 'summary', 'seal', 'stored_digest', 'entry_digest', 'seal_state', 'replay_state'],
  'from_bundle',
];

/** The parts of one attempt, each on its own: true when every one of them was read and kept. */
function carryParts(from: Database, into: Database, number: number): boolean {
  const part = (table: string, columns: readonly string[], order: string): boolean => {
    const rows = tryTo(() => from.all(`SELECT * FROM ${table} WHERE attempt = ? ORDER BY ${order}`, number));
    // Commands of an unfinished attempt: where the whole list cannot be read, its beginning may be.
    const found = rows ?? readableStart(from, table, order, number);
    return found.map((row) => put(into, table, columns, row)).every(Boolean) && rows !== null;
  };
  const commands = part('commands', ['attempt', 'from_step', 'count', 'packed'], 'from_step');
  const result = part('results', ['attempt', 'packed'], 'attempt');
  const shape = part('shapes', ['attempt', 'outline'], 'attempt');
  return commands && result && shape;
}

function readableStart(from: Database, table: string, order: string, number: number): Row[] {
  const rows: Row[] = [];
  tryTo(() => {
    const statement = from.db.prepare(`SELECT * FROM ${table} WHERE attempt = ? ORDER BY ${order}`);
    for (const row of statement.iterate(number)) rows.push(row as Row);
  });
  return rows;
}

function carryAttempts(from: Database, into: Database): Pick<Carried, 'attempts' | 'unreadable'> {
  let attempts = 0;
  let unreadable = 0;
  for (const row of readableRows(from, 'attempts')) {
    const nameless = { id: row.person_id, name: NAMELESS, colour: 'slate' };
    if (into.one('SELECT 1 FROM people WHERE id = ?', String(row.person_id)) === undefined) {
      put(into, 'people', ['id', 'name', 'colour'], nameless);
    }
    if (!put(into, 'attempts', ATTEMPT_COLUMNS, row)) {
      unreadable += 1;
      continue;
    }
    attempts += 1;
    if (!carryParts(from, into, Number(row.number))) unreadable += 1;
  }
  return { attempts, unreadable };
}

/**
 * Carries everything that can be read of one store into another, new one, row by row: nothing of the old file's
 * structure comes along, so it may be damaged or from somebody else. Seals come as they are; reading an attempt checks
 * them. One transaction.
 */
export function copyStore(from: Database, into: Database): Carried {
  return into.transaction(() => {
    let people = 0;
    for (const row of readableRows(from, 'people')) {
      if (put(into, 'people', ['id', 'name', 'colour'], row)) people += 1;
    }
    for (const row of readableRows(from, 'classes')) put(into, 'classes', ['id', 'name'], row);
    for (const row of readableRows(from, 'class_members')) {
      put(into, 'class_members', ['class_id', 'person_id', 'position'], row);
    }
    for (const row of readableRows(from, 'scenarios')) {
      put(into, 'scenarios', ['digest', 'scenario_id', 'title', 'text'], row);
    }
    return { people, ...carryAttempts(from, into) };
  });
}

/** How many attempts a store says it holds, null when it cannot say. */
export const countAttempts = (database: Database): number | null =>
  tryTo(() => Number(database.value('SELECT count(*) FROM attempts')));

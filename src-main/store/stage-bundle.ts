import type { Entry } from './attempts.ts';
import type { Database } from './sqlite.ts';

/**
 * Where a bundle's content waits until all of it has been read: temporary tables of this connection, which no one else
 * sees and which are gone when it closes, however the program ends.
 */
const TABLES = `
  DROP TABLE IF EXISTS temp.staged_attempts;
  DROP TABLE IF EXISTS temp.staged_scenarios;
  DROP TABLE IF EXISTS temp.staged_people;
  CREATE TEMP TABLE staged_people (id TEXT PRIMARY KEY, name TEXT, colour TEXT);
  CREATE TEMP TABLE staged_scenarios (digest TEXT PRIMARY KEY, scenario_id TEXT, title TEXT, text TEXT);
  CREATE TEMP TABLE staged_attempts (
    id TEXT PRIMARY KEY, person_id TEXT, place TEXT, scenario_digest TEXT, seed INTEGER, model_version TEXT,
    started_at TEXT, ended_at TEXT, steps INTEGER, passed INTEGER, summary TEXT, seal TEXT, stored_digest TEXT,
    commands BLOB, result BLOB, outline BLOB
  );
`;

export const openStage = (database: Database): void => database.exec(TABLES);

/** Throws the staged content away. Never throws: the connection may be closed already. */
export function clearStage(database: Database): void {
  try {
    for (const table of ['attempts', 'scenarios', 'people']) database.exec(`DROP TABLE IF EXISTS temp.staged_${table}`);
  } catch {
    // Gone with its connection.
  }
}

/** The line of a finished, sealed attempt with its content. */
export interface StagedAttempt extends Entry {
  readonly passed: number;
  readonly seal: string;
  readonly commands: Uint8Array;
  readonly result: Uint8Array;
  readonly outline: Uint8Array | null;
}

const COLUMNS = [
  ...['id', 'person_id', 'place', 'scenario_digest', 'seed', 'model_version', 'started_at', 'ended_at', 'steps'],
  ...['passed', 'summary', 'seal', 'stored_digest', 'commands', 'result', 'outline'],
] as const satisfies readonly (keyof StagedAttempt)[];

const STAGE_ATTEMPT = `INSERT INTO temp.staged_attempts (${COLUMNS.join(', ')}) VALUES (${COLUMNS.map(() => '?').join(', ')})`;

export const stageAttempt = (database: Database, staged: StagedAttempt): void =>
  void database.run(STAGE_ATTEMPT, ...COLUMNS.map((column) => staged[column]));

import { Refusal } from '../ipc/answer.ts';
import type { Database } from './sqlite.ts';

/** "RIMW": tells our file from any other SQLite file. */
export const APPLICATION_ID = 0x52494d57;

/**
 * One step per version of the store, in order; `user_version` is the number of steps taken. A step that has shipped is
 * never changed, only followed by another.
 */
const STEPS: readonly string[] = [
  `
  CREATE TABLE people (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    colour TEXT NOT NULL
  ) STRICT;

  CREATE TABLE classes (id TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL) STRICT;

  CREATE TABLE class_members (
    class_id TEXT NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    person_id TEXT NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    PRIMARY KEY (class_id, person_id)
  ) STRICT;

  -- A scenario as it was played, once per content.
  CREATE TABLE scenarios (
    digest TEXT NOT NULL PRIMARY KEY,
    scenario_id TEXT NOT NULL,
    title TEXT NOT NULL,
    text TEXT NOT NULL
  ) STRICT;

  CREATE TABLE attempts (
    number INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    person_id TEXT NOT NULL REFERENCES people (id),
    place TEXT NOT NULL,
    scenario_digest TEXT NOT NULL REFERENCES scenarios (digest),
    seed INTEGER NOT NULL,
    model_version TEXT NOT NULL,
    started_at TEXT NOT NULL,
    -- Null while unfinished, as is what follows.
    ended_at TEXT,
    steps INTEGER,
    passed INTEGER,
    -- What the logbook's line shows of the result, canonical JSON.
    summary TEXT,
    -- Over scenario, seed, model version, commands and result.
    seal TEXT,
    -- Over the stored bytes of commands and result, and over this line: any byte changed in either shows.
    stored_digest TEXT,
    entry_digest TEXT,
    seal_state TEXT NOT NULL DEFAULT 'unsealed',
    replay_state TEXT NOT NULL DEFAULT 'not-tried',
    from_bundle TEXT
  ) STRICT;
  CREATE INDEX attempts_by_person ON attempts (person_id, started_at);
  CREATE INDEX attempts_by_scenario ON attempts (scenario_digest);
  CREATE INDEX attempts_by_time ON attempts (started_at);
  CREATE INDEX attempts_by_seal ON attempts (seal);

  -- Packed commands; one row per append while the attempt runs, one row in all once it is finished.
  CREATE TABLE commands (
    attempt INTEGER NOT NULL REFERENCES attempts (number) ON DELETE CASCADE,
    from_step INTEGER NOT NULL,
    count INTEGER NOT NULL,
    packed BLOB NOT NULL,
    PRIMARY KEY (attempt, from_step)
  ) STRICT;

  -- Canonical JSON of the result, compressed.
  CREATE TABLE results (
    attempt INTEGER NOT NULL PRIMARY KEY REFERENCES attempts (number) ON DELETE CASCADE,
    packed BLOB NOT NULL
  ) STRICT;

  -- Thinned relaxed outline of a finished opening: x, y pairs, 64-bit floats, mm.
  CREATE TABLE shapes (
    attempt INTEGER NOT NULL PRIMARY KEY REFERENCES attempts (number) ON DELETE CASCADE,
    outline BLOB NOT NULL
  ) STRICT;
  `,
];

export const STORE_VERSION = STEPS.length;

/** Brings a store up to this program's version, each step whole or not at all. Refuses a store of a newer program. */
export function migrate(database: Database): void {
  const found = Number(database.value('PRAGMA user_version'));
  if (found > STORE_VERSION) {
    throw new Refusal('The store was made by a newer Rimward. Nothing was changed; use that one, or move this folder.');
  }
  for (let version = found; version < STORE_VERSION; version++) {
    database.transaction(() => {
      // Another program may have taken the step while this one waited.
      if (Number(database.value('PRAGMA user_version')) !== version) return;
      database.exec(STEPS[version]);
      database.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
      database.exec(`PRAGMA user_version = ${version + 1}`);
    });
  }
}

import { randomUUID } from 'node:crypto';
import { removeUnplayedScenarios, writeEntry } from './attempts.ts';
import { BUNDLE_LIMITS, type BundleLimits } from './bundle-format.ts';
import type { JobControl, JobOutcome } from './jobs.ts';
import { readBundle } from './read-bundle.ts';
import { sha256 } from './seal.ts';
import type { Database, Row } from './sqlite.ts';
import { clearStage, openStage, type StagedAttempt } from './stage-bundle.ts';

/** Attempts that are played again after an import. */
const SAMPLE = 3;
/** Lines of one kind in a report; the rest are counted. */
const MOST_LINES = 50;

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

interface Taken {
  readonly taken: { readonly id: string; readonly seal: string }[];
  already: number;
  readonly beside: string[];
  readonly people: string[];
}

/** People the store does not know are added. One it knows keeps the name it has here. */
function takePeople(database: Database, taken: Taken): void {
  for (const { id, name, colour } of database.all('SELECT id, name, colour FROM temp.staged_people')) {
    const here = database.value('SELECT name FROM people WHERE id = ?', id as string);
    if (here !== undefined) {
      if (here !== name) taken.people.push(`The bundle calls ${here} "${name}"; the name here was kept.`);
      continue;
    }
    if (database.one('SELECT 1 FROM people WHERE name = ?', name as string) !== undefined) {
      taken.people.push(`There are two people called ${name} now; the one of the bundle was kept apart.`);
    }
    database.run(
      'INSERT INTO people (id, name, colour) VALUES (?, ?, ?)',
      id as string,
      name as string,
      colour as string,
    );
  }
}

/** Where an attempt of the bundle goes: its own id, a new one beside another of that id, or nowhere when it is here. */
function placeFor(database: Database, staged: Row, taken: Taken): string | null {
  const { id, seal } = staged as Row & { id: string; seal: string };
  if (database.one('SELECT 1 FROM attempts WHERE seal = ?', seal) !== undefined) {
    taken.already += 1;
    return null;
  }
  if (database.one('SELECT 1 FROM attempts WHERE id = ?', id) === undefined) return id;
  const beside = randomUUID();
  taken.beside.push(`Kept beside: attempt ${id} is here with other content; that of the bundle is now ${beside}.`);
  return beside;
}

function takeAttempt(database: Database, staged: StagedAttempt, id: string, bundle: string): void {
  database.run(
    `INSERT INTO attempts (id, person_id, place, scenario_digest, seed, model_version, started_at, from_bundle)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    ...[id, staged.person_id, staged.place, staged.scenario_digest, staged.seed, staged.model_version],
    ...[staged.started_at, bundle],
  );
  const number = Number(database.value('SELECT last_insert_rowid()'));
  const { commands, result, outline, ...entry } = staged;
  database.run(
    'INSERT INTO commands (attempt, from_step, count, packed) VALUES (?, 0, ?, ?)',
    ...[number, staged.steps, commands],
  );
  database.run('INSERT INTO results (attempt, packed) VALUES (?, ?)', number, result);
  if (outline !== null) database.run('INSERT INTO shapes (attempt, outline) VALUES (?, ?)', number, outline);
  writeEntry(database, number, { ...entry, id });
}

/** Moves the stage into the store: all of it in one transaction. */
function takeIn(database: Database, bundle: string): Taken {
  const taken: Taken = { taken: [], already: 0, beside: [], people: [] };
  database.transaction(() => {
    takePeople(database, taken);
    database.run(
      'INSERT INTO main.scenarios SELECT * FROM temp.staged_scenarios WHERE true ON CONFLICT (digest) DO NOTHING',
    );
    for (const { rowid } of database.all('SELECT rowid FROM temp.staged_attempts ORDER BY rowid')) {
      const staged = database.one('SELECT * FROM temp.staged_attempts WHERE rowid = ?', rowid as number) as Row;
      const id = placeFor(database, staged, taken);
      if (id === null) continue;
      takeAttempt(database, staged as unknown as StagedAttempt, id, bundle);
      taken.taken.push({ id, seal: String(staged.seal) });
    }
    removeUnplayedScenarios(database);
  });
  return taken;
}

const shortened = (lines: readonly string[]): readonly string[] =>
  lines.length <= MOST_LINES ? lines : [...lines.slice(0, MOST_LINES), `... and ${lines.length - MOST_LINES} more.`];

function report(taken: Taken, left: readonly string[], salt: string): JobOutcome {
  const chance = (seal: string): string => sha256(salt, seal);
  // By a digest that the sender cannot know before: which ones are played again is not to be foreseen.
  const sample = taken.taken
    .map(({ id, seal }) => ({ id, order: chance(seal) }))
    .sort((a, b) => (a.order < b.order ? -1 : 1))
    .slice(0, SAMPLE);
  const lines = [`Taken in: ${count(taken.taken.length, 'attempt', 'attempts')}.`];
  if (taken.already > 0) lines.push(`Here already: ${count(taken.already, 'attempt', 'attempts')}.`);
  return {
    lines: [...lines, ...shortened(taken.beside), ...shortened(left), ...shortened(taken.people)],
    toReplay: sample.map(({ id }) => id),
  };
}

/**
 * Takes a bundle in: everything is read and checked first, then all of it is kept at once. A file that does not fit the
 * format, and a cancelled import, leave the store as it was. Nothing that is here is changed or lost.
 *
 * @param bundle name of the file, noted with each attempt
 */
export async function importBundle(
  database: Database,
  path: string,
  bundle: string,
  control: JobControl,
  limits: BundleLimits = BUNDLE_LIMITS,
): Promise<JobOutcome> {
  openStage(database);
  try {
    const left = await readBundle(database, path, limits, control);
    return report(takeIn(database, bundle), left, control.id);
  } finally {
    clearStage(database);
  }
}

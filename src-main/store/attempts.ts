import { randomUUID } from 'node:crypto';
import { type AttemptResult, checkScenario, formatProblem, type HandCommand } from '../../physics/index.ts';
import { Refusal } from '../ipc/answer.ts';
import { MOST_COMMANDS } from '../ipc/attempt-schema.ts';
import type { AttemptStart, AttemptSummary, ReplayState, StoredAttempt } from '../ipc/contract.ts';
import { packResult, readContent, sealFits, shapeOf, storedDigestOf } from './attempt-content.ts';
import { ENTRY_SQL, ENTRY_TABLES, entryDigest, summaryOf, summaryText } from './entry.ts';
import { packCommands } from './pack-commands.ts';
import { findPerson } from './people.ts';
import { canonicalJson, type SealedContent, scenarioDigest, sealOf } from './seal.ts';
import type { Database, Row } from './sqlite.ts';

const now = (): string => new Date().toISOString();

function rowOf(database: Database, id: string): Row {
  const row = database.one(`SELECT ${ENTRY_SQL} FROM ${ENTRY_TABLES} WHERE a.id = ?`, id);
  if (row === undefined) throw new Refusal('There is no such attempt here.');
  return row;
}

/** Keeps a scenario once per content. Gives its digest. */
export function keepScenario(database: Database, scenario: AttemptStart['scenario']): string {
  const digest = scenarioDigest(scenario);
  database.run(
    'INSERT INTO scenarios (digest, scenario_id, title, text) VALUES (?, ?, ?, ?) ON CONFLICT (digest) DO NOTHING',
    digest,
    scenario.id,
    scenario.title,
    canonicalJson(scenario),
  );
  return digest;
}

/** Opens an attempt. Gives its id. Refuses an unknown person and a scenario that could not be played again. */
export function beginAttempt(database: Database, start: AttemptStart): string {
  const { personId, place, scenario, seed, modelVersion } = start;
  const checked = checkScenario(scenario, 'scenario');
  if (!checked.ok) throw new Refusal(checked.problems.slice(0, 20).map(formatProblem).join('\n'));
  const id = randomUUID();
  database.transaction(() => {
    if (findPerson(database, personId) === null) throw new Refusal('There is no such person here.');
    const digest = keepScenario(database, scenario);
    database.run(
      `INSERT INTO attempts (id, person_id, place, scenario_digest, seed, model_version, started_at)
       VALUES (?, ?, ?, ?, ?, ?, ?)`,
      ...[id, personId, place, digest, seed, modelVersion, now()],
    );
  });
  return id;
}

function openNumber(database: Database, id: string): number {
  const row = database.one('SELECT number, ended_at FROM attempts WHERE id = ?', id);
  if (row === undefined) throw new Refusal('There is no such attempt here.');
  if (row.ended_at !== null) throw new Refusal('This attempt is finished; nothing can be added to it.');
  return Number(row.number);
}

const stepsOf = (database: Database, number: number): number =>
  Number(database.value('SELECT coalesce(sum(count), 0) FROM commands WHERE attempt = ?', number));

/**
 * Adds commands; `fromStep` is the number of commands before these. What is there already is left alone, a gap is
 * refused. On the disk when it returns.
 */
export function appendCommands(
  database: Database,
  id: string,
  fromStep: number,
  commands: readonly HandCommand[],
): void {
  database.transaction(() => {
    const number = openNumber(database, id);
    const there = stepsOf(database, number);
    if (fromStep > there) throw new Refusal(`Commands ${there} to ${fromStep - 1} of this attempt are missing.`);
    const added = commands.slice(there - fromStep);
    if (added.length === 0) return;
    if (there + added.length > MOST_COMMANDS) throw new Refusal(`An attempt has at most ${MOST_COMMANDS} steps.`);
    database.run(
      'INSERT INTO commands (attempt, from_step, count, packed) VALUES (?, ?, ?, ?)',
      ...[number, there, added.length, packCommands(added)],
    );
  });
}

/** What must be the same in a result as in the attempt it is of. */
export function misfitOf(row: Row, steps: number, result: AttemptResult): string | null {
  if (result.scenario !== row.scenario_id) return `scenario ${result.scenario}, not ${row.scenario_id}`;
  if (result.seed !== row.seed) return `seed ${result.seed}, not ${row.seed}`;
  if (result.modelVersion !== row.model_version) return `model ${result.modelVersion}, not ${row.model_version}`;
  if (result.steps !== steps) return `${result.steps} steps, where ${steps} are stored`;
  return null;
}

/** Closes and seals an attempt. Refuses a result that is not of the commands stored. */
export function finishAttempt(database: Database, id: string, result: AttemptResult): AttemptSummary {
  database.transaction(() => {
    const number = openNumber(database, id);
    const row = rowOf(database, id);
    const content = readContent(database, number, String(row.scenario_digest));
    const { scenario, commands, commandsWhole } = content;
    if (scenario === null || !commandsWhole) throw new Refusal('What was stored of this attempt cannot be read.');
    const misfit = misfitOf(row, commands.length, result);
    if (misfit !== null) throw new Refusal(`The result is of another attempt: ${misfit}.`);
    storeFinished(database, number, {
      id,
      personId: String(row.person_id),
      place: String(row.place),
      startedAt: String(row.started_at),
      endedAt: now(),
      scenario,
      scenarioDigest: String(row.scenario_digest),
      seed: Number(row.seed),
      modelVersion: String(row.model_version),
      commands,
      result,
    });
  });
  return summaryOf(rowOf(database, id));
}

interface Finished extends SealedContent {
  readonly id: string;
  readonly scenarioDigest: string;
}

/** Writes the one row of packed commands, the result, the outline and the sealed line. Inside a transaction. */
function storeFinished(database: Database, number: number, finished: Finished): void {
  const packed = packCommands(finished.commands);
  const result = packResult(finished.result);
  const outline = shapeOf(finished.result);
  database.run('DELETE FROM commands WHERE attempt = ?', number);
  database.run(
    'INSERT INTO commands (attempt, from_step, count, packed) VALUES (?, 0, ?, ?)',
    ...[number, finished.commands.length, packed],
  );
  database.run('INSERT INTO results (attempt, packed) VALUES (?, ?)', number, result);
  if (outline !== null) database.run('INSERT INTO shapes (attempt, outline) VALUES (?, ?)', number, outline);
  writeEntry(database, number, {
    id: finished.id,
    person_id: finished.personId,
    place: finished.place,
    scenario_digest: finished.scenarioDigest,
    seed: finished.seed,
    model_version: finished.modelVersion,
    started_at: finished.startedAt,
    ended_at: finished.endedAt,
    steps: finished.commands.length,
    passed: finished.result.passed ? 1 : 0,
    summary: summaryText(finished.result),
    seal: sealOf(finished),
    stored_digest: storedDigestOf([packed], result, outline),
  });
}

/** Columns of a finished attempt's line. */
export interface Entry {
  readonly id: string;
  readonly person_id: string;
  readonly place: string;
  readonly scenario_digest: string;
  readonly seed: number;
  readonly model_version: string;
  readonly started_at: string;
  readonly ended_at: string;
  readonly steps: number;
  readonly passed: number | null;
  readonly summary: string;
  /** Null for an attempt that was never sealed. */
  readonly seal: string | null;
  readonly stored_digest: string;
}

/** Completes a line that is there. Inside a transaction. */
export function writeEntry(database: Database, number: number, entry: Entry): void {
  database.run(
    `UPDATE attempts SET ended_at = ?, steps = ?, passed = ?, summary = ?, seal = ?, stored_digest = ?,
       entry_digest = ?, seal_state = ? WHERE number = ?`,
    ...[entry.ended_at, entry.steps, entry.passed, entry.summary, entry.seal, entry.stored_digest],
    ...[entryDigest(entry), entry.seal === null ? 'unsealed' : 'fits', number],
  );
}

/** Removes an attempt for good, and its scenario's copy when it was the last of that. */
export function removeAttempt(database: Database, id: string): void {
  database.transaction(() => {
    if (database.run('DELETE FROM attempts WHERE id = ?', id) === 0) {
      throw new Refusal('There is no such attempt here.');
    }
    removeUnplayedScenarios(database);
  });
}

export const removeUnplayedScenarios = (database: Database): number =>
  database.run(
    'DELETE FROM scenarios WHERE NOT EXISTS (SELECT 1 FROM attempts a WHERE a.scenario_digest = scenarios.digest)',
  );

/** Reads an attempt, checks its seal and notes what that gave. */
export function loadAttempt(database: Database, id: string): StoredAttempt {
  const row = rowOf(database, id);
  const content = readContent(database, Number(row.number), String(row.scenario_digest));
  if (content.scenario === null) throw new Refusal('The scenario of this attempt cannot be read any more.');
  let summary = summaryOf(row);
  if (row.seal !== null) {
    const seal = sealFits(row, content) ? 'fits' : 'broken';
    if (row.seal_state !== seal) noteSeal(database, id, seal);
    summary = { ...summary, seal };
  }
  return { summary, scenario: content.scenario, commands: content.commands, result: content.result };
}

/** Only a note for the lists: an attempt can be read where nothing may be written. */
function noteSeal(database: Database, id: string, seal: string): void {
  try {
    database.run('UPDATE attempts SET seal_state = ? WHERE id = ?', seal, id);
  } catch {
    // Checked again at the next reading.
  }
}

/** Notes whether playing the attempt again gave the digest it has. */
export function noteReplay(database: Database, id: string, digest: string): ReplayState {
  const known = summaryOf(rowOf(database, id)).digest;
  if (known === null) throw new Refusal('This attempt has no digest to compare with.');
  const state: ReplayState = known === digest ? 'same' : 'different';
  database.run('UPDATE attempts SET replay_state = ? WHERE id = ?', state, id);
  return state;
}

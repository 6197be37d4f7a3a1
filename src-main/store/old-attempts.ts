import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { KeptAttempt } from '../ipc/contract.ts';
import { asKeptAttempt } from '../ipc/messages.ts';
import { storedDigestOf } from './attempt-content.ts';
import { keepScenario, writeEntry } from './attempts.ts';
import { bareSummaryText } from './entry.ts';
import { packCommands } from './pack-commands.ts';
import { savePerson } from './people.ts';
import type { Database } from './sqlite.ts';

/** Earlier versions kept each attempt as a file here, without people and without a result. */
const OLD_FOLDER = 'attempts';
const TAKEN_IN = 'attempts-taken-in';
const NOT_READABLE = 'attempts-not-readable';
/** Whoever worked here before there were people. */
const NAME = 'This machine';

/** An id that follows from the text, so that a file taken in twice is one attempt. Version 8 of RFC 9562. */
function idOf(text: string): string {
  const hex = createHash('sha256').update(text).digest('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-a${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}

function personHere(database: Database): string {
  const found = database.value('SELECT id FROM people WHERE name = ? ORDER BY rowid', NAME);
  if (typeof found === 'string') return found;
  const id = randomUUID();
  savePerson(database, { id, name: NAME, colour: 'slate' });
  return id;
}

function keep(database: Database, id: string, attempt: KeptAttempt, time: string): void {
  if (database.one('SELECT 1 FROM attempts WHERE id = ?', id) !== undefined) return;
  const { scenario, seed, modelVersion, commands, digest } = attempt;
  const packed = packCommands(commands);
  const start = {
    id,
    person_id: personHere(database),
    place: 'bench',
    scenario_digest: keepScenario(database, scenario),
    seed,
    model_version: modelVersion,
    started_at: time,
  };
  database.run(
    `INSERT INTO attempts (id, person_id, place, scenario_digest, seed, model_version, started_at)
     VALUES (?, ?, ?, ?, ?, ?, ?)`,
    ...Object.values(start),
  );
  const number = Number(database.value('SELECT number FROM attempts WHERE id = ?', id));
  database.run(
    'INSERT INTO commands (attempt, from_step, count, packed) VALUES (?, 0, ?, ?)',
    ...[number, commands.length, packed],
  );
  writeEntry(database, number, {
    ...start,
    ended_at: time,
    steps: commands.length,
    passed: null,
    summary: bareSummaryText(digest),
    seal: null,
    stored_digest: storedDigestOf([packed], null, null),
  });
}

function readOld(path: string): { readonly text: string; readonly attempt: KeptAttempt } | null {
  try {
    const text = readFileSync(path, 'utf8');
    return { text, attempt: asKeptAttempt(JSON.parse(text)) };
  } catch {
    return null;
  }
}

function move(folder: string, name: string, to: string): void {
  mkdirSync(join(folder, to), { recursive: true, mode: 0o700 });
  renameSync(join(folder, OLD_FOLDER, name), join(folder, to, name));
}

/**
 * Takes the attempt files of earlier versions into the store, all in one transaction, and moves them aside; those that
 * cannot be read are moved to a folder of their own. Gives lines for the person. They have no result until played again.
 */
export function takeInOldAttempts(database: Database, folder: string): readonly string[] {
  const old = join(folder, OLD_FOLDER);
  if (!existsSync(old)) return [];
  const names = readdirSync(old).filter((name) => name.endsWith('.json'));
  if (names.length === 0) return [];
  const readable: string[] = [];
  database.transaction(() => {
    for (const name of names) {
      const path = join(old, name);
      const found = readOld(path);
      if (found === null) continue;
      keep(database, idOf(found.text), found.attempt, statSync(path).mtime.toISOString());
      readable.push(name);
    }
  });
  for (const name of names) move(folder, name, readable.includes(name) ? TAKEN_IN : NOT_READABLE);
  const lines: string[] = [];
  if (readable.length > 0) lines.push(`Attempts of an earlier version taken in, under "${NAME}": ${readable.length}.`);
  const rest = names.length - readable.length;
  if (rest > 0)
    lines.push(`Attempt files that could not be read, moved to ${NOT_READABLE} in the data folder: ${rest}.`);
  return lines;
}

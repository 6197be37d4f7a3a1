/** What was made on this machine and lies in files beside the store: read for a backup, put back from one. */
import { existsSync, renameSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { courseLimitsOf, flatLimits, LIMIT_PREFERENCES, type LimitKey } from '../../physics/index.ts';
import { writeTextAtomically } from '../files/atomic-write.ts';
import type { Preferences, RimwardHost } from '../ipc/contract.ts';
import { BadFile } from './jobs.ts';
import {
  BOARDS,
  DRAFTS,
  isMissing,
  MOST_SCENARIOS,
  namesOfScenarios,
  OWN_FOLDER,
  SCENARIO_FILE,
} from './own-scenarios.ts';
import { stamp } from './set-aside.ts';
import type { Database } from './sqlite.ts';

/** Preferences of one data folder; only the limits that a course set travel in a backup. */
export type Settings = Pick<RimwardHost, 'loadPreferences' | 'savePreference'>;

/** What a backup carries beside the store. */
export interface OwnFiles {
  /** Scenarios, drafts and boards by the name of their file. */
  readonly files: ReadonlyMap<string, string>;
  readonly limits: Readonly<Partial<Record<string, number>>>;
}

const TABLES = `
  CREATE TABLE own_files (name TEXT NOT NULL PRIMARY KEY, text TEXT NOT NULL) STRICT;
  CREATE TABLE course_limits (name TEXT NOT NULL PRIMARY KEY, value REAL NOT NULL) STRICT;
`;
/** Characters of one file: the boards, the largest of them, may have 10 million. */
const LARGEST_TEXT = 10_000_000;
const MOST_FILES = MOST_SCENARIOS + 2;

/** Reads what lies beside the store now. A file that is gone or larger than any of ours is left out. */
export async function readOwnFiles(dataFolder: string, settings: Settings): Promise<OwnFiles> {
  const folder = join(dataFolder, OWN_FOLDER);
  const files = new Map<string, string>();
  for (const name of [...(await namesOfScenarios(folder)), DRAFTS, BOARDS]) {
    const text = await readFile(join(folder, name), 'utf8').catch((fault) =>
      isMissing(fault) ? null : Promise.reject(fault),
    );
    if (text !== null && text.length <= LARGEST_TEXT) files.set(name, text);
  }
  return { files, limits: limitsIn(await settings.loadPreferences()) };
}

function limitsIn(preferences: Preferences): OwnFiles['limits'] {
  const kept = Object.values(LIMIT_PREFERENCES).filter((key) => typeof preferences[key] === 'number');
  return Object.fromEntries(kept.map((key) => [key, preferences[key] as number]));
}

/** Puts them into a backup, beside the tables of the store. */
export function writeOwnFiles(backup: Database, { files, limits }: OwnFiles): void {
  backup.transaction(() => {
    backup.exec(TABLES);
    for (const [name, text] of files) backup.run('INSERT INTO own_files (name, text) VALUES (?, ?)', name, text);
    for (const [name, value] of Object.entries(limits)) {
      backup.run('INSERT INTO course_limits (name, value) VALUES (?, ?)', name, value ?? null);
    }
  });
}

const hasTable = (backup: Database, name: string): boolean =>
  backup.one("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?", name) !== undefined;

function fileProblem(name: string, text: unknown): string | null {
  if (typeof text !== 'string' || text.length > LARGEST_TEXT) return 'is no text, or larger than any of ours';
  if (name === DRAFTS || name === BOARDS) return null;
  const id = SCENARIO_FILE.exec(name)?.[1];
  if (id === undefined) return 'is no file of ours';
  try {
    const data = JSON.parse(text) as { readonly rimwardScenario?: unknown; readonly id?: unknown } | null;
    return data?.rimwardScenario === 1 && data.id === id ? null : 'is no scenario of that name';
  } catch {
    return 'is not JSON';
  }
}

/**
 * Reads and checks them of a backup; null when it was made before backups carried them.
 *
 * @throws BadFile with a line for each that does not fit
 */
export function ownFilesOf(backup: Database): OwnFiles | null {
  if (!hasTable(backup, 'own_files') || !hasTable(backup, 'course_limits')) return null;
  const most = Number(backup.value('SELECT count(*) FROM own_files'));
  const longest = Number(backup.value('SELECT max(length(text)) FROM own_files') ?? 0);
  if (most > MOST_FILES) throw new BadFile([`own scenarios: found ${most} files, allowed: at most ${MOST_FILES}`]);
  if (longest > LARGEST_TEXT) {
    throw new BadFile([`own scenarios: found a file of ${longest} characters, allowed: at most ${LARGEST_TEXT}`]);
  }
  const files = new Map<string, string>();
  const problems: string[] = [];
  for (const { name, text } of backup.all('SELECT name, text FROM own_files ORDER BY name')) {
    const problem = fileProblem(String(name), text);
    if (problem === null) files.set(String(name), String(text));
    else problems.push(`own scenarios: ${String(name).slice(0, 100)} ${problem}`);
  }
  if (problems.length > 0) throw new BadFile(problems);
  return { files, limits: soundLimits(backup) };
}

/** Limits that make sense together; a course's limits that do not are left as they are here. */
function soundLimits(backup: Database): OwnFiles['limits'] {
  const rows = backup.all('SELECT name, value FROM course_limits LIMIT 50');
  const found: Preferences = Object.fromEntries(rows.map(({ name, value }) => [String(name), Number(value)]));
  const flat = flatLimits(courseLimitsOf(found));
  const keys = (Object.keys(LIMIT_PREFERENCES) as LimitKey[]).filter(
    (key) => found[LIMIT_PREFERENCES[key]] === flat[key],
  );
  return Object.fromEntries(keys.map((key) => [LIMIT_PREFERENCES[key], flat[key]]));
}

/** A name beside `folder` that is not taken. */
function freeFolder(folder: string): string {
  const name = `${folder}-before-restore-${stamp()}`;
  let free = name;
  for (let count = 2; existsSync(free); count++) free = `${name}-${count}`;
  return free;
}

/**
 * Puts them in the place of those that are here, which are set aside whole. The new ones are written out first; then
 * two renames.
 *
 * @returns lines for the person
 */
export async function putOwnFiles(dataFolder: string, settings: Settings, own: OwnFiles): Promise<string[]> {
  const folder = join(dataFolder, OWN_FOLDER);
  const made = `${folder}-new-${process.pid}`;
  const lines: string[] = [];
  try {
    for (const [name, text] of own.files) await writeTextAtomically(join(made, name), text);
    if (existsSync(folder)) {
      const aside = freeFolder(folder);
      renameSync(folder, aside);
      lines.push(`Those that were here are kept in the data folder, in ${aside.slice(dataFolder.length + 1)}.`);
    }
    if (existsSync(made)) renameSync(made, folder);
  } finally {
    rmSync(made, { recursive: true, force: true });
  }
  for (const [key, value] of Object.entries(own.limits)) {
    if (value !== undefined) await settings.savePreference(key, value);
  }
  const count = [...own.files.keys()].filter((name) => SCENARIO_FILE.test(name)).length;
  return [
    `Restored: ${count === 1 ? '1 scenario' : `${count} scenarios`} of your own, the drafts and the boards.`,
    ...lines,
  ];
}

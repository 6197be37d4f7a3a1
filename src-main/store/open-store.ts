import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Carried, copyStore } from './copy-store.ts';
import { APPLICATION_ID, migrate } from './schema.ts';
import { putInPlace, removeLeftovers, removeStore, setAside, sizeOf, workingCopy, workingName } from './set-aside.ts';
import { Database, isDamage } from './sqlite.ts';

export const STORE_FILE = 'rimward.sqlite';

/**
 * Settings of every connection. WAL: a reader never waits for a writer, and a killed process leaves a whole store.
 * FULL: what was answered survives a power cut. `trusted_schema` off: nothing in the file can call functions by itself.
 */
const SETTINGS = `
  PRAGMA journal_mode = WAL;
  PRAGMA synchronous = FULL;
  PRAGMA foreign_keys = ON;
  PRAGMA trusted_schema = OFF;
`;

/** Opens a store at a path, made or brought up to date as needed. */
export function openDatabase(path: string): Database {
  const database = new Database(path);
  try {
    database.exec(SETTINGS);
    migrate(database);
    return database;
  } catch (fault) {
    database.close();
    throw fault;
  }
}

export interface OpenedStore {
  readonly database: Database;
  /** Lines for the person; empty when all is well. */
  readonly notices: readonly string[];
}

/** Thrown inside for a file that opens and is not ours, or not whole. */
class Unsound extends Error {}

/** SQLite's own check of every page and row. Null when sound. */
export function unsoundness(database: Database): string | null {
  const id = Number(database.value('PRAGMA application_id'));
  const tables = Number(database.value('SELECT count(*) FROM sqlite_schema'));
  if (tables > 0 && id !== APPLICATION_ID) return 'it is a database of another program';
  const found = String(database.value('PRAGMA quick_check(1)'));
  return found === 'ok' ? null : 'its pages do not fit together';
}

function openSound(path: string): Database {
  // SQLite would take an empty file for a new store and throw the log away.
  if (sizeOf(path) === 0 && sizeOf(`${path}-wal`) > 0) throw new Unsound('it is empty');
  const isNew = sizeOf(path) === 0;
  const database = new Database(path);
  try {
    const unsound = isNew ? null : unsoundness(database);
    if (unsound !== null) throw new Unsound(unsound);
  } finally {
    database.close();
  }
  return openDatabase(path);
}

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

function savedLine({ people, attempts, unreadable }: Carried): string {
  const saved = `${count(people, 'person', 'people')} and ${count(attempts, 'attempt', 'attempts')} could be saved from it`;
  return unreadable === 0 ? `${saved}.` : `${saved}; ${count(unreadable, 'attempt is', 'attempts are')} not whole.`;
}

/** A new store with what can be read of a damaged one, at a working name, closed. */
function salvage(path: string, folder: string): { readonly made: string; readonly carried: Carried } {
  const copy = workingName(folder, 'salvage');
  const made = workingName(folder, 'new');
  workingCopy(path, copy);
  removeStore(made);
  const into = openDatabase(made);
  let from: Database | null = null;
  let carried: Carried = { people: 0, attempts: 0, unreadable: 0 };
  try {
    from = Database.ofDamaged(copy);
    carried = copyStore(from, into);
  } catch (fault) {
    if (!isDamage(fault)) throw fault;
  } finally {
    from?.close();
    // One file again: the log goes into it, so that renaming is all that is left to do.
    into.exec('PRAGMA journal_mode = DELETE');
    into.close();
    removeStore(copy);
  }
  return { made, carried };
}

/**
 * Opens the store of a data folder. A damaged one is set aside under a dated name, never changed, and what can be read
 * of it is saved into a new one first, so that a program killed in between finds everything as it was.
 */
export function openStore(folder: string): OpenedStore {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  removeLeftovers(folder);
  const path = join(folder, STORE_FILE);
  try {
    return { database: openSound(path), notices: [] };
  } catch (fault) {
    if (!isDamage(fault) && !(fault instanceof Unsound)) throw fault;
    const why = fault instanceof Unsound ? fault.message : 'it is no database any more, or not a whole one';
    const { made, carried } = salvage(path, folder);
    const name = setAside(path, 'damaged');
    putInPlace(made, path);
    const line = `The store of attempts was damaged (${why}). It was set aside as ${name}, unchanged; ${savedLine(carried)}`;
    return { database: openDatabase(path), notices: [line] };
  }
}

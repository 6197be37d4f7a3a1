import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { migrate } from './schema.ts';
import { Database } from './sqlite.ts';

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
  readonly notices: readonly string[];
}

/** Opens the store of a data folder. */
export function openStore(folder: string): OpenedStore {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  return { database: openDatabase(join(folder, STORE_FILE)), notices: [] };
}

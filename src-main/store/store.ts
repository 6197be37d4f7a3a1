import { join } from 'node:path';
import { Refusal } from '../ipc/answer.ts';
import { takeInOldAttempts } from './old-attempts.ts';
import { openStore, STORE_FILE } from './open-store.ts';
import { putInPlace, setAside } from './set-aside.ts';
import { type Database, isDamage, storeLine } from './sqlite.ts';

const IN_USE = 'Another Rimward has the store open. Close it and try again; nothing was changed.';

/**
 * The store of one data folder, opened when it is first used. What SQLite cannot do becomes a `Refusal` with a line for
 * the person. After damage was met, the next use opens anew and sets the damaged file aside.
 */
export class Store {
  readonly folder: string;
  #database: Database | null = null;
  #notices: readonly string[] = [];

  constructor(folder: string) {
    this.folder = folder;
  }

  /** Does some work with the open store. */
  use<T>(work: (database: Database) => T): T {
    try {
      return work(this.#opened());
    } catch (fault) {
      throw this.#told(fault);
    }
  }

  /** Lines the person must be told since the start; opens the store to know them. */
  notices(): readonly string[] {
    try {
      this.use(() => null);
    } catch (fault) {
      if (!(fault instanceof Refusal)) throw fault;
      return [...this.#notices, fault.message];
    }
    return this.#notices;
  }

  /**
   * Puts a closed store in the place of this one, which is set aside under a dated name first. Refuses while another
   * program has the store open. Gives the name of the one set aside.
   */
  replaceWith(made: string): string {
    const path = join(this.folder, STORE_FILE);
    try {
      // Only the last one there may do away with the log; it also puts all of it into the one file.
      const mode = this.#opened().value('PRAGMA journal_mode = DELETE');
      if (mode !== 'delete') throw new Refusal(IN_USE);
    } catch (fault) {
      this.close();
      throw storeLine(fault) === null ? fault : new Refusal(IN_USE);
    }
    this.close();
    const name = setAside(path, 'before-restore');
    putInPlace(made, path);
    return name;
  }

  close(): void {
    this.#database?.close();
    this.#database = null;
  }

  #opened(): Database {
    if (this.#database === null) {
      const { database, notices } = openStore(this.folder);
      this.#database = database;
      this.#notices = [...this.#notices, ...notices, ...takeInOldAttempts(database, this.folder)];
    }
    return this.#database;
  }

  #told(fault: unknown): unknown {
    if (isDamage(fault)) this.close();
    const line = storeLine(fault) ?? folderLine(fault);
    return line === null ? fault : new Refusal(line);
  }
}

const FOLDER_LINES: Readonly<Record<string, string>> = {
  EACCES: 'The data folder may not be used by this user. Nothing was changed.',
  EPERM: 'The data folder may not be used by this user. Nothing was changed.',
  EROFS: 'The data folder is on a disk that may not be written to. Nothing was changed.',
  ENOSPC: 'The disk is full. Nothing was changed; make room and try again.',
  ENOTDIR: 'The data folder cannot be made: a file is in its way. Nothing was changed.',
  EEXIST: 'The data folder cannot be made: a file is in its way. Nothing was changed.',
};

/** The line for a folder that cannot be made or used, null for another fault. */
export function folderLine(fault: unknown): string | null {
  const { code } = fault as NodeJS.ErrnoException;
  return typeof code === 'string' ? (FOLDER_LINES[code] ?? null) : null;
}

import type { DatabaseSync, SQLInputValue, StatementSync } from 'node:sqlite';
import { Refusal } from '../ipc/answer.ts';

type Sqlite = typeof import('node:sqlite');

/** How long a call waits for another program that is writing, ms. Longer would be felt in the page. */
const BUSY_MS = 2000;

/** Asked for when it is needed, not imported: everything that keeps nothing must still run on a Node without it. */
export function sqlite(): Sqlite {
  const found = process.getBuiltinModule?.('node:sqlite') as Sqlite | undefined;
  if (found?.backup === undefined) {
    throw new Refusal(`attempts are kept with the SQLite of Node 24; this is Node ${process.versions.node}`);
  }
  return found;
}

/** Primary result codes of SQLite that a person can do something about. https://sqlite.org/rescode.html */
const BUSY = 5;
const LOCKED = 6;
const READONLY = 8;
const IOERR = 10;
const CORRUPT = 11;
const FULL = 13;
const CANTOPEN = 14;
const NOTADB = 26;

/** SQLite's primary result code of a fault, null for a fault of another kind. */
function resultCode(fault: unknown): number | null {
  const { code, errcode } = fault as { code?: unknown; errcode?: unknown };
  return code === 'ERR_SQLITE_ERROR' && typeof errcode === 'number' ? errcode & 0xff : null;
}

/** True when a fault says that the file itself is damaged. */
export function isDamage(fault: unknown): boolean {
  const code = resultCode(fault);
  return code === CORRUPT || code === NOTADB;
}

const LINES: Readonly<Record<number, string>> = {
  [BUSY]: 'Another program is using the store. Nothing was changed; try again in a moment.',
  [LOCKED]: 'Another program is using the store. Nothing was changed; try again in a moment.',
  [READONLY]: 'The store may not be written to: its folder or file is read-only. Nothing was changed.',
  [IOERR]: 'The disk did not take or give what was asked. Nothing was changed.',
  [FULL]: 'The disk is full. Nothing was changed; make room and try again.',
  [CANTOPEN]: 'The store cannot be opened: its folder is not there or may not be used. Nothing was changed.',
  [CORRUPT]: 'The store is damaged. It will be set aside and what can be read will be saved when it is next used.',
  [NOTADB]: 'The store is damaged. It will be set aside and what can be read will be saved when it is next used.',
};

/** The line for the person when a fault is the store's and not a mistake of ours; null otherwise. */
export function storeLine(fault: unknown): string | null {
  const code = resultCode(fault);
  return code === null ? null : (LINES[code] ?? null);
}

export type Row = Readonly<Record<string, string | number | bigint | Uint8Array | null>>;

/** One connection. Statements are prepared once and kept. Everything is synchronous: calls never mix. */
export class Database {
  readonly db: DatabaseSync;
  readonly #statements = new Map<string, StatementSync>();

  constructor(path: string) {
    const { DatabaseSync } = sqlite();
    this.db = new DatabaseSync(path, { timeout: BUSY_MS });
  }

  /** Opens a file whose header and length disagree as well, as far as that goes. For reading what is left of it. */
  static ofDamaged(path: string): Database {
    const database = new Database(path);
    database.db.enableDefensive(false);
    database.exec('PRAGMA writable_schema = ON');
    return database;
  }

  #prepared(sql: string): StatementSync {
    let statement = this.#statements.get(sql);
    if (statement === undefined) {
      statement = this.db.prepare(sql);
      this.#statements.set(sql, statement);
    }
    return statement;
  }

  /** Gives the number of rows changed. */
  run(sql: string, ...values: SQLInputValue[]): number {
    return Number(this.#prepared(sql).run(...values).changes);
  }

  all(sql: string, ...values: SQLInputValue[]): Row[] {
    return this.#prepared(sql).all(...values) as Row[];
  }

  one(sql: string, ...values: SQLInputValue[]): Row | undefined {
    return this.#prepared(sql).get(...values) as Row | undefined;
  }

  /** The first column of the one row. */
  value(sql: string, ...values: SQLInputValue[]): Row[string] | undefined {
    const row = this.one(sql, ...values);
    return row === undefined ? undefined : Object.values(row)[0];
  }

  exec(sql: string): void {
    this.db.exec(sql);
  }

  /** All of `work` or nothing of it. Takes the right to write at once, so that it cannot fail half way for want of it. */
  transaction<T>(work: () => T): T {
    this.db.exec('BEGIN IMMEDIATE');
    try {
      const value = work();
      this.db.exec('COMMIT');
      return value;
    } catch (fault) {
      // A full disk may have ended it already.
      if (this.db.isTransaction) this.db.exec('ROLLBACK');
      throw fault;
    }
  }

  close(): void {
    this.#statements.clear();
    if (this.db.isOpen) this.db.close();
  }
}

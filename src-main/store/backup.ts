import { copyFile, open, stat } from 'node:fs/promises';
import { writeBeside } from '../files/atomic-write.ts';
import { type Carried, copyStore, countAttempts } from './copy-store.ts';
import { BadFile, type JobControl, type JobOutcome } from './jobs.ts';
import { openDatabase, unsoundness } from './open-store.ts';
import { type OwnFiles, ownFilesOf, putOwnFiles, readOwnFiles, type Settings, writeOwnFiles } from './own-files.ts';
import { APPLICATION_ID, migrate, STORE_VERSION } from './schema.ts';
import { removeStore, workingName } from './set-aside.ts';
import { Database, isDamage, sqlite } from './sqlite.ts';
import type { Store } from './store.ts';

export const BACKUP_ENDING = 'rimward-store';

/** Pages copied at a time; 4 kB each. Between them everything else has its turn. */
const PAGES_AT_ONCE = 500;
/** Larger than any store of ours; a file of this size is not copied to be looked at. Assumed. */
export const LARGEST_BACKUP_BYTES = 8_000_000_000;
const FIRST_BYTES = 'SQLite format 3\0';

/** Leaves one plain file, with what lies beside the store in it: a log beside a backup would be lost on the way. */
function intoOneFile(path: string, own: OwnFiles): void {
  const database = new Database(path);
  try {
    database.exec('PRAGMA journal_mode = DELETE');
    writeOwnFiles(database, own);
  } finally {
    database.close();
  }
}

/**
 * Writes the whole store as one file, while it may be in use, with the scenarios, drafts and boards made here and the
 * limits of the course. The file is whole or not there.
 */
export async function backupStore(
  store: Store,
  settings: Settings,
  path: string,
  control: JobControl,
): Promise<JobOutcome> {
  await writeBeside(path, control.id, async (part) => {
    const pages = store.use((database) =>
      sqlite().backup(database.db, part, {
        rate: PAGES_AT_ONCE,
        progress: ({ totalPages, remainingPages }) => control.progress(totalPages - remainingPages, totalPages),
      }),
    );
    const total = await pages;
    await control.pause();
    intoOneFile(part, await readOwnFiles(store.folder, settings));
    control.progress(total, total);
  });
  const { size } = await stat(path);
  const attempts = store.use(countAttempts);
  return { lines: [`Written: the whole store, ${attempts} attempts, ${(size / 1e6).toFixed(1)} MB.`] };
}

async function refuseOtherFiles(path: string): Promise<void> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    if (size > LARGEST_BACKUP_BYTES) throw new BadFile(['The file is larger than any store of ours.']);
    const { buffer, bytesRead } = await file.read(Buffer.alloc(FIRST_BYTES.length), 0, FIRST_BYTES.length, 0);
    if (buffer.toString('latin1', 0, bytesRead) !== FIRST_BYTES)
      throw new BadFile(['The file is no backup of a store.']);
  } finally {
    await file.close();
  }
}

/** Opens a copy of a backup and looks at all of it before anything else is done. Throws `BadFile`. */
function openBackup(copy: string): Database {
  const database = new Database(copy);
  try {
    database.exec('PRAGMA trusted_schema = OFF');
    if (Number(database.value('PRAGMA application_id')) !== APPLICATION_ID) {
      throw new BadFile(['The file is a database of another program.']);
    }
    if (Number(database.value('PRAGMA user_version')) > STORE_VERSION) {
      throw new BadFile(['The backup was made by a newer Rimward.']);
    }
    const unsound = unsoundness(database);
    if (unsound !== null) throw new BadFile([`The backup is damaged: ${unsound}.`]);
    migrate(database);
    return database;
  } catch (fault) {
    database.close();
    throw isDamage(fault) ? new BadFile(['The backup is damaged.']) : fault;
  }
}

interface Remade extends Carried {
  readonly own: OwnFiles | null;
}

/** A new store with everything that is in a backup; its structure is ours, only the content comes from the file. */
function remade(copy: string, made: string): Remade {
  const from = openBackup(copy);
  removeStore(made);
  const into = openDatabase(made);
  try {
    const carried = copyStore(from, into);
    if (carried.unreadable > 0 || carried.attempts !== countAttempts(from)) {
      throw new BadFile(['The backup is not whole: some attempts in it cannot be read.']);
    }
    const own = ownFilesOf(from);
    into.exec('PRAGMA journal_mode = DELETE');
    return { ...carried, own };
  } finally {
    into.close();
    from.close();
  }
}

const NO_OWN_FILES = 'The backup is older and holds no scenarios of your own; those that are here were left.';

/**
 * Puts a backup in the place of the store and of the scenarios made here; both are set aside under dated names. All of
 * the backup is checked first.
 */
export async function restoreStore(
  store: Store,
  settings: Settings,
  path: string,
  control: JobControl,
): Promise<JobOutcome> {
  const copy = workingName(store.folder, 'restore');
  const made = workingName(store.folder, 'new');
  control.progress(0, 3);
  try {
    await refuseOtherFiles(path);
    await copyFile(path, copy);
    control.progress(1, 3);
    await control.pause();
    const { people, attempts, own } = remade(copy, made);
    control.progress(2, 3);
    await control.pause();
    const aside = store.replaceWith(made);
    const ownLines = own === null ? [NO_OWN_FILES] : await putOwnFiles(store.folder, settings, own);
    control.progress(3, 3);
    return {
      lines: [
        `Restored: ${people} people, ${attempts} attempts.`,
        `The store that was here is kept as ${aside} in the data folder.`,
        ...ownLines,
      ],
    };
  } finally {
    removeStore(copy);
    removeStore(made);
  }
}

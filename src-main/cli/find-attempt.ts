import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type AttemptResult, bad, ok, type Result } from '../../physics/index.ts';
import { dataFolder } from '../files/data-folder.ts';
import { Refusal } from '../ipc/answer.ts';
import type { StoredAttempt } from '../ipc/contract.ts';
import type { Store } from '../store/store.ts';
import { phrase } from '../words/problem-words.ts';
import { type ReadAttempt, readAttemptFile } from './attempt-file.ts';
import { argumentProblem, type OptionValues } from './command.ts';
import { readTextFile } from './read-text-file.ts';
import { storedFromFile } from './stored-from-file.ts';

/** An attempt and, when it lies in a store, that store, open. */
export interface FoundAttempt {
  readonly attempt: StoredAttempt;
  readonly store: Store | null;
}

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * The store of a data folder, the one given with `--data` or the usual one. It is never made here: a folder without one is a
 * problem. Loaded only when needed, since the database wants a newer Node than the rest of the commands.
 */
export async function openGivenStore(options: OptionValues): Promise<Result<Store>> {
  const folder = typeof options.data === 'string' ? resolve(options.data) : dataFolder();
  const [{ Store: StoreClass }, { STORE_FILE }] = await Promise.all([
    import('../store/store.ts'),
    import('../store/open-store.ts'),
  ]);
  if (!existsSync(join(folder, STORE_FILE))) {
    const found =
      typeof options.data === 'string' ? phrase('withoutLogbook', { text: `"${options.data}"` }) : phrase('noLogbook');
    return bad([argumentProblem('--data', found, phrase('folderWith', { text: STORE_FILE }))]);
  }
  return ok(new StoreClass(folder));
}

/** Does some work with a store; what it refuses becomes a problem of what was asked for. */
export async function asked<T>(file: string, work: () => T | Promise<T>): Promise<Result<T>> {
  try {
    return ok(await work());
  } catch (fault) {
    if (!(fault instanceof Refusal)) throw fault;
    return bad([{ file, path: '', found: fault.message, allowed: phrase('readableAttempt') }]);
  }
}

async function fromStore(id: string, options: OptionValues): Promise<Result<FoundAttempt>> {
  const opened = await openGivenStore(options);
  if (!opened.ok) return opened;
  const store = opened.value;
  const { loadAttempt } = await import('../store/attempts.ts');
  const attempt = await asked(id, () => store.use((database) => loadAttempt(database, id)));
  if (attempt.ok) return ok({ attempt: attempt.value, store });
  store.close();
  return attempt;
}

/** An attempt by the name of its file, or by its id in a store. */
export async function findAttempt(name: string, options: OptionValues): Promise<Result<FoundAttempt>> {
  if (!existsSync(name) && UUID.test(name)) return fromStore(name.toLowerCase(), options);
  const text = readTextFile(name);
  if (!text.ok) return text;
  const read: Result<ReadAttempt> = readAttemptFile(text.value, name);
  return read.ok ? ok({ attempt: storedFromFile(read.value), store: null }) : read;
}

/** An attempt whose result can be read. */
export type FinishedAttempt = StoredAttempt & { readonly result: AttemptResult };

/** The same attempt when it is finished, else the problem that it is not. */
export function finished(name: string, attempt: StoredAttempt): Result<FinishedAttempt> {
  const { result } = attempt;
  if (result !== null) return ok({ ...attempt, result });
  return bad([{ file: name, path: 'result', found: 'none', allowed: phrase('finishedAttempt') }]);
}

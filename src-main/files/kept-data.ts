import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Refusal } from '../ipc/answer.ts';
import type { KeptAttempt, Preferences, RimwardHost } from '../ipc/contract.ts';
import { asKeptAttempt, preferences } from '../ipc/messages.ts';
import { writeTextAtomically } from './atomic-write.ts';

type KeptData = Pick<RimwardHost, 'keepAttempt' | 'loadLastAttempt' | 'loadPreferences' | 'savePreference'>;

const isMissing = (fault: unknown): boolean => (fault as NodeJS.ErrnoException).code === 'ENOENT';

/** Parsed text of a file of ours, undefined when it is not there or is not JSON any more. */
async function readJson(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, 'utf8'));
  } catch (fault) {
    if (isMissing(fault) || fault instanceof SyntaxError) return undefined;
    throw fault;
  }
}

/** Names that sort by time, so that the last is the latest; the counter keeps two of one millisecond apart. */
function attemptName(attempt: KeptAttempt, count: number): string {
  const time = new Date().toISOString().replaceAll(/[:.]/g, '-');
  return `${time}-${String(count).padStart(4, '0')}-${attempt.scenario.id}.json`;
}

/** Attempts and preferences as files in the data folder. One object per running program. */
export function keptData(folder: string): KeptData {
  const attempts = join(folder, 'attempts');
  const preferenceFile = join(folder, 'preferences.json');
  let count = 0;
  // Preferences are read, changed and written: one after the other, or the later write would undo the earlier.
  let queue: Promise<unknown> = Promise.resolve();

  const loadPreferences = async (): Promise<Preferences> => {
    const read = preferences.safeParse(await readJson(preferenceFile));
    return read.success ? read.data : {};
  };

  return {
    keepAttempt: async (attempt) => {
      count += 1;
      const name = attemptName(attempt, count);
      await writeTextAtomically(join(attempts, name), `${JSON.stringify(attempt)}\n`);
      return name;
    },
    loadLastAttempt: async () => {
      const names = await readdir(attempts).catch((fault) => (isMissing(fault) ? [] : Promise.reject(fault)));
      const last = names
        .filter((name) => name.endsWith('.json'))
        .sort()
        .at(-1);
      if (last === undefined) return null;
      try {
        return asKeptAttempt(await readJson(join(attempts, last)));
      } catch {
        throw new Refusal(`the attempt ${last} cannot be read; it was left as it is`);
      }
    },
    loadPreferences,
    savePreference: (key, value) => {
      const write = queue.then(async () => {
        const changed = { ...(await loadPreferences()), [key]: value };
        await writeTextAtomically(preferenceFile, `${JSON.stringify(changed, null, 2)}\n`);
      });
      queue = write.catch(() => undefined);
      return write;
    },
  };
}

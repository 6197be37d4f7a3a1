import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Refusal } from '../ipc/answer.ts';
import type { Preferences, RimwardHost } from '../ipc/contract.ts';
import { preferences } from '../ipc/messages.ts';
import { folderLine } from '../store/store.ts';
import { writeTextAtomically } from './atomic-write.ts';

type KeptData = Pick<RimwardHost, 'loadPreferences' | 'savePreference'>;

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

/** Preferences as a file in the data folder. One object per running program. */
export function keptData(folder: string): KeptData {
  const preferenceFile = join(folder, 'preferences.json');
  // Preferences are read, changed and written: one after the other, or the later write would undo the earlier.
  let queue: Promise<unknown> = Promise.resolve();

  const loadPreferences = async (): Promise<Preferences> => {
    const read = preferences.safeParse(await readJson(preferenceFile));
    return read.success ? read.data : {};
  };

  return {
    loadPreferences,
    savePreference: (key, value) => {
      const write = queue.then(async () => {
        const changed = { ...(await loadPreferences()), [key]: value };
        await writeTextAtomically(preferenceFile, `${JSON.stringify(changed, null, 2)}\n`).catch((fault: unknown) => {
          const line = folderLine(fault);
          throw line === null ? fault : new Refusal(line);
        });
      });
      queue = write.catch(() => undefined);
      return write;
    },
  };
}

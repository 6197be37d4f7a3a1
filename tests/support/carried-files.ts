import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { GivenFile } from './carried.ts';

/** Room for a film or a bundle on a machine that is busy. */
const LONGEST_SAVE_MS = 120_000;
const LOOK_EVERY_MS = 50;

/** Where a file lies that is to be chosen in the system's dialog; written there if it is not. */
export function givenPath(files: string, file: GivenFile): string {
  if (typeof file === 'string') return file;
  const path = join(mkdtempSync(join(files, 'given-')), file.name);
  writeFileSync(path, file.body);
  return path;
}

/**
 * A folder of its own for what the system's dialog is answered with. `file` waits until a name was asked for and the
 * file of that name is there; the program gives it that name once it is whole.
 */
export function savedFile(files: string): {
  readonly folder: (name: string) => string;
  readonly file: (asked: () => Promise<string | null>) => Promise<{ readonly name: string; readonly path: string }>;
} {
  const folder = mkdtempSync(join(files, 'saved-'));
  return {
    folder: (name) => join(folder, name),
    file: async (asked) => {
      for (let waited_ms = 0; waited_ms < LONGEST_SAVE_MS; waited_ms += LOOK_EVERY_MS) {
        const name = await asked();
        if (name !== null && existsSync(join(folder, name))) return { name, path: join(folder, name) };
        await wait(LOOK_EVERY_MS);
      }
      throw new Error(`nothing was saved; the name asked for: ${await asked()}`);
    },
  };
}

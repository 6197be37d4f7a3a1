import { readFileSync, statSync } from 'node:fs';
import { bad, ok, type Result } from '../../physics/index.ts';

const LARGEST_BYTES = 20_000_000;

const CODES: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  EACCES: 'a file that may not be read',
  EISDIR: 'a folder',
};

/** Text of a file the person named. Problems: absent, not a plain file, over 20 MB, no UTF-8. Never throws. */
export function readTextFile(path: string): Result<string> {
  const problem = (found: string, allowed: string) => bad([{ file: path, path: '', found, allowed }]);
  try {
    const found = statSync(path);
    if (!found.isFile()) return problem(found.isDirectory() ? 'a folder' : 'no plain file', 'a text file');
    if (found.size > LARGEST_BYTES) return problem(`${(found.size / 1e6).toFixed(1)} MB`, 'at most 20 MB');
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path)));
  } catch (fault) {
    const code = (fault as NodeJS.ErrnoException).code ?? '';
    if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') return problem('bytes that are no UTF-8', 'a text file in UTF-8');
    return problem(CODES[code] ?? `a file that cannot be read (${code})`, 'a readable text file');
  }
}

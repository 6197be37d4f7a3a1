import { readFileSync, statSync } from 'node:fs';
import { bad, ok, type Result } from '../../physics/index.ts';
import { type PhraseKey, phrase } from '../words/problem-words.ts';

const LARGEST_BYTES = 20_000_000;

const CODES: Readonly<Record<string, PhraseKey>> = {
  ENOENT: 'noFile',
  EACCES: 'mayNotRead',
  EISDIR: 'folder',
};

/** Text of a file the person named. Problems: absent, not a plain file, over 20 MB, no UTF-8. Never throws. */
export function readTextFile(path: string): Result<string> {
  const problem = (found: string, allowed: string) => bad([{ file: path, path: '', found, allowed }]);
  try {
    const found = statSync(path);
    if (!found.isFile()) return problem(phrase(found.isDirectory() ? 'folder' : 'notPlain'), phrase('textFile'));
    if (found.size > LARGEST_BYTES) {
      const size = phrase('megabytes', { limit: (found.size / 1e6).toFixed(1) });
      return problem(size, phrase('atMostMegabytes', { limit: LARGEST_BYTES / 1e6 }));
    }
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path)));
  } catch (fault) {
    const code = (fault as NodeJS.ErrnoException).code ?? '';
    if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') return problem(phrase('notUtf8'), phrase('utf8File'));
    const known = CODES[code];
    const what = known === undefined ? phrase('cannotRead', { text: code }) : phrase(known);
    return problem(what, phrase('readableFile'));
  }
}

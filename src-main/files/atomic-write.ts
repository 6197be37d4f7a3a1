import { randomBytes } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';

/** As `writeBytesAtomically`, for text in UTF-8. */
export const writeTextAtomically = (path: string, text: string): Promise<void> =>
  writeBytesAtomically(path, new TextEncoder().encode(text));

/**
 * Writes a file so that a reader, or a machine that loses power, finds the old content or the new one and never a
 * part: written beside it, flushed to the disk, then renamed over it. Readable by this user only.
 */
export async function writeBytesAtomically(path: string, bytes: Uint8Array): Promise<void> {
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const beside = `${path}.${randomBytes(6).toString('hex')}.part`;
  try {
    const file = await open(beside, 'wx', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (fault) {
    await rm(beside, { force: true });
    throw fault;
  }
}

/**
 * Lets `write` make a file beside `path` and then gives it that name: whole or not there. `mark` keeps two apart that are
 * written at once.
 */
export async function writeBeside(path: string, mark: string, write: (part: string) => Promise<void>): Promise<void> {
  const part = `${path}.${mark.slice(0, 8)}.part`;
  try {
    await write(part);
    await rename(part, path);
  } catch (fault) {
    await rm(part, { force: true });
    throw fault;
  }
}

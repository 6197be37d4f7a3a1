import { copyFileSync, existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** A store is up to three files: the database, the log of what is not in it yet, and the log's index. */
const PARTS = ['', '-wal', '-shm'] as const;

export const removeStore = (path: string): void => {
  for (const part of PARTS) rmSync(path + part, { force: true });
};

/** A second of now in a file name: `2026-01-31T10-20-30`. */
export const stamp = (): string => new Date().toISOString().slice(0, 19).replaceAll(':', '-');

/** A name beside `path` that is not taken: `rimward-<why>-<date>.sqlite`. */
function freeName(path: string, why: string): string {
  for (let count = 1; ; count++) {
    const extra = count === 1 ? '' : `-${count}`;
    const name = join(dirname(path), `rimward-${why}-${stamp()}${extra}.sqlite`);
    if (PARTS.every((part) => !existsSync(name + part))) return name;
  }
}

/** Renames a store, log and all, out of the way. Nothing in it is changed. Gives the new name, without its folder. */
export function setAside(path: string, why: 'damaged' | 'before-restore'): string {
  const name = freeName(path, why);
  for (const part of PARTS) if (existsSync(path + part)) renameSync(path + part, name + part);
  return basename(name);
}

/** A copy to work on; opening a store can change its files, and the ones set aside must stay as they were found. */
export function workingCopy(path: string, copy: string): void {
  removeStore(copy);
  // The index is made anew from the log.
  for (const part of ['', '-wal']) if (existsSync(path + part)) copyFileSync(path + part, copy + part);
}

/** Moves a closed store to where the program looks for it. */
export const putInPlace = (from: string, path: string): void => renameSync(from, path);

const WORKING = /^rimward-(new|salvage|restore)-\d+\.sqlite(-wal|-shm|-journal)?$/;

export const workingName = (folder: string, what: 'new' | 'salvage' | 'restore'): string =>
  join(folder, `rimward-${what}-${process.pid}.sqlite`);

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (fault) {
    return (fault as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Removes working files that a program left behind when it was killed. */
export function removeLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = WORKING.test(name) ? Number(/-(\d+)\.sqlite/.exec(name)?.[1]) : process.pid;
    if (pid !== process.pid && !isRunning(pid)) rmSync(join(folder, name), { force: true });
  }
}

export const sizeOf = (path: string): number => (existsSync(path) ? statSync(path).size : 0);

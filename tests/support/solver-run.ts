/** Finds and runs the solvers that stand beside the model's own, each as its Debian package installs it. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { JOB } from './solver-ccx.ts';
import type { Deck } from './solver-freefem.ts';

export type Program = 'FreeFem++' | 'CalculiX';

interface Start {
  readonly command: string;
  readonly args: readonly string[];
  readonly packageName: string;
}

/** How each program is started in the folder of its input. */
export const STARTS: Readonly<Record<Program, Start>> = {
  'FreeFem++': { command: 'FreeFem++-nw', args: ['-v', '0', '-ne'], packageName: 'freefem++' },
  CalculiX: { command: 'ccx', args: ['-i', JOB], packageName: 'calculix-ccx' },
};

/** The line that starts a program on a deck, for the record. */
export function commandLine(program: Program, deck: Deck): string {
  const { command, args } = STARTS[program];
  return [command, ...args, ...(program === 'FreeFem++' ? [deck.files[0][0]] : [])].join(' ');
}

const asked = new Map<Program, string | null>();

/** What a program says of its version, and its package's; null where it is not installed. */
export function installedVersion(program: Program): string | null {
  const known = asked.get(program);
  if (known !== undefined) return known;
  const { command, packageName } = STARTS[program];
  const folder = mkdtempSync(join(tmpdir(), 'rimward-solver-'));
  const empty = join(folder, 'empty.edp');
  writeFileSync(empty, ';\n');
  const args = program === 'FreeFem++' ? ['-ne', empty] : ['-v'];
  const { stdout, error } = spawnSync(command, args, { encoding: 'utf8', cwd: folder, timeout: 30_000 });
  rmSync(folder, { recursive: true, force: true });
  let version: string | null = null;
  if (!error) {
    const own = /(?:version|FreeFem\+\+) v?([\d.]+)/i.exec(stdout)?.[1] ?? 'unknown';
    const deb = spawnSync('dpkg-query', ['-W', packageName], { encoding: 'utf8' });
    version = deb.status === 0 && deb.stdout !== '' ? `${own} (package ${deb.stdout.trim().replace('\t', ' ')})` : own;
  }
  asked.set(program, version);
  return version;
}

/**
 * Runs a program on a deck in a folder of its own that is removed afterwards. @returns what it printed, or for CalculiX its
 * table of results. @throws when it fails, or leaves no table: CalculiX ends without complaint even where it read nothing
 */
export function runSolver(program: Program, deck: Deck): string {
  const { command } = STARTS[program];
  const folder = mkdtempSync(join(tmpdir(), 'rimward-solver-'));
  try {
    for (const [name, text] of deck.files) writeFileSync(join(folder, name), text);
    const args = commandLine(program, deck).split(' ').slice(1);
    const { status, error, stdout, stderr } = spawnSync(command, args, {
      encoding: 'utf8',
      cwd: folder,
      timeout: 300_000,
    });
    if (error || status !== 0)
      throw new Error(`${program} ended with ${status ?? error?.message}: ${(stdout + stderr).slice(-400)}`);
    if (program === 'FreeFem++') return stdout;
    const table = join(folder, `${JOB}.dat`);
    if (!existsSync(table)) throw new Error(`${program} left no table of results: ${stdout.slice(-400)}`);
    const text = readFileSync(table, 'utf8');
    if (text.trim() === '') throw new Error(`${program} left an empty table of results: ${stdout.slice(-400)}`);
    return text;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

import { homedir, platform } from 'node:os';
import { join, resolve } from 'node:path';

/**
 * Where attempts and preferences are kept on this machine; one place for both shells, so that an attempt made in the
 * window is found in the browser. `RIMWARD_DATA` moves it. The folder need not exist yet.
 */
export function dataFolder(env: NodeJS.ProcessEnv = process.env): string {
  if (env.RIMWARD_DATA !== undefined && env.RIMWARD_DATA !== '') return env.RIMWARD_DATA;
  if (platform() === 'win32') return join(env.APPDATA ?? join(homedir(), 'AppData', 'Roaming'), 'Rimward');
  if (platform() === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Rimward');
  return join(env.XDG_DATA_HOME ?? join(homedir(), '.local', 'share'), 'rimward');
}

/**
 * The data folder that arguments ask for with `--data <folder>` (or `--data=<folder>`), else the usual one; and the
 * arguments without it.
 *
 * @returns a line for the person instead where `--data` names none
 */
export function dataFolderOf(
  args: readonly string[],
  env: NodeJS.ProcessEnv = process.env,
): { readonly folder: string; readonly rest: readonly string[] } | { readonly problem: string } {
  const at = args.findIndex((arg) => arg === '--data' || arg.startsWith('--data='));
  if (at < 0) return { folder: dataFolder(env), rest: args };
  const joined = args[at] !== '--data';
  const given = joined ? args[at].slice('--data='.length) : args[at + 1];
  if (given === undefined || given === '' || (!joined && given.startsWith('-'))) {
    return { problem: 'command line: --data: found no folder, allowed: the folder in which attempts are kept' };
  }
  return { folder: resolve(given), rest: args.toSpliced(at, joined ? 1 : 2) };
}

import { homedir, platform } from 'node:os';
import { join } from 'node:path';

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

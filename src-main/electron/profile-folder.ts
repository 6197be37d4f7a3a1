import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { App } from 'electron';

/**
 * Puts what the browser inside keeps (caches, the lock of the one running program) into the data folder, so that there
 * is one program per store and none is kept from another store. A data folder that may only be read has no room for it:
 * then the system's usual place serves. Before the lock is asked for.
 */
export function keepProfileWith(app: App, dataFolder: string): void {
  const folder = join(dataFolder, 'window');
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch {
    return;
  }
  app.setPath('userData', folder);
}

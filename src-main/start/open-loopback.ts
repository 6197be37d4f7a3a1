import { join } from 'node:path';
import { dataFolder } from '../files/data-folder.ts';
import { programFolder } from '../files/program-folder.ts';
import { type Loopback, startLoopback } from '../loopback/server.ts';
import { loopbackServices } from '../loopback/services.ts';

/**
 * Serves the built page of this program on the loopback address, over the store of a data folder. `port` 0 takes a free
 * one. Rejects like `startLoopback`.
 */
export function openLoopback(port = 0, folder = dataFolder()): Promise<Loopback> {
  const dist = join(programFolder(), 'dist');
  return startLoopback({
    pageFolder: join(dist, 'renderer'),
    pageHostFile: join(dist, 'page-host', 'page-host.js'),
    services: loopbackServices(folder),
    port,
  });
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startLoopback } from '../../src-main/loopback/server.ts';
import { type LoopbackServices, loopbackServices } from '../../src-main/loopback/services.ts';

const DIST = join(import.meta.dirname, '..', '..', 'dist');

export interface SiteWithData {
  readonly address: string;
  readonly folder: string;
  /** What its program offers the page. */
  readonly host: LoopbackServices;
  close(): Promise<void>;
}

/** The page that ships over the loopback host, with all its services and a data folder of its own. */
export async function serveWithData(): Promise<SiteWithData> {
  const folder = mkdtempSync(join(tmpdir(), 'data-'));
  const host = loopbackServices(folder);
  const site = await startLoopback({
    pageFolder: join(DIST, 'renderer'),
    pageHostFile: join(DIST, 'page-host', 'page-host.js'),
    services: host,
  });
  return {
    address: site.address,
    folder,
    host,
    close: async () => {
      await site.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

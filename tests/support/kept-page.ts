import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { RimwardHost } from '../../src-main/ipc/contract.ts';
import { type Loopback, startLoopback } from '../../src-main/loopback/server.ts';
import { loopbackServices } from '../../src-main/loopback/services.ts';

const ROOT = join(import.meta.dirname, '..', '..');

export interface KeptPage {
  readonly site: Loopback;
  /** What the page asks, asked from outside of it. */
  readonly host: Partial<RimwardHost>;
  /** Ends the server and removes what it kept. */
  close(): Promise<void>;
}

/** The page that ships, with its store in a folder of its own. */
export async function serveKeptPage(): Promise<KeptPage> {
  const folder = mkdtempSync(join(tmpdir(), 'rimward-kept-'));
  const host = loopbackServices(folder);
  const site = await startLoopback({
    pageFolder: join(ROOT, 'dist', 'renderer'),
    pageHostFile: join(ROOT, 'dist', 'page-host', 'page-host.js'),
    services: host,
  });
  return {
    site,
    host,
    close: async () => {
      await site.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

import { join } from 'node:path';
import { build } from 'vite';
import { type Loopback, startLoopback } from '../../src-main/loopback/server.ts';

const ROOT = join(import.meta.dirname, '..', '..');

/** Serves a built page as the program does without a window, under the same rules for content. */
const serve = (pageFolder: string): Promise<Loopback> =>
  startLoopback({ pageFolder, pageHostFile: join(ROOT, 'dist', 'page-host', 'page-host.js'), services: {} });

/** The page that ships. */
export const servePage = (): Promise<Loopback> => serve(join(ROOT, 'dist', 'renderer'));

/** The page over the drawn stand-in: the same page, a world without mechanics. */
export async function serveDrawnPage(): Promise<Loopback> {
  const outDir = join(ROOT, 'test-results', 'drawn-page');
  await build({
    root: ROOT,
    configFile: join(ROOT, 'tests', 'support', 'view-fixture.vite.ts'),
    logLevel: 'error',
    build: { outDir },
  });
  return serve(outDir);
}

import { mkdtempSync } from 'node:fs';
import { join } from 'node:path';
import { startLoopback } from '../../src-main/loopback/server.ts';
import { loopbackServices } from '../../src-main/loopback/services.ts';
import type { Setting, Shell } from './carried.ts';

/** Room for a film or a bundle on a machine that is busy. */
const LONGEST_SAVE_MS = 120_000;

/** The page over the loopback host, in a browser of this machine. */
export async function byBrowser({ program, data, files, store }: Setting): Promise<Shell> {
  store.close();
  const services = loopbackServices(data);
  const answers = { ...services };
  const site = await startLoopback({
    pageFolder: join(program, 'dist', 'renderer'),
    pageHostFile: join(program, 'dist', 'page-host', 'page-host.js'),
    services: answers,
  });
  return {
    call: async (method, args) => (services[method] as (...some: unknown[]) => unknown)(...args),
    open: async (page, place) => {
      await page.goto(site.address + place);
      // The first visit only leaves the key and moves on.
      await page.waitForFunction(() => window.rimwardHost !== undefined);
    },
    saved: async (page, deed) => {
      const download = page.waitForEvent('download', { timeout: LONGEST_SAVE_MS });
      const value = await deed();
      const file = await download;
      const name = file.suggestedFilename();
      const path = join(mkdtempSync(join(files, 'saved-')), name);
      await file.saveAs(path);
      return { name, path, value };
    },
    given: async (page, file, deed) => {
      const chooser = page.waitForEvent('filechooser');
      const done = deed();
      const chosen = await chooser;
      if (typeof file === 'string') await chosen.setFiles(file);
      else await chosen.setFiles({ name: file.name, mimeType: 'text/plain', buffer: Buffer.from(file.body) });
      return done;
    },
    refuse: (method, why) => {
      Object.assign(answers, { [method]: why === null ? services[method] : () => Promise.reject(new Error(why)) });
    },
    close: () => site.close(),
  };
}

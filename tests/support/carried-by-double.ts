import type { Page } from '@playwright/test';
import { HOST_CHANNEL, type HostReply, type RimwardHost } from '../../src-main/ipc/contract.ts';
import type { Setting, Shell } from './carried.ts';
import { givenPath, savedFile } from './carried-files.ts';
import type * as Double from './electron-double.ts';
import { startDouble } from './start-double.ts';

type Handler = (event: unknown, method: string, args: readonly unknown[]) => Promise<HostReply>;

/** A browser whose first new page is one that is open already; a test has that one in hand. */
function beginningWith(page: Page): typeof Double.asked.context {
  let begun = false;
  const newPage = async (): Promise<Page> => {
    if (begun) return page.context().newPage();
    begun = true;
    return page;
  };
  return { newPage } as typeof Double.asked.context;
}

/** Answers the page's calls by the program, but for those that are refused. */
function refusing({ asked }: typeof Double, refused: ReadonlyMap<string, string>): void {
  const answer = asked.handlers.get(HOST_CHANNEL) as Handler;
  const guarded: Handler = async (event, method, args) => {
    const why = refused.get(method);
    return why === undefined ? answer(event, method, args) : { ok: false, problems: [why] };
  };
  asked.handlers.set(HOST_CHANNEL, guarded as (event: unknown, ...args: unknown[]) => unknown);
}

/** The window's built bundles over the stand-in for Electron. A page that was not open yet is a new start of the program. */
export function byDouble({ program, data, files, store }: Setting): Shell {
  let double: typeof Double | null = null;
  let shown: Page | null = null;
  const refused = new Map<string, string>();

  const running = (): typeof Double => {
    if (double === null || shown === null) throw new Error('the window has not been opened yet');
    return double;
  };
  const call = async (method: keyof RimwardHost, args: readonly unknown[]): Promise<unknown> => {
    const { asked } = running();
    const [{ webContents }] = asked.windows as [Double.BrowserWindow];
    const senderFrame = { url: 'app://rimward/', parent: null };
    const answer = asked.handlers.get(HOST_CHANNEL) as Handler;
    const reply = await answer({ sender: webContents, senderFrame }, method, args);
    if (!reply.ok) throw new Error(reply.problems.join('; '));
    return reply.value;
  };

  return {
    get call() {
      return shown === null || shown.isClosed() ? null : call;
    },
    open: async (page, place) => {
      if (page !== shown) {
        store.close();
        double = await startDouble(beginningWith(page), data, program);
        refusing(double, refused);
        shown = page;
        if (place !== '') await page.goto(double.STAND_IN + place);
        return;
      }
      await page.goto(running().STAND_IN + place);
      // An address that differs by its place alone opens nothing anew.
      await page.reload();
    },
    saved: async (_page, deed) => {
      const { asked } = running();
      const { folder, file } = savedFile(files);
      let name: string | null = null;
      asked.saveAnswers.push(({ defaultPath }) => {
        name = defaultPath;
        return { canceled: false, filePath: folder(defaultPath) };
      });
      const value = await deed();
      return { ...(await file(async () => name)), value };
    },
    given: async (_page, file, deed) => {
      running().asked.openAnswers.push({ canceled: false, filePaths: [givenPath(files, file)] });
      return deed();
    },
    refuse: (method, why) => {
      if (why === null) refused.delete(method);
      else refused.set(method, why);
    },
    close: async () => void double?.quit(),
  };
}

import { _electron, type ElectronApplication, type Page, test } from '@playwright/test';
import type { RimwardHost } from '../../src-main/ipc/contract.ts';
import { electronHere } from '../../src-main/start/find-electron.ts';
import type { Setting, Shell } from './carried.ts';
import { givenPath, savedFile } from './carried-files.ts';
import { callHost } from './window-tests.ts';

type Size = { readonly width: number; readonly height: number };

/** Answers to the system's dialogs, within the program. */
interface Dialogs {
  saveFolder: string;
  savedName: string | null;
  openPaths: string[];
}
type WithDialogs = typeof globalThis & { carriedDialogs: Dialogs };

let program: ElectronApplication | null = null;

function running(): ElectronApplication {
  if (program === null) throw new Error('the window has not been opened yet');
  return program;
}

/** Lets nobody be asked: files are saved into a folder and opened from a list. */
const answerDialogs = (started: ElectronApplication): Promise<void> =>
  started.evaluate(({ dialog }) => {
    const answers: Dialogs = { saveFolder: '', savedName: null, openPaths: [] };
    (globalThis as WithDialogs).carriedDialogs = answers;
    dialog.showSaveDialog = async (_window: unknown, options?: { defaultPath?: string }) => {
      answers.savedName = options?.defaultPath ?? '';
      return { canceled: false, filePath: `${answers.saveFolder}/${answers.savedName}` };
    };
    dialog.showOpenDialog = async () => {
      const path = answers.openPaths.shift();
      return { canceled: path === undefined, filePaths: path === undefined ? [] : [path] };
    };
  });

/** Gives the page this much room; where the screen has less, the test is skipped. */
async function makeRoom(page: Page, { width, height }: Size): Promise<void> {
  await running().evaluate(({ BrowserWindow }, [w, h]) => BrowserWindow.getAllWindows()[0]?.setContentSize(w, h), [
    width,
    height,
  ] as const);
  const fits = await page
    .waitForFunction(([w, h]) => innerWidth === w && innerHeight === h, [width, height] as const, { timeout: 5000 })
    .then(
      () => true,
      () => false,
    );
  test.skip(!fits, `this screen has no room for a window of ${width} by ${height}`);
}

/** Starts Electron over what is to be carried; gives its window's page, of the size asked for. */
export async function launchElectron(setting: Setting, size: Size | null, hasTouch: boolean): Promise<Page> {
  const found = electronHere();
  if (!('path' in found)) throw new Error(`Electron cannot be started here: ${found.why}`);
  setting.store.close();
  const started = await _electron.launch({
    executablePath: found.path,
    args: [setting.program, ...(process.getuid?.() === 0 ? ['--no-sandbox'] : [])],
    env: { ...(process.env as Record<string, string>), RIMWARD_DATA: setting.data },
  });
  program = started;
  const page = await started.firstWindow();
  await answerDialogs(started);
  page.setViewportSize = (asked) => makeRoom(page, asked);
  if (size !== null) await makeRoom(page, size);
  if (hasTouch) {
    const devtools = await page.context().newCDPSession(page);
    await devtools.send('Emulation.setTouchEmulationEnabled', { enabled: true, maxTouchPoints: 5 });
  }
  return page;
}

export async function closeElectron(): Promise<void> {
  const ending = program;
  program = null;
  await ending?.close();
}

/** Electron itself. The window is there before the test; opening the page loads it anew. */
export function byElectron({ files }: Setting): Shell {
  let shown: Page | null = null;
  return {
    get call() {
      const page = shown;
      if (program === null || page === null || page.isClosed()) return null;
      return async (method: keyof RimwardHost, args: readonly unknown[]) => {
        const answer = await callHost(page, method, ...args);
        if (typeof answer === 'string' && answer.startsWith('refused: ')) throw new Error(answer);
        return answer;
      };
    },
    open: async (page, place) => {
      shown = page;
      await running().evaluate(
        ({ BrowserWindow }, address) => BrowserWindow.getAllWindows()[0]?.loadURL(address),
        `app://rimward/${place}`,
      );
      // An address that differs by its place alone opens nothing anew.
      await page.reload();
    },
    saved: async (_page, deed) => {
      const { folder, file } = savedFile(files);
      await running().evaluate((_electron, into) => {
        const { carriedDialogs } = globalThis as WithDialogs;
        Object.assign(carriedDialogs, { saveFolder: into, savedName: null });
      }, folder(''));
      const value = await deed();
      const asked = () => running().evaluate(() => (globalThis as WithDialogs).carriedDialogs.savedName);
      return { ...(await file(asked)), value };
    },
    given: async (_page, file, deed) => {
      await running().evaluate(
        (_electron, path) => void (globalThis as WithDialogs).carriedDialogs.openPaths.push(path),
        givenPath(files, file),
      );
      return deed();
    },
    refuse: () => test.skip(true, 'the calls of a page in Electron cannot be refused from outside'),
    close: async () => undefined,
  };
}

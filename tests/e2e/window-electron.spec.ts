import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { _electron, type ElectronApplication, expect, type Page, test } from '@playwright/test';
import { electronHere } from '../../src-main/start/find-electron.ts';
import { windowTests } from '../support/window-tests.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const found = electronHere();
const data = mkdtempSync(join(tmpdir(), 'window-'));

test.describe('the window in Electron itself', () => {
  test.describe.configure({ mode: 'serial' });
  test.skip(!('path' in found), `Electron cannot be started here: ${'why' in found ? found.why : ''}`);
  let program: ElectronApplication;
  let page: Page;

  test.beforeAll(async () => {
    if (!('path' in found)) return;
    program = await _electron.launch({
      executablePath: found.path,
      args: [ROOT, ...(process.getuid?.() === 0 ? ['--no-sandbox'] : [])],
      env: { ...(process.env as Record<string, string>), RIMWARD_DATA: data },
    });
    page = await program.firstWindow();
  });

  test.afterAll(async () => {
    await program?.close();
    rmSync(data, { recursive: true, force: true });
  });

  windowTests(() => page, data);

  test('Electron gives the window what was asked of it', async () => {
    const preferences = await program.evaluate(({ BrowserWindow }) => {
      const [window] = BrowserWindow.getAllWindows();
      // not among the types of Electron, and there all the same
      return (window.webContents as unknown as { getLastWebPreferences(): unknown }).getLastWebPreferences();
    });
    expect(preferences).toMatchObject({
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
    });
  });

  test('nothing is fetched from outside', async () => {
    const answer = await page.evaluate(() =>
      fetch('https://example.org/').then(
        () => 'fetched',
        () => 'refused',
      ),
    );
    expect(answer).toBe('refused');
  });
});

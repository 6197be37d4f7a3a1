import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import * as nodeModule from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, type Page, test } from '@playwright/test';
import type { Job, JobProgress, RimwardHost } from '../../src-main/ipc/contract.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

type Double = typeof import('../support/electron-double.ts');

const ROOT = join(import.meta.dirname, '..', '..');
const CHANNEL = 'rimward:host';
const data = mkdtempSync(join(tmpdir(), 'window-'));

/** Calls the page's own host, as the page does. */
function call(page: Page, method: keyof RimwardHost, ...args: unknown[]): Promise<unknown> {
  return page.evaluate(
    async ([name, given]) => {
      const host = window.rimwardHost as unknown as Record<string, (...some: unknown[]) => Promise<unknown>>;
      return host[name](...given).catch((fault: Error) => `refused: ${fault.message}`);
    },
    [method, args] as const,
  );
}

/** An attempt of a new person, stored as the page stores it. Gives its id. */
async function finishedAttempt(page: Page): Promise<unknown> {
  const person = madePerson();
  expect(await call(page, 'savePerson', person)).toBeNull();
  const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' };
  const id = await call(page, 'beginAttempt', start);
  await call(page, 'appendCommands', id, 0, madeCommands(60));
  await call(page, 'finishAttempt', id, madeResult(60));
  return id;
}

/** Starts work on a file and waits for its end. Gives its lines. */
async function finishedJob(page: Page, method: keyof RimwardHost, ...args: unknown[]): Promise<readonly string[]> {
  const job = (await call(page, method, ...args)) as Job;
  const progress = async () => (await call(page, 'jobProgress', job.id)) as JobProgress;
  await expect.poll(async () => (await progress()).state, { timeout: 30_000 }).toBe('finished');
  return (await progress()).lines;
}

test.describe("the window's built bundles over a stand-in for Electron", () => {
  test.describe.configure({ mode: 'serial' });
  test.skip(!('registerHooks' in nodeModule), 'needs a Node with module.registerHooks (22.15 or 23.5)');
  let double: Double;
  let page: Page;
  const complaints: string[] = [];

  test.beforeAll(async ({ browser }) => {
    process.env.RIMWARD_DATA = data;
    const address = pathToFileURL(join(ROOT, 'tests/support/electron-double.ts')).href;
    nodeModule.registerHooks({
      resolve: (name, context, next) =>
        name === 'electron' ? { url: address, shortCircuit: true } : next(name, context),
    });
    double = await import('../support/electron-double.ts');
    const context = await browser.newContext();
    context.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    double.asked.context = context;
    await import(pathToFileURL(join(ROOT, 'dist/electron/main.js')).href);
    await expect.poll(() => double.asked.windows.length).toBe(1);
    page = await double.asked.windows[0].page;
  });

  test.afterAll(async () => {
    await double?.asked.context?.close();
    rmSync(data, { recursive: true, force: true });
  });

  test('the window asks for isolation, sandbox, web security and no Node', () => {
    expect(double.asked.windows[0].options.webPreferences).toMatchObject({
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(double.asked.calls).toEqual([
      `setPath userData ${join(data, 'window')}`,
      'requestSingleInstanceLock',
      'enableSandbox',
      'show',
    ]);
    expect(double.asked.schemes).toEqual([
      { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
  });

  test('the page is served by our protocol, stands, and breaks none of its rules', async () => {
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await expect(page.getByText(/not for planning surgery/i).first()).toBeVisible();
    expect(complaints).toEqual([]);
  });

  test('the page gets the host interface and nothing of Node or Electron', async () => {
    const names = await page.evaluate(() => ({
      host: Object.keys(window.rimwardHost ?? {}).sort(),
      others: ['require', 'process', 'module', 'electron', 'ipcRenderer'].filter((name) => name in window),
    }));
    const { HOST_METHODS } = await import('../../src-main/ipc/contract.ts');
    expect(names).toEqual({ host: [...HOST_METHODS].sort(), others: [] });
  });

  test('facts, preferences and an attempt go to the disk and come back', async () => {
    expect(await call(page, 'hostInfo')).toMatchObject({ dataFolder: data, platform: process.platform, notices: [] });
    await call(page, 'savePreference', 'theme', 'projector');
    expect(await call(page, 'loadPreferences')).toMatchObject({ theme: 'projector' });
    const id = await finishedAttempt(page);
    expect(await call(page, 'loadAttempt', id)).toMatchObject({
      summary: { id, seal: 'fits', passed: true },
      scenario,
      commands: madeCommands(60),
      result: madeResult(60),
    });
  });

  test('a bundle and a backup are written and read through the dialogs of the system', async () => {
    const [attempt] = (await call(page, 'listAttempts', {})) as { id: string }[];
    const file = join(data, 'class.rimward-bundle');
    double.asked.saveAnswers.push({ canceled: false, filePath: file }, { canceled: true, filePath: '' });
    expect(await finishedJob(page, 'exportBundle', 'class', [attempt.id])).toEqual(['Written: 1 of 1 attempts.']);
    expect(await call(page, 'exportBundle', 'class', [attempt.id])).toBeNull();
    await call(page, 'removeAttempt', attempt.id);
    double.asked.openAnswers.push(
      { canceled: false, filePaths: [file] },
      { canceled: true, filePaths: [] },
      { canceled: false, filePaths: [join(data, 'absent.rimward-bundle')] },
    );
    expect(await finishedJob(page, 'importBundle')).toEqual(['Taken in: 1 attempt.']);
    expect(await call(page, 'importBundle')).toBeNull();
    expect(await call(page, 'importBundle')).toBe('refused: absent.rimward-bundle cannot be read');
    expect(await call(page, 'loadAttempt', attempt.id)).toMatchObject({
      summary: { seal: 'fits', fromBundle: 'class.rimward-bundle' },
    });

    const backup = join(data, 'all.rimward-store');
    double.asked.saveAnswers.push({ canceled: false, filePath: backup });
    expect((await finishedJob(page, 'backupStore', 'all'))[0]).toContain('the whole store, 1 attempts');
    await call(page, 'removeAttempt', attempt.id);
    double.asked.openAnswers.push({ canceled: false, filePaths: [backup] });
    // The page may have brought a person of its own.
    expect((await finishedJob(page, 'restoreStore'))[0]).toMatch(/^Restored: [12] people, 1 attempts\.$/);
    expect(await call(page, 'listAttempts', {})).toMatchObject([{ id: attempt.id, seal: 'fits' }]);
  });

  test('a report opens in a window where nothing runs, and is saved as a PDF', async () => {
    const [attempt] = (await call(page, 'listAttempts', {})) as { id: string }[];
    await call(page, 'openAttemptReport', attempt.id);
    const shown = double.asked.windows.at(-1);
    expect(shown?.options.webPreferences).toMatchObject({ javascript: false, sandbox: true, contextIsolation: true });
    expect(shown?.options.webPreferences.preload).toBeUndefined();
    const report = await shown?.page;
    if (report === undefined) throw new Error('no report window');
    await expect(report.getByText(/not for planning surgery/i)).toBeVisible();
    expect(await report.title()).toContain('Ada Example');
    await report.close();

    const pdf = join(data, 'report.pdf');
    double.asked.saveAnswers.push({ canceled: false, filePath: pdf });
    expect(await call(page, 'saveAttemptReport', attempt.id)).toBe('report.pdf');
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
    expect(double.asked.calls.at(-1)).toBe('destroy');
    const person = (await call(page, 'loadAttempt', attempt.id)) as { summary: { personId: string } };
    const about = [person.summary.personId, scenario.id];
    await call(page, 'openPersonReport', ...about);
    const shownPerson = await double.asked.windows.at(-1)?.page;
    expect(await shownPerson?.title()).toContain('Ada Example');
    await shownPerson?.close();
    double.asked.saveAnswers.push({ canceled: false, filePath: join(data, 'person.pdf') });
    expect(await call(page, 'savePersonReport', ...about)).toBe('person.pdf');
    expect(readFileSync(join(data, 'person.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(await call(page, 'openAttemptReport', '00000000-0000-4000-8000-000000000000')).toContain('no such attempt');
  });

  test('files are opened and saved through the dialogs of the system', async () => {
    const path = join(data, 'outline.csv');
    writeFileSync(path, 'x,y\n');
    writeFileSync(join(data, 'binary.csv'), Buffer.from([0xff, 0xfe, 0x00]));
    double.asked.openAnswers.push(
      { canceled: false, filePaths: [path] },
      { canceled: true, filePaths: [] },
      { canceled: false, filePaths: [join(data, 'binary.csv')] },
      { canceled: false, filePaths: [join(data, 'absent.csv')] },
    );
    expect(await call(page, 'openTextFile')).toEqual({ name: 'outline.csv', text: 'x,y\n' });
    expect(await call(page, 'openTextFile')).toBeNull();
    expect(await call(page, 'openTextFile')).toBe('refused: binary.csv is not a text file');
    expect(await call(page, 'openTextFile')).toBe('refused: absent.csv cannot be read');

    const target = join(data, 'saved.rimward');
    double.asked.saveAnswers.push({ canceled: false, filePath: target }, { canceled: true, filePath: '' });
    expect(await call(page, 'saveTextFile', 'saved.rimward', 'text')).toBe('saved.rimward');
    expect(readFileSync(target, 'utf8')).toBe('text');
    expect(await call(page, 'saveTextFile', 'saved.rimward', 'text')).toBeNull();
    expect(await call(page, 'saveTextFile', '../../escape', 'text')).toContain('refused');
    expect(await call(page, 'saveTextFile', 'x', 5)).toContain('refused');

    const picture = join(data, 'picture.png');
    double.asked.saveAnswers.push({ canceled: false, filePath: picture });
    const bytes = new Uint8Array([0x89, 0x50, 0, 0xff]);
    expect(await call(page, 'saveBinaryFile', 'picture.png', bytes)).toBe('picture.png');
    expect([...readFileSync(picture)]).toEqual([...bytes]);
    expect(await call(page, 'saveBinaryFile', 'picture.png', 'text')).toContain('refused');
  });

  test('a file that the system hands over is given to the page once; a bundle is taken in when the person agrees', async () => {
    expect(await call(page, 'takeHandedFile')).toBeNull();
    const eye = join(data, 'handed.rimward');
    writeFileSync(eye, '{"rimwardScenario":1}');
    double.app.emit('second-instance', {}, ['rimward', '--flag', 'handed.rimward'], data);
    expect(await call(page, 'takeHandedFile')).toEqual({ name: 'handed.rimward', text: '{"rimwardScenario":1}' });
    expect(await call(page, 'takeHandedFile')).toBeNull();

    const [{ id }] = (await call(page, 'listAttempts', {})) as { id: string }[];
    await call(page, 'removeAttempt', id);
    const event = { preventDefault: () => undefined };
    double.app.emit('open-file', event, join(data, 'class.rimward-bundle'));
    await expect.poll(() => double.asked.messages.length).toBe(1);
    expect(await call(page, 'listAttempts', {})).toEqual([]);
    double.asked.messageAnswers.push(0);
    double.app.emit('open-file', event, join(data, 'class.rimward-bundle'));
    await expect.poll(() => double.asked.messages.at(-1)?.detail).toBe('Taken in: 1 attempt.');
    expect(await call(page, 'listAttempts', {})).toMatchObject([{ id }]);
  });

  test('a call from another page, a frame inside ours, or another window is refused', async () => {
    const answer = double.asked.handlers.get(CHANNEL);
    if (answer === undefined) throw new Error('nobody answers the page');
    const sender = double.asked.windows[0].webContents;
    const ours = { url: 'app://rimward/', parent: null };
    const from = async (event: unknown): Promise<boolean> =>
      ((await answer(event, 'hostInfo', [])) as { ok: boolean }).ok;
    expect(await from({ sender, senderFrame: ours })).toBe(true);
    for (const url of [
      'https://rimward/',
      'app://other/',
      'app://rimward.evil.example/',
      'app://x@rimward/',
      'about:blank',
      '',
    ]) {
      expect(await from({ sender, senderFrame: { url, parent: null } })).toBe(false);
    }
    expect(await from({ sender, senderFrame: { ...ours, parent: {} } })).toBe(false);
    expect(await from({ sender, senderFrame: null })).toBe(false);
    expect(await from({ sender: { id: 99 }, senderFrame: ours })).toBe(false);
  });

  test('the protocol serves the page and nothing else', async () => {
    const serve = double.asked.protocols.get('app');
    const status = async (address: string): Promise<number | undefined> =>
      (await serve?.(new Request(address)))?.status;
    expect(await status('app://rimward/index.html')).toBe(200);
    for (const address of [
      'app://rimward/../package.json',
      'app://rimward/%2e%2e/electron/main.js',
      'app://rimward/..%2felectron%2fmain.js',
      'app://rimward//etc/passwd',
      'app://other/index.html',
      'app://rimward/absent.js',
    ]) {
      expect(await status(address), address).toBe(404);
    }
    const page = await serve?.(new Request('app://rimward/'));
    expect(page?.headers.get('content-security-policy')).toContain("default-src 'none'");
  });

  test('permissions, devices, downloads, outside requests, navigation and new windows are all refused', () => {
    const { session, windows } = double.asked;
    let granted: boolean | null = null;
    session.get('permissionRequest')({}, 'media', (answer: boolean) => {
      granted = answer;
    });
    expect(granted).toBe(false);
    expect(session.get('permissionCheck')({}, 'clipboard-read')).toBe(false);
    expect(session.get('devicePermission')({})).toBe(false);
    const cancelled = (url: string): boolean => {
      let cancel = false;
      session.get('beforeRequest')({ url }, (answer: { cancel: boolean }) => {
        cancel = answer.cancel;
      });
      return cancel;
    };
    for (const url of [
      'https://example.org/',
      'http://127.0.0.1/',
      'ws://example.org',
      'file:///etc/passwd',
      'app://other/',
      'blob:https://x/1',
    ]) {
      expect(cancelled(url), url).toBe(true);
    }
    for (const url of ['app://rimward/index.html', 'blob:app://rimward/1', 'data:,x'])
      expect(cancelled(url), url).toBe(false);
    const prevented = (emit: (event: { preventDefault: () => void }) => void): boolean => {
      let stopped = false;
      emit({
        preventDefault: () => {
          stopped = true;
        },
      });
      return stopped;
    };
    const { webContents } = windows[0];
    for (const name of ['will-navigate', 'will-redirect', 'will-frame-navigate', 'will-attach-webview']) {
      expect(
        prevented((event) => webContents.emit(name, event)),
        name,
      ).toBe(true);
    }
    expect(prevented(session.get('on will-download'))).toBe(true);
    expect(webContents.openHandler({ url: 'https://example.org' })).toEqual({ action: 'deny' });
  });

  test('a second start brings the window to the front', () => {
    const before = double.asked.windows.length;
    double.app.emit('second-instance');
    expect(double.asked.calls.at(-1)).toBe('focus');
    expect(double.asked.windows).toHaveLength(before);
  });
});

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import type { Job, JobProgress, RimwardHost } from '../../src-main/ipc/contract.ts';
import { scenario } from '../support/made-attempts.ts';
import { noDouble, startDouble } from '../support/start-double.ts';
import { callHost, windowTests } from '../support/window-tests.ts';

type Double = typeof import('../support/electron-double.ts');

const CHANNEL = 'rimward:host';
const data = mkdtempSync(join(tmpdir(), 'window-'));

/** Starts work on a file and waits for its end. Gives its lines. */
async function finishedJob(page: Page, method: keyof RimwardHost, ...args: unknown[]): Promise<readonly string[]> {
  const job = (await callHost(page, method, ...args)) as Job;
  const progress = async () => (await callHost(page, 'jobProgress', job.id)) as JobProgress;
  await expect.poll(async () => (await progress()).state, { timeout: 30_000 }).toBe('finished');
  return (await progress()).lines;
}

test.describe("the window's built bundles over a stand-in for Electron", () => {
  test.describe.configure({ mode: 'serial' });
  test.skip(noDouble !== null, noDouble ?? '');
  let double: Double;
  let page: Page;
  const complaints: string[] = [];

  test.beforeAll(async ({ browser }) => {
    const context = await browser.newContext();
    context.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    double = await startDouble(context, data);
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
    await expect(page.getByTestId('caution')).toBeVisible();
    expect(complaints).toEqual([]);
  });

  windowTests(() => page, data);

  test('a bundle and a backup are written and read through the dialogs of the system', async () => {
    const [attempt] = (await callHost(page, 'listAttempts', {})) as { id: string }[];
    const file = join(data, 'class.rimward-bundle');
    double.asked.saveAnswers.push({ canceled: false, filePath: file }, { canceled: true, filePath: '' });
    expect(await finishedJob(page, 'exportBundle', 'class', [attempt.id])).toEqual(['Written: 1 of 1 attempts.']);
    expect(await callHost(page, 'exportBundle', 'class', [attempt.id])).toBeNull();
    await callHost(page, 'removeAttempt', attempt.id);
    double.asked.openAnswers.push(
      { canceled: false, filePaths: [file] },
      { canceled: true, filePaths: [] },
      { canceled: false, filePaths: [join(data, 'absent.rimward-bundle')] },
    );
    expect(await finishedJob(page, 'importBundle')).toEqual(['Taken in: 1 attempt.']);
    expect(await callHost(page, 'importBundle')).toBeNull();
    expect(await callHost(page, 'importBundle')).toBe('refused: absent.rimward-bundle cannot be read');
    expect(await callHost(page, 'loadAttempt', attempt.id)).toMatchObject({
      summary: { seal: 'fits', fromBundle: 'class.rimward-bundle' },
    });

    const backup = join(data, 'all.rimward-store');
    double.asked.saveAnswers.push({ canceled: false, filePath: backup });
    expect((await finishedJob(page, 'backupStore', 'all'))[0]).toContain('the whole store, 1 attempts');
    await callHost(page, 'removeAttempt', attempt.id);
    double.asked.openAnswers.push({ canceled: false, filePaths: [backup] });
    // The page may have brought a person of its own.
    expect((await finishedJob(page, 'restoreStore'))[0]).toMatch(/^Restored: [12] people, 1 attempts\.$/);
    expect(await callHost(page, 'listAttempts', {})).toMatchObject([{ id: attempt.id, seal: 'fits' }]);
  });

  test('a report opens in a window where nothing runs, and is saved as a PDF', async () => {
    const [attempt] = (await callHost(page, 'listAttempts', {})) as { id: string }[];
    await callHost(page, 'openAttemptReport', attempt.id);
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
    expect(await callHost(page, 'saveAttemptReport', attempt.id)).toBe('report.pdf');
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
    expect(double.asked.calls.at(-1)).toBe('destroy');
    const person = (await callHost(page, 'loadAttempt', attempt.id)) as { summary: { personId: string } };
    const about = [person.summary.personId, scenario.id];
    await callHost(page, 'openPersonReport', ...about);
    const shownPerson = await double.asked.windows.at(-1)?.page;
    expect(await shownPerson?.title()).toContain('Ada Example');
    await shownPerson?.close();
    double.asked.saveAnswers.push({ canceled: false, filePath: join(data, 'person.pdf') });
    expect(await callHost(page, 'savePersonReport', ...about)).toBe('person.pdf');
    expect(readFileSync(join(data, 'person.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(await callHost(page, 'openAttemptReport', '00000000-0000-4000-8000-000000000000')).toContain(
      'no such attempt',
    );
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
    expect(await callHost(page, 'openTextFile')).toEqual({ name: 'outline.csv', text: 'x,y\n' });
    expect(await callHost(page, 'openTextFile')).toBeNull();
    expect(await callHost(page, 'openTextFile')).toBe('refused: binary.csv is not a text file');
    expect(await callHost(page, 'openTextFile')).toBe('refused: absent.csv cannot be read');

    const target = join(data, 'saved.rimward');
    double.asked.saveAnswers.push({ canceled: false, filePath: target }, { canceled: true, filePath: '' });
    expect(await callHost(page, 'saveTextFile', 'saved.rimward', 'text')).toBe('saved.rimward');
    expect(readFileSync(target, 'utf8')).toBe('text');
    expect(await callHost(page, 'saveTextFile', 'saved.rimward', 'text')).toBeNull();
    expect(await callHost(page, 'saveTextFile', '../../escape', 'text')).toContain('refused');
    expect(await callHost(page, 'saveTextFile', 'x', 5)).toContain('refused');

    const picture = join(data, 'picture.png');
    double.asked.saveAnswers.push({ canceled: false, filePath: picture });
    const bytes = new Uint8Array([0x89, 0x50, 0, 0xff]);
    expect(await callHost(page, 'saveBinaryFile', 'picture.png', bytes)).toBe('picture.png');
    expect([...readFileSync(picture)]).toEqual([...bytes]);
    expect(await callHost(page, 'saveBinaryFile', 'picture.png', 'text')).toContain('refused');
  });

  test('a file that the system hands over is given to the page once; a bundle is taken in when the person agrees', async () => {
    expect(await callHost(page, 'takeHandedFile')).toBeNull();
    const eye = join(data, 'handed.rimward');
    writeFileSync(eye, '{"rimwardScenario":1}');
    double.app.emit('second-instance', {}, ['rimward', '--flag', 'handed.rimward'], data);
    expect(await callHost(page, 'takeHandedFile')).toEqual({ name: 'handed.rimward', text: '{"rimwardScenario":1}' });
    expect(await callHost(page, 'takeHandedFile')).toBeNull();

    const [{ id }] = (await callHost(page, 'listAttempts', {})) as { id: string }[];
    await callHost(page, 'removeAttempt', id);
    const event = { preventDefault: () => undefined };
    double.app.emit('open-file', event, join(data, 'class.rimward-bundle'));
    await expect.poll(() => double.asked.messages.length).toBe(1);
    expect(await callHost(page, 'listAttempts', {})).toEqual([]);
    double.asked.messageAnswers.push(0);
    double.app.emit('open-file', event, join(data, 'class.rimward-bundle'));
    await expect.poll(() => double.asked.messages.at(-1)?.detail).toBe('Taken in: 1 attempt.');
    expect(await callHost(page, 'listAttempts', {})).toMatchObject([{ id }]);
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

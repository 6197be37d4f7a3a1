import { expect, test } from '@playwright/test';
import { type StartedApp, startApp } from '../support/start-app.ts';

test.describe('npm start, without a window', () => {
  test.skip(process.platform === 'win32', 'ending a group of processes by a signal is not known there');
  test.describe.configure({ mode: 'serial' });
  let app: StartedApp;

  test.beforeAll(async () => {
    test.setTimeout(240_000);
    app = await startApp();
  });

  test.afterAll(async () => {
    await app?.end();
  });

  test('says in one line why there is no window, then gives the address', () => {
    const why = app
      .said()
      .split('\n')
      .filter((line) => line.startsWith('No window'));
    expect(why).toHaveLength(1);
    expect(app.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?key=[\w-]{43}$/);
  });

  test('the page opens at that address, keeps the key out of it, and breaks none of its own rules', async ({
    page,
  }) => {
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await page.goto(app.address);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await expect(page.getByText(/not for planning surgery/i).first()).toBeVisible();
    expect(page.url()).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(await page.evaluate(() => `${document.cookie}|${document.referrer}`)).toBe('|');
    expect(complaints).toEqual([]);
  });

  test('the page reaches its host: facts, preferences, and a refusal in plain words', async ({ page }) => {
    await page.goto(app.address);
    await page.waitForFunction(() => window.rimwardHost !== undefined);
    const found = await page.evaluate(async () => {
      const host = window.rimwardHost;
      if (host === undefined) throw new Error('no host');
      await host.savePreference('theme', 'projector');
      const refused = await host.savePreference('../x', 1).catch((fault: Error) => fault.message);
      return {
        info: await host.hostInfo(),
        kept: await host.loadPreferences(),
        attempts: await host.listAttempts({}),
        refused,
      };
    });
    expect(found.info.version).toMatch(/^\d+\.\d+\.\d+$/);
    expect(found.kept).toMatchObject({ theme: 'projector' });
    expect(found.attempts).toEqual([]);
    expect(found.info.notices).toEqual([]);
    expect(found.refused).toBeTruthy();
  });

  test('a browser without the key gets nothing', async ({ browser }) => {
    const page = await (await browser.newContext()).newPage();
    const answer = await page.goto(new URL('/', app.address).href);
    expect(answer?.status()).toBe(403);
    await expect(page.getByRole('heading', { level: 1 })).toHaveCount(0);
  });

  test('a page of another origin cannot call the host', async ({ browser }) => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto(app.address);
    const other = await context.newPage();
    await other.goto('data:text/html,<title>other</title>');
    const outcome = await other.evaluate(async (address) => {
      const headers = { 'content-type': 'application/json', 'x-rimward-host': '1' };
      return fetch(address, { method: 'POST', credentials: 'include', headers, body: '[]' }).then(
        (response) => response.status,
        () => 'refused',
      );
    }, new URL('/host/hostInfo', app.address).href);
    expect(outcome).toBe('refused');
  });

  test('ends on Ctrl+C, all of it, and the address is dead then', async () => {
    const { code, signal, leftovers } = await app.end();
    // npm passes the signal on and then ends by it.
    expect([0, 'SIGINT']).toContain(code ?? signal);
    expect(leftovers).toBe(false);
    await expect(fetch(app.address)).rejects.toThrow();
  });

  test('the program itself ends with 0', async () => {
    const alone = await startApp([process.execPath, 'bin/start.js']);
    expect(await alone.end()).toEqual({ code: 0, signal: null, leftovers: false });
  });
});

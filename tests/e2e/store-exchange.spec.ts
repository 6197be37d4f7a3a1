import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import type { Job, JobProgress } from '../../src-main/ipc/contract.ts';
import { type Loopback, startLoopback } from '../../src-main/loopback/server.ts';
import { loopbackServices } from '../../src-main/loopback/services.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

const ROOT = join(import.meta.dirname, '..', '..');

/** Calls the page's own host, as the page does after a click: in a browser some of it needs one. */
function call(page: Page, method: string, ...args: unknown[]): Promise<unknown> {
  return page.evaluate(
    async ([name, given]) => {
      const host = window.rimwardHost as unknown as Record<string, (...some: unknown[]) => Promise<unknown>>;
      return host[name](...given).catch((fault: Error) => `refused: ${fault.message}`);
    },
    [method, args] as const,
  );
}

async function visit(page: Page, address: string): Promise<void> {
  await page.goto(address);
  // The first visit only leaves the key and moves on.
  await page.waitForFunction(() => window.rimwardHost !== undefined);
}

async function endOf(page: Page, job: unknown): Promise<JobProgress> {
  const progress = async () => (await call(page, 'jobProgress', (job as Job).id)) as JobProgress;
  await expect.poll(async () => (await progress()).state).not.toBe('running');
  return progress();
}

test.describe('the store from a page in a browser', () => {
  let folder: string;
  let loopback: Loopback;
  let id: string;

  test.beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'browser-store-'));
    const services = loopbackServices(folder);
    loopback = await startLoopback({
      pageFolder: join(ROOT, 'dist', 'renderer'),
      pageHostFile: join(ROOT, 'dist', 'page-host', 'page-host.js'),
      services,
    });
    const person = madePerson();
    await services.savePerson?.(person);
    const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' } as const;
    id = (await services.beginAttempt?.(start)) ?? '';
    await services.appendCommands?.(id, 0, madeCommands(60));
    await services.finishAttempt?.(id, madeResult(60));
  });

  test.afterAll(async () => {
    await loopback.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test('a bundle is downloaded under its name, and taken in from a file the person chooses', async ({ page }) => {
    await visit(page, loopback.address);
    const download = page.waitForEvent('download');
    const job = await call(page, 'exportBundle', 'class', [id]);
    const file = await download;
    expect(file.suggestedFilename()).toBe('class.rimward-bundle');
    const path = join(folder, 'class.rimward-bundle');
    await file.saveAs(path);
    expect(readFileSync(path).subarray(0, 2)).toEqual(Buffer.from([0x1f, 0x8b]));
    expect((await endOf(page, job)).lines).toEqual(['Written: 1 of 1 attempts.']);

    await call(page, 'removeAttempt', id);
    const chooser = page.waitForEvent('filechooser');
    const taking = call(page, 'importBundle');
    await (await chooser).setFiles(path);
    expect((await endOf(page, await taking)).lines).toEqual(['Taken in: 1 attempt.']);
    expect(await call(page, 'listAttempts', {})).toMatchObject([{ id, seal: 'fits' }]);
  });

  test('a backup is downloaded, and restored from a file the person chooses', async ({ page }) => {
    await visit(page, loopback.address);
    const download = page.waitForEvent('download');
    await call(page, 'backupStore', 'all');
    const path = join(folder, 'all.rimward-store');
    await (await download).saveAs(path);
    await call(page, 'removeAttempt', id);
    const chooser = page.waitForEvent('filechooser');
    const restoring = call(page, 'restoreStore');
    await (await chooser).setFiles(path);
    expect((await endOf(page, await restoring)).lines[0]).toContain('1 attempts');
    expect(await call(page, 'listAttempts', {})).toMatchObject([{ id }]);
  });

  test('a report opens in a tab of its own, styled, with nothing refused by its rules', async ({ page, context }) => {
    const complaints: string[] = [];
    context.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    await visit(page, loopback.address);
    const opened = context.waitForEvent('page');
    await call(page, 'openAttemptReport', id);
    const report = await opened;
    await expect(report.getByText(/not for planning surgery/i)).toBeVisible({ timeout: 30_000 });
    await expect(report).toHaveTitle(/Ada Example/);
    expect(await report.evaluate(() => getComputedStyle(document.querySelector('h1') as Element).fontSize)).toBe(
      '20px',
    );
    expect(complaints).toEqual([]);
    expect(await call(page, 'saveAttemptReport', id)).toMatch(/^refused: .*print it/);
  });
});

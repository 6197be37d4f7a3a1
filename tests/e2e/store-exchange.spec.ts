import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import type { Job, JobProgress } from '../../src-main/ipc/contract.ts';
import { type Carried, carrierNow, carry, expect, test } from '../support/carried.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';
import { callHost } from '../support/window-tests.ts';

async function endOf(page: Page, job: unknown): Promise<JobProgress> {
  const progress = async () => (await callHost(page, 'jobProgress', (job as Job).id)) as JobProgress;
  await expect.poll(async () => (await progress()).state).not.toBe('running');
  return progress();
}

test.describe('the store from its page', () => {
  let site: Carried;
  let id: string;

  test.beforeAll(async () => {
    site = await carry();
    const { host } = site;
    const person = madePerson();
    await host.savePerson(person);
    const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' } as const;
    id = await host.beginAttempt(start);
    await host.appendCommands(id, 0, madeCommands(60));
    await host.finishAttempt(id, madeResult(60));
  });

  test.afterAll(async () => {
    await site.close();
  });

  test('a bundle is saved under its name, and taken in from a file the person chooses', async ({ page }) => {
    await site.open(page);
    const file = await site.saved(page, () => callHost(page, 'exportBundle', 'class', [id]));
    expect(file.name).toBe('class.rimward-bundle');
    expect(readFileSync(file.path).subarray(0, 2)).toEqual(Buffer.from([0x1f, 0x8b]));
    expect((await endOf(page, file.value)).lines).toEqual(['Written: 1 of 1 attempts.']);

    await callHost(page, 'removeAttempt', id);
    const job = await site.given(page, file.path, () => callHost(page, 'importBundle'));
    expect((await endOf(page, job)).lines).toEqual(['Taken in: 1 attempt.']);
    expect(await callHost(page, 'listAttempts', {})).toMatchObject([{ id, seal: 'fits' }]);
  });

  test('a backup is saved, and restored from a file the person chooses', async ({ page }) => {
    await site.open(page);
    const { path } = await site.saved(page, () => callHost(page, 'backupStore', 'all'));
    await callHost(page, 'removeAttempt', id);
    const job = await site.given(page, path, () => callHost(page, 'restoreStore'));
    expect((await endOf(page, job)).lines[0]).toContain('1 attempts');
    expect(await callHost(page, 'listAttempts', {})).toMatchObject([{ id }]);
  });

  test('a report opens by itself, styled, with nothing refused by its rules', async ({ page }) => {
    const context = page.context();
    const complaints: string[] = [];
    context.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    await site.open(page);
    const opened = context.waitForEvent('page');
    await callHost(page, 'openAttemptReport', id);
    const report = await opened;
    await expect(report.getByText(/not for planning surgery/i)).toBeVisible({ timeout: 30_000 });
    await expect(report).toHaveTitle(/Ada Example/);
    expect(await report.evaluate(() => getComputedStyle(document.querySelector('h1') as Element).fontSize)).toBe(
      '20px',
    );
    expect(complaints).toEqual([]);
    if (carrierNow() === 'browser') {
      expect(await callHost(page, 'saveAttemptReport', id)).toMatch(/^refused: .*print it/);
    } else {
      const { path } = await site.saved(page, () => callHost(page, 'saveAttemptReport', id));
      expect(readFileSync(path).subarray(0, 5).toString()).toBe('%PDF-');
    }
  });
});

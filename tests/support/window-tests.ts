/** What must hold of the window whoever carries it: the stand-in for Electron, or Electron itself where it is there. */
import { expect, type Page, test } from '@playwright/test';
import type { RimwardHost } from '../../src-main/ipc/contract.ts';
import { madeCommands, madePerson, madeResult, scenario } from './made-attempts.ts';

/** Calls the page's own host, as the page does. */
export function callHost(page: Page, method: keyof RimwardHost, ...args: unknown[]): Promise<unknown> {
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
  expect(await callHost(page, 'savePerson', person)).toBeNull();
  const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' };
  const id = await callHost(page, 'beginAttempt', start);
  await callHost(page, 'appendCommands', id, 0, madeCommands(60));
  await callHost(page, 'finishAttempt', id, madeResult(60));
  return id;
}

/**
 * Declares the tests.
 *
 * @param pageOf the window's page; asked within a test
 * @param data its data folder
 */
export function windowTests(pageOf: () => Page, data: string): void {
  test('the page stands and carries the caution', async () => {
    await expect(pageOf().getByRole('heading', { level: 1 })).toBeVisible();
    await expect(pageOf().getByTestId('caution')).toContainText(/not for planning surgery/i);
    await expect(pageOf().getByTestId('caution')).toBeVisible();
  });

  test('the page gets the host interface and nothing of Node or Electron', async () => {
    const names = await pageOf().evaluate(() => ({
      host: Object.keys(window.rimwardHost ?? {}).sort(),
      others: ['require', 'process', 'module', 'electron', 'ipcRenderer'].filter((name) => name in window),
    }));
    const { HOST_METHODS } = await import('../../src-main/ipc/contract.ts');
    expect(names).toEqual({ host: [...HOST_METHODS].sort(), others: [] });
  });

  test('facts, preferences and an attempt go to the disk and come back', async () => {
    expect(await callHost(pageOf(), 'hostInfo')).toMatchObject({
      dataFolder: data,
      platform: process.platform,
      notices: [],
    });
    await callHost(pageOf(), 'savePreference', 'theme', 'projector');
    expect(await callHost(pageOf(), 'loadPreferences')).toMatchObject({ theme: 'projector' });
    const id = await finishedAttempt(pageOf());
    expect(await callHost(pageOf(), 'loadAttempt', id)).toMatchObject({
      summary: { id, seal: 'fits', passed: true },
      scenario,
      commands: madeCommands(60),
      result: madeResult(60),
    });
  });
}

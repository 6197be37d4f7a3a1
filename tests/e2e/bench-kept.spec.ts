import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { playReal, putAttempt } from '../support/logbook-site.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';

test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

test.describe('the bench over its store', () => {
  test.setTimeout(300_000);
  let served: Carried;
  test.beforeEach(async () => {
    served = await carry();
  });
  test.afterEach(async () => {
    await served.close();
  });

  async function open(page: Page): Promise<void> {
    await served.open(page);
    await readStage(page);
  }

  const step = async (page: Page) => (await readStage(page)).step;
  const unfinished = () => served.host.unfinishedAttempts();

  test('an attempt is found as it was after a visit to another place, and goes on when asked', async ({ page }) => {
    await open(page);
    await stageOf(page).hover();
    await expect.poll(() => step(page)).toBeGreaterThan(30);
    await page.keyboard.press('Control+3');
    await expect(stageOf(page)).toHaveCount(0);
    await page.waitForTimeout(1000);
    await page.keyboard.press('Control+1');
    await expect(page.getByTestId('status')).toHaveText('Paused while you were away');
    const found = await step(page);
    expect(found).toBeGreaterThan(30);
    await page.waitForTimeout(500);
    expect(await step(page)).toBe(found);
    await stageOf(page).hover();
    await page.keyboard.press('Space');
    await expect.poll(() => step(page)).toBeGreaterThan(found + 10);
  });

  test('somebody works here from the first start on; another name can be added and is remembered', async ({ page }) => {
    await open(page);
    await expect(page.getByTestId('person')).toContainText('Me');
    await page.getByTestId('person').click();
    await expect(page.getByTestId('people')).toContainText('no security boundary');
    await page.getByTestId('person-name').fill('Ruth Adler');
    await page.getByTestId('add-person').click();
    await expect(page.getByTestId('person')).toContainText('Ruth Adler');
    await page.reload();
    await expect(page.getByTestId('person')).toContainText('Ruth Adler');
    expect((await served.host.listPeople()).map(({ name }) => name).sort()).toEqual(['Me', 'Ruth Adler']);
  });

  test('commands reach the store while the hand works, and a refusal is said and made good', async ({ page }) => {
    await open(page);
    await stageOf(page).hover();
    await page.keyboard.press('Enter');
    await expect(page.getByTestId('keeping')).toHaveText('Being kept', { timeout: 60_000 });
    const [first] = await unfinished();
    expect(first?.steps).toBeGreaterThan(0);
    served.refuse('appendCommands', 'the disk is full');
    await expect(page.getByTestId('keeping')).toContainText('Not being kept');
    const refused = (await unfinished())[0]?.steps ?? 0;
    const stood = await step(page);
    await expect.poll(() => step(page)).toBeGreaterThan(stood + 20);
    served.refuse('appendCommands', null);
    await expect(page.getByTestId('keeping')).toHaveText('Being kept', { timeout: 30_000 });
    await expect.poll(async () => (await unfinished())[0]?.steps).toBeGreaterThan(refused + 20);
  });

  test('an attempt with nothing torn that is started over leaves nothing behind', async ({ page }) => {
    await open(page);
    await stageOf(page).hover();
    await page.keyboard.press('Enter');
    await expect(page.getByTestId('keeping')).toHaveText('Being kept', { timeout: 60_000 });
    const [first] = await unfinished();
    await page.keyboard.press('r');
    await expect(page.getByTestId('bring-back')).toBeVisible();
    await page.keyboard.press('r');
    await expect.poll(async () => (await unfinished()).some(({ id }) => id === first?.id)).toBe(false);
  });

  test('the lesson of a scenario is read beside it', async ({ page }) => {
    await open(page);
    await page.getByTestId('lesson').click();
    await expect(page.getByTestId('lesson-text').getByRole('heading', { level: 2 }).first()).toBeVisible();
    await expect(page.getByTestId('lesson-text')).toContainText('What to do');
    await page.keyboard.press('r');
    await page.keyboard.press('Escape');
    await expect(page.getByTestId('lesson-text')).toBeHidden();
  });

  test('goes on from a moment of a kept attempt; what came before is part of the new one', async ({ page }) => {
    const real = playReal('infant-thin-fluid', 'tangent-pull');
    await open(page);
    const [person] = await served.host.listPeople();
    if (person === undefined) throw new Error('nobody works here');
    const id = await putAttempt(served.host, person, real, 'bench');
    await page.getByTestId('place-logbook').click();
    await page.getByTestId('attempt-row').first().click();
    const again = page.getByRole('button', { name: 'Try from here' }).first();
    await again.click({ timeout: 120_000 });
    await expect(page.getByTestId('place-bench')).toHaveAttribute('aria-current', 'page');
    await expect(page.getByTestId('goes-on-from')).toContainText('Goes on from', { timeout: 120_000 });
    const from = await step(page);
    expect(from).toBeGreaterThan(0);
    await expect(page.getByTestId('status')).toContainText('Ready');
    await stageOf(page).hover();
    await expect.poll(() => step(page)).toBeGreaterThan(from + 20);
    await expect(page.getByTestId('keeping')).toHaveText('Being kept');
    await expect.poll(async () => (await unfinished())[0]?.steps).toBeGreaterThan(from);
    const made = await served.host.loadAttempt((await unfinished())[0]?.id ?? '');
    expect(made.summary.id).not.toBe(id);
    expect(made.commands.slice(0, from)).toEqual(real.commands.slice(0, from));
  });
});

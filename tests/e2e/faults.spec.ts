import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { type Carried, carry, expect, onlyCarriedBy, test } from '../support/carried.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';
import { noDouble, startDouble } from '../support/start-double.ts';

test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

/** Takes hold of the capsule with the keyboard, so that there is something to keep. */
async function graspAt(page: Page): Promise<void> {
  await readStage(page);
  await stageOf(page).hover();
  await page.keyboard.press('Enter');
  await expect(page.getByTestId('keeping')).toHaveText('Being kept', { timeout: 60_000 });
}
const step = async (page: Page) => (await readStage(page)).step;

test.describe('a fault', () => {
  test.setTimeout(240_000);

  let served: Carried;
  test.beforeEach(async () => {
    served = await carry();
  });
  test.afterEach(async () => {
    await served.close();
  });

  test('that ends the physics is noticed, and the attempt goes on as one attempt', async ({ page }) => {
    await served.open(page);
    await graspAt(page);
    await expect.poll(() => step(page)).toBeGreaterThan(40);
    // To another monitor, or another scale of the same one: as sharp as that monitor, at the same size.
    const pixels = () =>
      stageOf(page)
        .locator('.stage-moves')
        .evaluate((canvas) => (canvas as HTMLCanvasElement).width / canvas.clientWidth);
    expect(await pixels()).toBeLessThanOrEqual(1);
    const devtools = await page.context().newCDPSession(page);
    const screen = { width: 1100, height: 700, mobile: false };
    await devtools.send('Emulation.setDeviceMetricsOverride', { ...screen, deviceScaleFactor: 1.5 });
    await expect.poll(pixels, { timeout: 60_000 }).toBeGreaterThan(1);
    await devtools.send('Emulation.setDeviceMetricsOverride', { ...screen, deviceScaleFactor: 1 });
    await expect.poll(pixels, { timeout: 60_000 }).toBeLessThanOrEqual(1);
    const worker = page.workers().find((one) => one.url().includes('physics-worker'));
    // As when the system ends the thread: nothing is said.
    await worker?.evaluate(() => (globalThis as unknown as { close: () => void }).close());
    await expect(page.getByTestId('status')).toContainText('does not answer any more', { timeout: 90_000 });
    const stood = await step(page);
    const [before] = await served.host.unfinishedAttempts();
    await page.getByTestId('go-on-after-fault').click();
    await expect(page.getByTestId('status')).toContainText('Ready', { timeout: 90_000 });
    await expect(page.getByTestId('goes-on-from')).toContainText('Goes on from where the program failed');
    // What had been shown and not told yet, a tenth of a second, may be missing.
    expect(await step(page)).toBeGreaterThan(stood - 15);
    await stageOf(page).hover();
    await expect.poll(() => step(page)).toBeGreaterThan(stood + 30);
    await expect
      .poll(async () => (await served.host.unfinishedAttempts()).map(({ id, steps }) => [id, steps > stood + 20]))
      .toEqual([[before?.id, true]]);
  });

  test('that ends the page of the window brings it back, and the attempt is offered as it stood', async ({
    browser,
  }) => {
    onlyCarriedBy('browser', 'it starts a window over the stand-in for Electron by itself');
    test.skip(noDouble !== null, noDouble ?? '');
    const data = mkdtempSync(join(tmpdir(), 'crash-'));
    const context = await browser.newContext({ viewport: { width: 1100, height: 700 } });
    try {
      const { asked } = await startDouble(context, data);
      const [shown] = asked.windows;
      const first = await shown?.page;
      if (shown === undefined || first === undefined) throw new Error('no window');
      await graspAt(first);
      await expect.poll(() => step(first)).toBeGreaterThan(40);
      const devtools = await context.newCDPSession(first);
      // The answer may never come: who would give it is gone.
      devtools.send('Page.crash').catch(() => undefined);
      await expect.poll(() => shown.loaded.length, { timeout: 30_000 }).toBe(2);
      const second = await shown.latest;
      if (second === null) throw new Error('no page came back');
      const offered = second.getByTestId('interrupted');
      await expect(offered).toContainText('is kept as it stands', { timeout: 60_000 });
      const id = (await offered.getAttribute('data-attempt')) ?? '';
      const kept = await second.evaluate((one) => window.rimwardHost?.loadAttempt(one), id);
      expect(kept?.commands.length).toBeGreaterThan(20);
      expect(asked.messages).toEqual([]);
    } finally {
      await context.close();
      rmSync(data, { recursive: true, force: true });
    }
  });
});

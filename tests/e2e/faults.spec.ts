import { mkdtempSync, rmSync } from 'node:fs';
import * as nodeModule from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, type Page, test } from '@playwright/test';
import { type LogbookSite, must, serveLogbook } from '../support/logbook-site.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';

type Double = typeof import('../support/electron-double.ts');

const ROOT = join(import.meta.dirname, '..', '..');
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

  test('that ends the physics is noticed, and the attempt goes on as one attempt', async ({ page }) => {
    const served: LogbookSite = await serveLogbook();
    try {
      await page.goto(served.loopback.address);
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
      const [before] = await must(served.host.unfinishedAttempts)();
      await page.getByTestId('go-on-after-fault').click();
      await expect(page.getByTestId('status')).toContainText('Ready', { timeout: 90_000 });
      await expect(page.getByTestId('goes-on-from')).toContainText('Goes on from where the program failed');
      // What had been shown and not told yet, a tenth of a second, may be missing.
      expect(await step(page)).toBeGreaterThan(stood - 15);
      await stageOf(page).hover();
      await expect.poll(() => step(page)).toBeGreaterThan(stood + 30);
      await expect
        .poll(async () =>
          (await must(served.host.unfinishedAttempts)()).map(({ id, steps }) => [id, steps > stood + 20]),
        )
        .toEqual([[before?.id, true]]);
    } finally {
      await served.loopback.close();
      rmSync(served.folder, { recursive: true, force: true });
    }
  });

  test('that ends the page of the window brings it back, and the attempt is offered as it stood', async ({
    browser,
  }) => {
    test.skip(!('registerHooks' in nodeModule), 'needs a Node with module.registerHooks (22.15 or 23.5)');
    const data = mkdtempSync(join(tmpdir(), 'crash-'));
    process.env.RIMWARD_DATA = data;
    const address = pathToFileURL(join(ROOT, 'tests/support/electron-double.ts')).href;
    nodeModule.registerHooks({
      resolve: (name, context, next) =>
        name === 'electron' ? { url: address, shortCircuit: true } : next(name, context),
    });
    const { asked, startAnew }: Double = await import('../support/electron-double.ts');
    startAnew();
    asked.context = await browser.newContext({ viewport: { width: 1100, height: 700 } });
    try {
      // Under an address of its own: another test may have run it already.
      await import(`${pathToFileURL(join(ROOT, 'dist/electron/main.js')).href}?crash`);
      await expect.poll(() => asked.windows.length).toBe(1);
      const [shown] = asked.windows;
      const first = await shown?.page;
      if (shown === undefined || first === undefined) throw new Error('no window');
      await graspAt(first);
      await expect.poll(() => step(first)).toBeGreaterThan(40);
      const devtools = await asked.context.newCDPSession(first);
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
      await asked.context.close();
      rmSync(data, { recursive: true, force: true });
    }
  });
});

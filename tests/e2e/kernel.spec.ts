import { expect, test } from '@playwright/test';
import type { Loopback } from '../../src-main/loopback/server.ts';
import { servePage } from '../support/serve-page.ts';
import { readStage } from '../support/stage-reader.ts';
import { attachToWorker, isModule } from '../support/worker-session.ts';

test.describe("the page's worker", () => {
  let site: Loopback;
  test.beforeAll(async () => {
    site = await servePage();
  });
  test.afterAll(async () => {
    await site.close();
  });

  test('has made the kernel of the membrane, as the rules that the page is served with let it', async ({ page }) => {
    await page.goto(site.address);
    await readStage(page);
    const worker = await attachToWorker(await page.context().newCDPSession(page));
    await worker?.ask('Debugger.enable');
    await expect.poll(() => worker?.compiled.filter(isModule).length).toBe(1);
  });
});

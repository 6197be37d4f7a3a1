import { type Carried, carry, expect, test } from '../support/carried.ts';
import { readStage } from '../support/stage-reader.ts';
import { attachToWorker, isModule } from '../support/worker-session.ts';

test.describe("the page's worker", () => {
  let site: Carried;
  test.beforeAll(async () => {
    site = await carry();
  });
  test.afterAll(async () => {
    await site.close();
  });

  test('has made the kernel of the membrane, as the rules that the page is served with let it', async ({ page }) => {
    await site.open(page);
    await readStage(page);
    const worker = await attachToWorker(await page.context().newCDPSession(page));
    await worker?.ask('Debugger.enable');
    await expect.poll(() => worker?.compiled.filter(isModule).length).toBe(1);
  });
});

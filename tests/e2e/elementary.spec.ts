import { join } from 'node:path';
import { build, type Rollup } from 'vite';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { ELEMENTARY_DIGESTS } from '../support/elementary-digests.ts';

const SOURCE = join(import.meta.dirname, '..', 'support', 'elementary-digests.ts');

/** The functions and their digests as one script that leaves them under the name `own`. */
async function bundled(): Promise<string> {
  const lib = { entry: SOURCE, formats: ['iife' as const], name: 'own' };
  const built = await build({ configFile: false, logLevel: 'error', build: { lib, write: false, target: 'es2023' } });
  return ([built].flat()[0] as Rollup.RollupOutput).output[0].code;
}

test.describe('the elementary functions of the physics', () => {
  let site: Carried;
  test.beforeAll(async () => {
    site = await carry();
  });
  test.afterAll(async () => {
    await site.close();
  });

  test("give the page's engine the bits that they give Node", async ({ page }) => {
    await site.open(page);
    expect(await page.evaluate(`${await bundled()}; own.elementaryDigests()`)).toEqual(ELEMENTARY_DIGESTS);
  });
});

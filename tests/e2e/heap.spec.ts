import { type Carried, carry, expect, test } from '../support/carried.ts';
import { openTearingPair, pageHeap_MB, pairPictures, pairReaches, tearAnew } from '../support/tearing-pair.ts';

/** Steps of each tear, and tears; the first two make what is made once. `tests/bench/window-drawing.ts` goes on for minutes. */
const STEPS = 60;
const TEARS = 5;

/** What may be left of one tear, MB: less than what four pictures are drawn from. */
const LEFT_OVER_MB = 1;

test('tear after tear leaves nothing behind in the page', async ({ page }) => {
  test.setTimeout(300_000);
  const site: Carried = await carry();
  try {
    await site.open(page);
    await openTearingPair(page);
    const session = await page.context().newCDPSession(page);
    const heaps: number[] = [];
    const pictures = await pairPictures(page);
    for (let tear = 0; tear < TEARS; tear++) {
      await pairReaches(page, STEPS);
      await tearAnew(page);
      heaps.push(await pageHeap_MB(session));
    }
    const drawn = (await pairPictures(page)) - pictures;
    console.log(
      `heap after each of ${TEARS} tears, ${drawn} pictures: ${heaps.map((one) => one.toFixed(1)).join(', ')} MB`,
    );
    expect(drawn).toBeGreaterThan(TEARS * 4);
    expect((heaps.at(-1)! - heaps[1]!) / (TEARS - 2)).toBeLessThan(LEFT_OVER_MB);
  } finally {
    await site.close();
  }
});

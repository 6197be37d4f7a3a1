import { expect as expected, type Locator, type Page, test } from '@playwright/test';
import { type SiteWithData, serveWithData } from '../support/serve-with-data.ts';
import { type Point, readStage, type StageReading, stageOf } from '../support/stage-reader.ts';

// what is waited for is work of the model on a machine that may be busy
const expect = expected.configure({ timeout: 60_000 });

/** How the mouse pulls: this much in from the circle, and no faster than this, as the whole job does it. */
const PULL_IN_deg = 40;
const SPEED_mm_per_s = 1;
const STEPS_PER_s = 60;
/** Above this driving ratio the hand waits for the tear to follow. */
const ENOUGH_RATIO = 1.25;

const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Unit vector of the pull, pixels of the page; the prepared flap goes round counter-clockwise as seen. */
function pullFrom({ tip, centre }: StageReading): Point {
  const [x, y] = [(tip?.[0] ?? 0) - centre[0], (tip?.[1] ?? 0) - centre[1]];
  const r = Math.hypot(x, y);
  const [cos, sin] = [Math.cos((PULL_IN_deg * Math.PI) / 180), Math.sin((PULL_IN_deg * Math.PI) / 180)];
  return [(cos * y - sin * x) / r, (-cos * x - sin * y) / r];
}

// a small window: where drawing is done in software, every pixel makes the hand later, and a trace takes pictures all the while
test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

test.describe('the tour of five steps', () => {
  let site: SiteWithData;
  test.beforeAll(async () => {
    site = await serveWithData();
  });
  test.afterAll(async () => {
    await site.close();
  });

  const stepShown = (page: Page): Locator => page.getByTestId('tour-step');
  const isAt = (page: Page, step: string) => expect(stepShown(page)).toHaveAttribute('data-step', step);
  const says = (page: Page, why: string) => expect(page.getByTestId('tour-why')).toHaveAttribute('data-why', why);

  async function hold(page: Page): Promise<Point> {
    const { flap } = await readStage(page);
    if (flap === null) throw new Error('no flap is seen on the stage');
    await page.mouse.move(...flap);
    await page.mouse.down();
    await expect(stageOf(page)).toHaveAttribute('data-gripping', 'true');
    return flap;
  }

  /** Pulls until the tour is content, by what stands on the stage. */
  async function pull(page: Page, from: Point): Promise<void> {
    let at = from;
    let seen = await readStage(page);
    let reach = seen.tip === null ? 0 : apart(seen.asked, seen.tip);
    const end = seen.step + 60 * STEPS_PER_s;
    while ((await stepShown(page).getAttribute('data-step')) === 'pull' && seen.step < end) {
      const before = seen.step;
      await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(before);
      seen = await readStage(page);
      if (seen.tip === null) return;
      const way = ((seen.step - before) / STEPS_PER_s) * SPEED_mm_per_s * seen.pxPerMm;
      if (seen.ratio < ENOUGH_RATIO) reach += Math.min(way, 0.06 * seen.pxPerMm);
      const aim = pullFrom(seen);
      const goal: Point = [seen.tip[0] + reach * aim[0], seen.tip[1] + reach * aim[1]];
      const share = Math.min(1, (1.5 * way) / Math.max(0.1, apart(goal, seen.asked)));
      at = [at[0] + share * (goal[0] - seen.asked[0]), at[1] + share * (goal[1] - seen.asked[1])];
      await page.mouse.move(...at);
    }
  }

  test('is offered once, and every step is over only when it was done, with the mouse', async ({ page }) => {
    test.setTimeout(300_000);
    await page.goto(site.address);
    await page.getByTestId('tour-start').click();
    await isAt(page, 'grasp');
    await expect(page.getByTestId('scenario')).toHaveValue('adult-baseline');
    await expect.poll(async () => (await readStage(page)).flap).not.toBeNull();

    // beside the flap there is nothing to take
    const { centre, pxPerMm } = await readStage(page);
    await page.mouse.move(centre[0] + 1.2 * pxPerMm, centre[1] + 3.6 * pxPerMm);
    await page.mouse.down();
    await says(page, 'missed');
    await page.mouse.up();
    await isAt(page, 'grasp');

    const at = await hold(page);
    await isAt(page, 'layOver');
    await says(page, 'behind');
    await page.keyboard.press('f');
    await isAt(page, 'pull');
    await says(page, 'weak');
    await pull(page, at);
    await isAt(page, 'again');
    await says(page, 'stillHeld');
    await page.mouse.up();
    await says(page, 'nowGrasp');
    await hold(page);
    await isAt(page, 'refill');
    await page.mouse.up();
    await page.keyboard.press('3');
    await says(page, 'inject');
    await page.mouse.down();
    await expect(page.getByTestId('tour-over')).toBeVisible({ timeout: 30_000 });
    await page.mouse.up();
    await page.getByTestId('tour-close').click();
    await expect(page.getByTestId('tour')).toHaveCount(0);

    await page.reload();
    await readStage(page);
    await expect(page.getByTestId('tour')).toHaveCount(0);
  });
});

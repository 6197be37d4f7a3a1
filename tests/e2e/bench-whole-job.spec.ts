import { type Carried, carry, expect, test } from '../support/carried.ts';
import { MouseTearing } from '../support/mouse-hand.ts';
import { stageOf } from '../support/stage-reader.ts';

/** What a held opening may be off by; the guided hands of the command line are held to the same. */
const DIAMETER_WITHIN_mm = 0.5;
const CENTROID_WITHIN_mm = 0.3;
const LEAST_CIRCULARITY = 0.85;

// a small window: where drawing is done in software, every pixel makes the hand later, and a trace takes pictures all the while
test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

test.describe('the whole job, with the mouse alone', () => {
  let site: Carried;
  test.beforeAll(async () => {
    site = await carry();
  });
  test.afterAll(async () => {
    await site.close();
  });

  test('a prepared flap is taken round in an infant eye and the opening is measured', async ({ page }) => {
    test.setTimeout(600_000);
    await site.open(page);
    await page.getByTestId('scenario').selectOption('infant-thick-fluid');
    await expect(stageOf(page)).toHaveAttribute('data-phase', 'working');
    const tearing = new MouseTearing(page, {
      line_mm: 3.4,
      pullAngle_deg: 40,
      gain_deg_per_mm: 60,
      speed_mm_per_s: 1,
      regraspEvery_deg: 45,
      limit_s: 280,
    });
    await tearing.takeRound();
    const result = page.getByTestId('result');
    await expect(result, tearing.log.join('\n')).toBeVisible({ timeout: 60_000 });
    await expect(result).toHaveAttribute('data-ended', 'complete');
    const metric = async (key: string) =>
      Number(await page.getByTestId(`metric-${key}`).first().getAttribute('data-value'));
    expect(Math.abs((await metric('equivalentDiameter_mm')) - 4.8)).toBeLessThan(DIAMETER_WITHIN_mm);
    expect(await metric('centroidDistance_mm')).toBeLessThan(CENTROID_WITHIN_mm);
    expect(await metric('circularity')).toBeGreaterThan(LEAST_CIRCULARITY);
    expect(await metric('grasps')).toBeGreaterThan(1);
  });
});

import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { MouseTearing, type PointingDevice } from '../support/mouse-hand.ts';
import { PageFingers, PagePad, PagePen } from '../support/page-devices.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';

/** Length that each device tears, mm: more than 20 degrees of the circle it is on, 2.4 mm from the centre. */
const ENOUGH_mm = 0.9;

// a small window: where drawing is done in software, every pixel makes the hand later
test.use({ viewport: { width: 1000, height: 650 }, trace: 'off' });

test.describe('hands in the browser, over the real eye', () => {
  test.setTimeout(300_000);
  let site: Carried;
  test.beforeAll(async () => {
    site = await carry();
  });
  test.afterAll(async () => {
    await site.close();
  });

  async function open(page: Page): Promise<void> {
    await site.open(page);
    await page.getByTestId('scenario').selectOption('adult-baseline');
    await expect(stageOf(page)).toHaveAttribute('data-phase', 'working', { timeout: 60_000 });
  }

  async function tears(page: Page, device: PointingDevice): Promise<MouseTearing> {
    const tearing = new MouseTearing(
      page,
      {
        line_mm: 4.8,
        pullAngle_deg: 35,
        gain_deg_per_mm: 60,
        speed_mm_per_s: 1,
        regraspEvery_deg: 45,
        limit_s: 40,
        enough_mm: ENOUGH_mm,
      },
      device,
    );
    const seen = await tearing.takeRound();
    expect(seen.torn_mm, tearing.log.join('\n')).toBeGreaterThanOrEqual(ENOUGH_mm);
    return tearing;
  }

  const holds = (page: Page) => expect(stageOf(page)).toHaveAttribute('data-gripping', 'true');
  const lets = (page: Page) => expect(stageOf(page)).toHaveAttribute('data-gripping', 'false');
  const flap = async (page: Page) => (await readStage(page)).flap ?? [0, 0];

  test('a pen hovers without grasping, and tears by its pressure', async ({ page }) => {
    await open(page);
    const pen = new PagePen(await page.context().newCDPSession(page));
    await pen.move(...((await flap(page)) as [number, number]));
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(30);
    await expect(page.getByTestId('grasps')).toHaveText('0 grasps');
    await tears(page, pen);
  });

  test.describe('on a screen that is touched', () => {
    test.use({ hasTouch: true });

    test('fingers tear, a palm changes nothing, and a touch that is taken away lets go', async ({ page }) => {
      await open(page);
      const fingers = new PageFingers(await page.context().newCDPSession(page), [-28, -48.5]);
      await tears(page, fingers);
      await fingers.move(...((await flap(page)) as [number, number]));
      await holds(page);
      const { first } = fingers;
      const [second, palm] = [2, 3].map((id) => ({ id, x: first.x - 100 * id, y: first.y }));
      if (second === undefined || palm === undefined) throw new Error('no fingers');
      await fingers.touch('touchStart', [first, second]);
      await fingers.touch('touchStart', [first, second, palm]);
      await fingers.touch('touchMove', [first, second, { ...palm, y: palm.y - 80 }]);
      await holds(page);
      await fingers.touch('touchCancel', []);
      await lets(page);
      // nothing was scrolled or magnified meanwhile
      expect(await page.evaluate(() => [window.scrollX, window.scrollY, window.visualViewport?.scale])).toEqual([
        0, 0, 1,
      ]);
    });
  });

  test('a gamepad tears; pulled out it lets go, time stands still, and a line says so', async ({ page }) => {
    const pad = await PagePad.plugIn(page);
    await open(page);
    const tearing = await tears(page, pad);
    await tearing.grasp();
    await holds(page);
    await pad.pull();
    await expect(page.getByTestId('pad-news')).toContainText('The gamepad is gone');
    await expect(page.getByTestId('status')).toHaveText('Paused');
    const { step } = await readStage(page);
    await page.getByTestId('pad-news').getByRole('button').click();
    await stageOf(page).focus();
    await page.keyboard.press('Space');
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(step);
    await lets(page);
  });
});

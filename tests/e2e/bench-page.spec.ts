import { chromium, type Page } from '@playwright/test';
import { findBrowser } from '../../bin/find-browser.js';
import { type Carried, carry, expect, onlyCarriedBy, test } from '../support/carried.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';

/** The page by itself, over a world that is only drawn: hands, cards, looks. No mechanics are tested here. */
test.describe('the bench page', () => {
  let site: Carried;
  test.beforeEach(async () => {
    site = await carry({ drawn: true });
  });
  test.afterEach(async () => {
    await site.close();
  });

  async function open(page: Page): Promise<string[]> {
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await site.open(page);
    await readStage(page);
    return complaints;
  }

  const holds = (page: Page) => expect(stageOf(page)).toHaveAttribute('data-gripping', 'true');
  const lets = (page: Page) => expect(stageOf(page)).toHaveAttribute('data-gripping', 'false');

  test('holding the button closes the jaws, letting go opens them, the tip follows the mouse', async ({ page }) => {
    const complaints = await open(page);
    const { centre, pxPerMm } = await readStage(page);
    await page.mouse.move(centre[0] + pxPerMm, centre[1] - pxPerMm);
    await page.mouse.down();
    await holds(page);
    await page.mouse.move(centre[0] - pxPerMm, centre[1], { steps: 5 });
    await expect
      .poll(async () => Math.abs((await readStage(page)).instrument[0] - centre[0] + pxPerMm))
      .toBeLessThan(3);
    await page.mouse.up();
    await lets(page);
    expect(complaints).toEqual([]);
  });

  test('time stands still until the hand moves, and while paused', async ({ page }) => {
    await open(page);
    await page.waitForTimeout(300);
    expect((await readStage(page)).step).toBe(0);
    await stageOf(page).hover();
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(5);
    await page.keyboard.press('Space');
    await expect(page.getByTestId('status')).toHaveText('Paused');
    const { step } = await readStage(page);
    await page.waitForTimeout(300);
    expect((await readStage(page)).step).toBe(step);
  });

  test('the keyboard alone moves, grasps, folds and finishes', async ({ page }) => {
    await open(page);
    const start = await readStage(page);
    await page.keyboard.down('ArrowLeft');
    await expect.poll(async () => (await readStage(page)).asked[0]).toBeLessThan(start.asked[0] - 20);
    await page.keyboard.up('ArrowLeft');
    await page.keyboard.press('Enter');
    await holds(page);
    const before = (await readStage(page)).asked;
    await page.keyboard.press('f');
    await expect
      .poll(async () => Math.hypot(...(await readStage(page)).asked.map((at, i) => at - (before[i] ?? 0))))
      // the drawn tear runs on meanwhile, so how far the flap goes over depends on the moment; unfolded, nothing moves at all
      .toBeGreaterThan(3);
    await holds(page);
    await expect(page.getByTestId('result')).toBeVisible({ timeout: 30_000 });
    await expect(page.getByTestId('metric-equivalentDiameter_mm')).toHaveAttribute('data-value', /^\d/);
    await expect(page.getByTestId('graded-circularity')).toHaveAttribute('data-met', /true|false/);
    await page.keyboard.press('r');
    await expect(page.getByTestId('result')).toHaveCount(0);
  });

  test('an attempt that was started over by mistake can be brought back', async ({ page }) => {
    await open(page);
    await stageOf(page).hover();
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(40);
    const torn = await page.getByTestId('torn').textContent();
    await page.keyboard.press('r');
    await expect(page.getByTestId('grasps')).toHaveText('0 grasps');
    await page.keyboard.press('Control+z');
    await expect(page.getByTestId('grasps')).toHaveText('1 grasp');
    expect(Number.parseFloat((await page.getByTestId('torn').textContent()) ?? '')).toBeGreaterThanOrEqual(
      Number.parseFloat(torn ?? ''),
    );
  });

  test('magnifies with Ctrl and wheel, raises with the wheel alone', async ({ page }) => {
    await open(page);
    await stageOf(page).hover();
    const { pxPerMm } = await readStage(page);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -100);
    await page.keyboard.up('Control');
    await expect.poll(async () => (await readStage(page)).pxPerMm).toBeCloseTo(1.25 * pxPerMm, 1);
    await page.keyboard.press('0');
    await expect.poll(async () => (await readStage(page)).pxPerMm).toBeCloseTo(pxPerMm, 1);
    const height = page.getByLabel('Height of the tip asked for');
    await expect(height).toHaveText('0.5 mm');
    await page.mouse.wheel(0, -250);
    await expect(height).toHaveText('0.7 mm');
  });

  for (const [width, height] of [
    [900, 600],
    [1024, 640],
    [1280, 800],
    [1920, 1080],
    [3840, 2160],
  ] as const) {
    test(`nothing overlaps or leaves the window at ${width} by ${height}, in either look`, async ({ page }) => {
      await page.setViewportSize({ width, height });
      await open(page);
      for (const theme of ['room', 'projector']) {
        if (theme === 'projector') await page.getByTestId('theme').click();
        await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
        const boxes = await page.evaluate(() =>
          ['.bar', '.card-eye', '.stage', '.card-tip', '.strip', '.caution'].map((name) => {
            const { left, top, right, bottom } = document.querySelector(name)?.getBoundingClientRect() ?? new DOMRect();
            return { name, left, top, right, bottom };
          }),
        );
        for (const box of boxes) {
          expect(box.right - box.left, box.name).toBeGreaterThan(10);
          expect(box.right, box.name).toBeLessThanOrEqual(width + 0.5);
          expect(box.bottom, box.name).toBeLessThanOrEqual(height + 0.5);
          for (const other of boxes.filter((one) => one.name > box.name)) {
            const apart =
              box.right <= other.left + 0.5 ||
              other.right <= box.left + 0.5 ||
              box.bottom <= other.top + 0.5 ||
              other.bottom <= box.top + 0.5;
            expect(apart, `${box.name} and ${other.name}`).toBe(true);
          }
        }
        const stage = boxes.find((box) => box.name === '.stage');
        expect(
          Math.min((stage?.right ?? 0) - (stage?.left ?? 0), (stage?.bottom ?? 0) - (stage?.top ?? 0)),
        ).toBeGreaterThan(0.5 * height);
      }
    });
  }

  test('text stands out at 4.5 to 1 or better in both looks, and no number is missing its value', async ({ page }) => {
    await open(page);
    await page.keyboard.press('Enter');
    await expect(page.getByTestId('result')).toBeVisible({ timeout: 30_000 });
    for (const theme of ['room', 'projector']) {
      if (theme === 'projector') await page.getByTestId('theme').click();
      const { faint, checked } = await page.evaluate(contrastFaults);
      expect(checked).toBeGreaterThan(40);
      expect(faint).toEqual([]);
    }
    expect(await page.locator('body').textContent()).not.toMatch(/NaN|undefined|Infinity|\[object/);
    await expect(page.getByTestId('caution')).toBeVisible();
  });

  test('the stage is built again when the browser takes the drawing away', async ({ page }) => {
    await open(page);
    const first = await page.locator('.stage .stage-moves').elementHandle();
    await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.stage .stage-moves');
      canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
    });
    await expect(page.getByRole('alert')).toContainText('being built again');
    await expect(page.getByRole('alert')).toHaveCount(0);
    await expect(page.locator('.stage .stage-moves')).toHaveCount(1);
    expect(await first?.evaluate((canvas) => canvas.isConnected)).toBe(false);
  });

  test('without WebGL the stage says what to do, and the cards still work', async () => {
    onlyCarriedBy('browser', 'it is started without WebGL');
    const args = ['--no-sandbox', '--no-first-run', '--disable-gpu', '--disable-software-rasterizer'];
    const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args });
    try {
      const page = await browser.newPage();
      await site.open(page);
      await expect(page.getByRole('alert')).toContainText('WebGL 2');
      await expect(page.getByTestId('eye-age')).toHaveText('6 months');
    } finally {
      await browser.close();
    }
  });
});

/** Runs in the page: every text whose contrast with what lies behind it is below 4.5 to 1. */
function contrastFaults(): { faint: string[]; checked: number } {
  const probe = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  const rgba = (css: string): number[] => {
    if (probe === null) return [0, 0, 0, 0];
    probe.clearRect(0, 0, 1, 1);
    probe.fillStyle = css;
    probe.fillRect(0, 0, 1, 1);
    return [...probe.getImageData(0, 0, 1, 1).data];
  };
  const luminance = (colour: number[]) =>
    [0.2126, 0.7152, 0.0722].reduce((sum, weight, i) => {
      const c = (colour[i] ?? 0) / 255;
      return sum + weight * (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    }, 0);
  const behind = (element: Element | null): number[] => {
    for (let at = element; at !== null; at = at.parentElement) {
      const colour = rgba(getComputedStyle(at).backgroundColor);
      if ((colour[3] ?? 0) > 200) return colour;
    }
    return [255, 255, 255, 255];
  };
  const faint: string[] = [];
  let checked = 0;
  for (const element of document.querySelectorAll('body *')) {
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
    if (!own || element.getBoundingClientRect().width < 2 || element.closest('.for-ears') !== null) continue;
    const [a, b] = [luminance(rgba(getComputedStyle(element).color)), luminance(behind(element))];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    checked += 1;
    if (ratio < 4.5) faint.push(`${element.className} "${element.textContent?.slice(0, 30)}" ${ratio.toFixed(2)}`);
  }
  return { faint, checked };
}

import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';

// a small window: where drawing is done in software, every pixel takes the eyes' time
test.use({ viewport: { width: 1024, height: 700 }, trace: 'off' });

test.describe('plots and charts of the Lecture', () => {
  let site: Carried;
  let complaints: string[];
  test.beforeEach(async () => {
    site = await carry();
    complaints = [];
  });
  test.beforeEach(async ({ page }) => {
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await site.open(page);
    await page.getByTestId('place-lecture').click();
  });
  test.afterEach(async () => {
    await site.close();
  });

  const pointsOf = async (page: Page, id: string): Promise<number> =>
    Number(await page.getByTestId(`plot-${id}`).getByTestId('chart').getAttribute('data-points'));
  /** Place of the moment shown on the first eye's curve, s. */
  const headOf = async (page: Page, id: string): Promise<number> =>
    Number(((await page.getByTestId(`plot-${id}`).getAttribute('data-head')) ?? '').split(' ')[0]);

  const stepOf = async (page: Page): Promise<number> =>
    Number(await page.getByTestId('twin-left').getAttribute('data-step'));

  /** The eyes have come to where the plot was pressed; a head is told to a hundredth of a second. */
  const eyesStandAtHead = (page: Page): Promise<void> =>
    expect.poll(async () => Math.abs((await stepOf(page)) / 60 - (await headOf(page, 'driving')))).toBeLessThan(0.01);

  test('plots grow with the motion, follow the moment shown, and lead to another when pressed', async ({ page }) => {
    test.setTimeout(300_000);
    // a board whose hand is a program and that asks no question
    await page.getByTestId('board-next').click();
    await expect.poll(() => pointsOf(page, 'driving'), { timeout: 120_000 }).toBeGreaterThan(60);
    const before = await pointsOf(page, 'driving');
    await expect.poll(() => pointsOf(page, 'driving'), { timeout: 120_000 }).toBeGreaterThan(before);
    // a single step stops the motion
    await page.getByTestId('twin-back').click();
    await expect(page.getByTestId('twin-play')).toContainText('Play');

    const plot = page.getByTestId('plot-driving').locator('.u-over');
    const box = await plot.boundingBox();
    if (box === null) throw new Error('the plot has no place on the page');
    const stopped = await headOf(page, 'driving');
    await page.mouse.click(box.x + 0.85 * box.width, box.y + 0.5 * box.height);
    await expect.poll(() => headOf(page, 'driving')).not.toBe(stopped);
    expect(await headOf(page, 'driving')).toBeGreaterThan(0.1);
    await eyesStandAtHead(page);
    const late = await headOf(page, 'driving');
    await expect.poll(async () => (await stepOf(page)) / 60).toBeCloseTo(late, 1);
    await page.mouse.move(box.x + 0.85 * box.width, box.y + 0.5 * box.height);
    await page.mouse.down();
    await page.mouse.move(box.x + 0.25 * box.width, box.y + 0.5 * box.height, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => headOf(page, 'driving')).toBeLessThan(late);

    // a step on moves the head by one step, in every plot along time
    await page.getByTestId('show-pressure').click();
    await eyesStandAtHead(page);
    const from = await headOf(page, 'driving');
    await page.getByTestId('twin-on').click();
    await expect.poll(() => headOf(page, 'driving')).toBeCloseTo(from + 1 / 60, 1);
    await expect.poll(() => headOf(page, 'driving')).toBeGreaterThan(from);
    expect(await headOf(page, 'pressure')).toBe(await headOf(page, 'driving'));
    await page.getByTestId('show-radius').click();
    await expect(page.getByTestId('plot-radius')).toHaveCount(0);

    // which plots are shown is kept; the same as numbers for who cannot see the drawing
    await page.getByTestId('plot-pressure').getByText('Numbers').click();
    await expect(page.getByTestId('plot-pressure').getByRole('row').nth(1)).toContainText(/2\.\d/);
    await page.reload();
    await expect(page.getByTestId('plot-pressure')).toBeVisible();
    await expect(page.getByTestId('plot-radius')).toHaveCount(0);
    expect(complaints).toEqual([]);
  });

  test('a chart by age is computed with progress, can be stopped, and comes back after a reload', async ({ page }) => {
    test.setTimeout(300_000);
    await page.getByTestId('open-age-charts').click();
    const chart = page.getByTestId('age-chart-enlargement');
    await page.getByTestId('age-measure').selectOption('enlargement');
    await expect(page.getByTestId('age-caveat')).toContainText('fitted');
    await expect(page.getByTestId('age-published').getByRole('listitem')).toHaveCount(7);
    await expect(page.getByTestId('age-published')).toContainText('Tan and Yuan');
    await expect(page.getByTestId('age-charts')).toContainText(/not for planning surgery/i);

    await page.getByTestId('age-ages').fill('2, forty');
    await page.getByTestId('age-compute').click();
    await expect(page.getByRole('alert')).toContainText('"forty"');

    await page.getByTestId('age-ages').fill('0.5, 1, 2, 3, 4, 6, 8, 12, 20, 30, 40, 50');
    await page.getByTestId('age-compute').click();
    const progress = page.getByTestId('age-progress');
    await expect(progress).toContainText('of 12 points');
    await expect.poll(() => progress.locator('progress').getAttribute('value'), { timeout: 120_000 }).not.toBe('0');
    await page.getByTestId('age-cancel').click();
    await expect(progress).toHaveCount(0);
    await expect(page.getByTestId('age-compute')).toContainText(/Compute \d+ point/);

    // what was computed before it was stopped is there after a reload; the rest is computed for fewer ages
    await chart.getByText('Numbers').click();
    const computed = chart.locator('tbody td').filter({ hasText: /\d/ });
    await expect(computed).not.toHaveCount(0);
    const kept = await computed.count();
    expect(kept).toBeGreaterThan(0);
    expect(kept).toBeLessThan(12);
    const first = await computed.first().textContent();
    await page.reload();
    await page.getByTestId('open-age-charts').click();
    await page.getByTestId('age-measure').selectOption('enlargement');
    await page.getByTestId('age-ages').fill('0.5, 1, 2, 3, 4, 6, 8, 12, 20, 30, 40, 50');
    await page.getByTestId('age-ages').blur();
    await chart.getByText('Numbers').click();
    await expect(computed).toHaveCount(kept);
    expect(await computed.first().textContent()).toBe(first);

    // a chart that is cheap comes whole, and says what it is for
    await page.getByTestId('age-measure').selectOption('line');
    await page.getByTestId('age-opening').fill('5');
    await page.getByTestId('age-compute').click();
    await expect(page.getByTestId('age-charts')).toContainText('All points are computed.');
    await expect(page.getByTestId('age-chart-line')).toContainText('planned opening: 5.00 mm');
    await page.getByTestId('age-measure').selectOption('run-out-margin');
    await expect(page.getByTestId('age-caveat')).toContainText('does not show the fall');
    expect(complaints).toEqual([]);
  });
});

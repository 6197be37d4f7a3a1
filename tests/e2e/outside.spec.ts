import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

/** Pixels per mm of the made photograph, and where its parts are, pixels. */
const PX_PER_MM = 40;
const CORNEA = { x: 400, y: 300, diameter: 11.7 * PX_PER_MM };
const OPENING = { x: 412, y: 292, diameter: 5 * PX_PER_MM };

test.describe('an opening from outside', () => {
  let site: Carried;
  let picture: Buffer;
  const complaints: string[] = [];
  test.beforeAll(async ({ browser }) => {
    const page = await browser.newPage({ viewport: { width: 800, height: 600 } });
    const circle = ({ x, y, diameter }: typeof CORNEA, fill: string) =>
      `<circle cx="${x}" cy="${y}" r="${diameter / 2}" fill="${fill}"/>`;
    await page.setContent(
      `<body style="margin:0"><svg width="800" height="600"><rect width="800" height="600" fill="#ddd"/>` +
        `${circle(CORNEA, '#567')}${circle(OPENING, '#a53')}</svg></body>`,
    );
    picture = await page.screenshot();
    await page.close();
  });
  test.beforeEach(async () => {
    site = await carry();
    complaints.length = 0;
  });
  test.afterEach(async () => {
    await site.close();
  });

  async function open(page: Page): Promise<void> {
    page.on('pageerror', (fault) => complaints.push(fault.message));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    await site.open(page);
    await page.getByTestId('place-logbook').click();
    await page.getByTestId('tab-outside').click();
    await expect(page.getByTestId('open-outline')).toBeVisible();
  }
  const openFile = (page: Page, name: string, body: string): Promise<void> =>
    site.given(page, { name, body }, () => page.getByTestId('open-outline').click());
  const openPicture = (page: Page, buffer = picture, name = 'wetlab.png') =>
    page.getByTestId('photo-file').setInputFiles({ name, mimeType: 'image/png', buffer });
  const measured = (page: Page, key: string) => page.getByTestId(`measure-${key}-outside`);
  const measure = async (page: Page, key: string): Promise<number> =>
    Number.parseFloat((await measured(page, key).textContent()) ?? '');
  /** Waits until a measure is near a value: what is drawn may come a moment after what was clicked. */
  const expectMeasure = async (page: Page, key: string, value: number, within: number): Promise<void> =>
    expect
      .poll(async () => Math.abs((await measure(page, key)) - value), `${key} is ${value}, within ${within}`)
      .toBeLessThan(within);
  /** Where a pixel of the photograph is on the screen, read of one moment, and of a picture that rests. */
  async function onScreen(page: Page, x: number, y: number): Promise<[number, number]> {
    let last = '';
    let found: [number, number] = [Number.NaN, Number.NaN];
    await expect(async () => {
      const [left, top, width, boxX, boxY] = await page.evaluate(() => {
        const image = document.querySelector('.photo-frame image');
        const box = document.querySelector('.photo-frame')?.getBoundingClientRect();
        return [...['x', 'y', 'width'].map((name) => Number(image?.getAttribute(name))), box?.x ?? NaN, box?.y ?? NaN];
      });
      const before = last;
      last = [left, top, width, boxX, boxY].join();
      const zoom = width! / 800;
      found = [boxX! + left! + x * zoom, boxY! + top! + y * zoom];
      expect(last).toBe(before);
    }).toPass({ intervals: [30] });
    return found;
  }
  /** Clicks a pixel of the photograph that carries no mark yet, and waits for the mark. */
  async function click(page: Page, x: number, y: number): Promise<void> {
    const marks = page.locator('[data-testid^="mark-margin-"], [data-testid^="mark-end-"]');
    const count = await marks.count();
    await page.mouse.click(...(await onScreen(page, x, y)));
    await expect(marks).toHaveCount(count + 1);
  }
  const round = (count: number): [number, number][] =>
    Array.from({ length: count }, (_, k) => {
      const angle = (2 * Math.PI * k) / count;
      return [
        OPENING.x + (OPENING.diameter / 2) * Math.cos(angle),
        OPENING.y + (OPENING.diameter / 2) * Math.sin(angle),
      ];
    });
  async function markPhoto(page: Page, points = 24): Promise<void> {
    await openPicture(page);
    await expect(page.getByTestId('photo-board')).toBeVisible();
    await click(page, CORNEA.x - CORNEA.diameter / 2, CORNEA.y);
    await click(page, CORNEA.x + CORNEA.diameter / 2, CORNEA.y);
    await expect(page.getByTestId('photo-scale')).toContainText('1 mm is');
    for (const [x, y] of round(points)) await click(page, x, y);
    await expect(page.getByTestId('drawn-outside')).toHaveAttribute('data-points', String(points));
  }

  test('points clicked on a photograph with a known length give its measures in mm', async ({ page }) => {
    await open(page);
    const zooms = await page.evaluateHandle(() => {
      const seen = new Set<string>();
      const look = (): void => {
        const zoom = document.querySelector('.photo-frame')?.getAttribute('data-zoom');
        if (typeof zoom === 'string') seen.add(zoom);
        requestAnimationFrame(look);
      };
      look();
      return seen;
    });
    await markPhoto(page);
    // never drawn at a size that it does not keep: a click would fall beside
    expect(await zooms.evaluate((seen) => [...seen])).toHaveLength(1);
    // 24 points lie on the circle: their polygon is 0.6 % smaller; a click is right to half a pixel
    await expectMeasure(page, 'equivalentDiameter_mm', 5, 0.1);
    await expectMeasure(page, 'centroidDistance_mm', Math.hypot(12, 8) / PX_PER_MM, 0.05);
    // 12 pixels to the right and 8 up: 33.7 degrees above three o'clock, and 30 degrees to the hour
    await expectMeasure(page, 'centroidDirection_clock_h', 3 - 33.7 / 30, 0.5);
    await page.getByTestId('known-length').fill('5.85');
    await expectMeasure(page, 'equivalentDiameter_mm', 2.5, 0.05);
    await page.keyboard.press('Control+z');
    await expectMeasure(page, 'equivalentDiameter_mm', 5, 0.1);
    expect(complaints).toEqual([]);
  });

  test('a point is dragged, moved by key, removed and brought back', async ({ page }) => {
    await open(page);
    await markPhoto(page);
    const before = await measure(page, 'area_mm2');
    await page.mouse.move(...(await onScreen(page, ...round(24)[0]!)));
    await page.mouse.down();
    await page.mouse.move(...(await onScreen(page, OPENING.x + 140, OPENING.y)), { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => measure(page, 'area_mm2')).toBeGreaterThan(before);
    await page.keyboard.press('Control+z');
    await expect.poll(() => measure(page, 'area_mm2')).toBe(before);
    await page.getByTestId('mark-margin-6').focus();
    for (let k = 0; k < 3; k++) await page.keyboard.press('Shift+ArrowDown');
    await expect.poll(() => measure(page, 'area_mm2')).toBeGreaterThan(before);
    await page.keyboard.press('Delete');
    await expect(page.getByTestId('drawn-outside')).toHaveAttribute('data-points', '23');
    await page.keyboard.press('Control+z');
    await expect(page.getByTestId('drawn-outside')).toHaveAttribute('data-points', '24');
  });

  test('the keyboard alone sets the known length and a margin; the wheel zooms where it points', async ({ page }) => {
    await open(page);
    await openPicture(page);
    await page.getByTestId('photo-board').focus();
    const go = async (key: string, times: number) => {
      for (let k = 0; k < times; k++) await page.keyboard.press(key);
    };
    await go('ArrowLeft', 8);
    await page.keyboard.press('Enter');
    await go('ArrowRight', 16);
    await page.keyboard.press('Enter');
    await expect(page.getByTestId('photo-scale')).toContainText('1 mm is');
    for (const [key, times] of [
      ['ArrowLeft', 4],
      ['ArrowUp', 5],
      ['ArrowLeft', 5],
      ['ArrowDown', 8],
    ] as const) {
      await go(key, times);
      await page.keyboard.press('Enter');
    }
    await expect(page.getByTestId('photo-scale')).toContainText('4 points');
    await expect(page.getByTestId('measure-area_mm2-outside')).toHaveText(/\d/);
    const spot = await onScreen(page, 500, 200);
    const zoom = Number(await page.getByTestId('photo-board').getAttribute('data-zoom'));
    await page.mouse.move(...spot);
    await page.mouse.wheel(0, -100);
    await expect
      .poll(async () => Number(await page.getByTestId('photo-board').getAttribute('data-zoom')))
      .toBeCloseTo(1.25 * zoom, 5);
    const after = await onScreen(page, 500, 200);
    expect(Math.hypot(after[0] - spot[0], after[1] - spot[1])).toBeLessThan(1);
  });

  test('an outline file gets the same measures; it is written and read back; bad ones list their problems', async ({
    page,
  }) => {
    await open(page);
    const circle = Array.from({ length: 60 }, (_, k) => {
      const angle = (2 * Math.PI * k) / 60;
      return `${1 + 2.5 * Math.cos(angle)},${2.5 * Math.sin(angle)}`;
    }).join('\n');
    await openFile(page, 'theatre.csv', `x,y\n${circle}\n`);
    await expect.poll(() => measure(page, 'centroidDistance_mm')).toBe(1);
    await page.getByTestId('outside-x_mm').fill('1');
    await expect.poll(() => measure(page, 'centroidDistance_mm')).toBe(0);
    await page.getByTestId('outside-target_mm').fill('4');
    await expect.poll(() => measure(page, 'peakDeviation_mm')).toBe(0.5);
    await page.getByTestId('outside-target_mm').fill('x');
    await expect(page.getByTestId('outside-problems')).toContainText('target diameter: found x, allowed: 1 to 12 mm');
    await page.getByTestId('outside-target_mm').fill('5');
    const file = await site.saved(page, () => page.getByRole('button', { name: 'Save the outline' }).click());
    const written = readFileSync(file.path, 'utf8');
    await openFile(page, 'bad.csv', 'x,y\n1,2\none,two\n');
    await expect(page.getByTestId('outside-complaints')).toContainText('bad.csv: line 3');
    await expect(page.getByTestId('drawn-outside')).toHaveAttribute('data-points', '60');
    await openFile(page, 'eight.json', '[[0,0],[2,2],[2,0],[0,2]]');
    await expect(page.getByTestId('outside-problems')).toContainText('edges that cross');
    await expect(page.getByTestId('drawn-outside')).toHaveCount(0);
    await page.getByTestId('outside-x_mm').fill('0');
    await openFile(page, 'again.csv', written);
    await expect.poll(() => measure(page, 'centroidDistance_mm')).toBe(0);
  });

  test('what is no picture is refused; the picture goes nowhere', async ({ page }) => {
    await open(page);
    await openPicture(page, Buffer.from('not a picture'), 'notes.png');
    await expect(page.getByTestId('outside-complaints')).toContainText('notes.png is not a picture');
    const sent: string[] = [];
    page.on('request', (request) => {
      if (!request.url().startsWith('blob:')) sent.push(request.url());
    });
    await markPhoto(page, 8);
    expect(sent).toEqual([]);
    await expect(page.getByText('A photograph stays in this window')).toBeVisible();
    expect(complaints).toEqual([]);
  });

  test('is kept when asked, its photograph only when that is asked for too; both come back and both can be removed', async ({
    page,
  }) => {
    const files = () => {
      const folder = join(site.folder, 'outside');
      return existsSync(folder) ? readdirSync(folder).map((name) => name.replace(/^.*\./, '')) : [];
    };
    await open(page);
    await markPhoto(page, 8);
    const diameter = await measure(page, 'equivalentDiameter_mm');
    expect(files()).toEqual([]);
    await page.getByTestId('keep-opening').click();
    await expect(page.getByTestId('kept-opening')).toHaveAttribute('data-photo', 'false');
    expect(files()).toEqual(['json']);
    await page.getByTestId('keep-photo').check();
    await page.getByTestId('keep-opening').click();
    await expect(page.getByTestId('kept-opening')).toHaveCount(2);
    expect(files().sort()).toEqual(['json', 'json', 'photo']);

    await open(page);
    const withPhoto = page.locator('[data-testid=kept-opening][data-photo=true]');
    await withPhoto.getByTestId('kept-open').click();
    await expect(page.getByTestId('photo-board')).toBeVisible();
    await expect(page.locator('[data-testid^="mark-margin-"]')).toHaveCount(8);
    await expectMeasure(page, 'equivalentDiameter_mm', diameter, 0.005);
    await page.locator('[data-testid=kept-opening][data-photo=false]').getByTestId('kept-open').click();
    await expect(page.getByTestId('photo-board')).toHaveCount(0);
    await expectMeasure(page, 'equivalentDiameter_mm', diameter, 0.005);
    await withPhoto.getByTestId('kept-remove').click();
    await page.getByTestId('ask-yes').click();
    await expect(page.getByTestId('kept-opening')).toHaveCount(1);
    expect(files()).toEqual(['json']);
    expect(complaints).toEqual([]);
  });

  test('is drawn with stored attempts over one target, their measures in columns', async ({ page }) => {
    const { host } = site;
    const person = madePerson();
    await host.savePerson(person);
    const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' } as const;
    const id = await host.beginAttempt(start);
    await host.appendCommands(id, 0, madeCommands(60));
    const result = madeResult(60);
    await host.finishAttempt(id, result);
    await open(page);
    const square = '[[-2,-2],[2,-2],[2,2],[-2,2]]';
    await openFile(page, 'square.json', square);
    await page.getByTestId('compare-add').selectOption(id);
    await expect(page.getByTestId(`drawn-${id}`)).toHaveAttribute('data-points', '180');
    await expect(page.getByTestId('drawn-outside')).toHaveAttribute('data-points', '4');
    await expect(page.getByTestId('measure-area_mm2-outside')).toHaveText(/^16/);
    await expect(page.getByTestId(`measure-equivalentDiameter_mm-${id}`)).toContainText(
      (result.opening?.equivalentDiameter_mm ?? 0).toFixed(2),
    );
    // both on one scale: the square spans 4 mm of the drawing, the round one its largest diameter
    const width = async (key: string) => (await page.getByTestId(`drawn-${key}`).boundingBox())?.width ?? Number.NaN;
    const xs = (result.outline_mm ?? []).map(([x]) => x);
    const wide_mm = Math.max(...xs) - Math.min(...xs);
    expect((await width(id)) / (await width('outside'))).toBeCloseTo(wide_mm / 4, 1);
    await page.getByRole('button', { name: 'Take away' }).click();
    await expect(page.getByTestId(`drawn-${id}`)).toHaveCount(0);
  });
});

import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';

// a small window: where drawing is done in software, every pixel takes time
test.use({ viewport: { width: 1024, height: 700 }, trace: 'off' });

const MOST_PAGE_bytes = 5_000_000;

test.describe('what the Lecture saves', () => {
  let site: Carried;
  test.beforeEach(async () => {
    site = await carry();
  });
  test.afterEach(async () => {
    await site.close();
  });

  /** A board with a guided hand and no question, run for a moment and stopped. */
  async function someMotion(page: Page): Promise<void> {
    await site.open(page);
    await page.getByTestId('place-lecture').click();
    await page.getByTestId('board-next').click();
    const points = page.getByTestId('plot-driving').getByTestId('chart');
    await expect
      .poll(async () => Number(await points.getAttribute('data-points')), { timeout: 90_000 })
      .toBeGreaterThan(80);
    await drawArrow(page);
    // opening the dialog stops the eyes
    await page.getByTestId('open-save').click();
    await expect(page.getByTestId('save-picture')).toBeEnabled();
  }

  /** Presses a button and gives the path of the file that comes of it. */
  async function saved(page: Page, button: string): Promise<{ readonly name: string; readonly path: string }> {
    const file = await site.saved(page, () => page.getByTestId(button).click());
    await expect(page.getByTestId('save-notice')).toContainText(`Saved as ${file.name}`);
    return file;
  }

  test('picture, numbers, drawing, film and page: each is whole, and the page replays without a network', async ({
    page,
    browser,
  }) => {
    test.setTimeout(300_000);
    const complaints: string[] = [];
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await someMotion(page);
    await checkPicture(page, (await saved(page, 'save-picture')).path);

    await page.getByTestId('save-chart-choice').selectOption('plot driving');
    const csv = readFileSync((await saved(page, 'save-csv')).path, 'utf8')
      .trim()
      .split('\r\n');
    expect(csv[0]).toMatch(/^Time \(s\),40 years \(times\),6 months \(times\),Note$/);
    expect(csv.length).toBeGreaterThan(40);
    expect(csv[1]).toContain('not for planning surgery');
    await checkSvg(page, readFileSync((await saved(page, 'save-svg')).path, 'utf8'));

    await page.getByTestId('save-from').fill('0.1');
    await page.getByTestId('save-to').fill('99');
    await expect(page.getByTestId('save-film')).toBeDisabled();
    await expect(page.getByRole('alert')).toContainText('as far as the eyes have come');
    await page.getByTestId('save-to').fill('0.5');
    await page.getByTestId('save-speed').selectOption('0.1');
    await page.getByTestId('save-film').click();
    await page.getByTestId('save-cancel').click();
    await expect(page.getByTestId('save-notice')).toContainText('nothing was saved');
    await page.getByTestId('save-speed').selectOption('1');
    await checkFilm(browser, readFileSync((await saved(page, 'save-film')).path));

    const { path, name } = await saved(page, 'save-page');
    expect(name).toMatch(/\.html$/);
    await checkPage(browser, path);
    expect(complaints).toEqual([]);
  });
});

/** An arrow over the middle of the left eye, as a teacher draws it; short, so that its head is what is found. */
async function drawArrow(page: Page): Promise<void> {
  const eye = (await page.getByTestId('twin-left').boundingBox())!;
  await page.getByTestId('draw').click();
  await page.getByTestId('draw-arrow').click();
  await page.mouse.move(eye.x + 0.46 * eye.width, eye.y + 0.5 * eye.height);
  await page.mouse.down();
  await page.mouse.move(eye.x + 0.53 * eye.width, eye.y + 0.5 * eye.height, { steps: 4 });
  await page.mouse.up();
  await expect(page.getByTestId('drawing')).toHaveAttribute('data-shapes', '1');
  await page.getByTestId('draw').click();
}

/** The colour of what is drawn over the eyes, with room for a film's blur: red above, green below, blue above. */
const PINK = [215, 165, 180] as const;

/** Twice the size of what is seen: both eyes side by side are as wide as on the page. */
async function checkPicture(page: Page, path: string): Promise<void> {
  const bytes = readFileSync(path);
  expect([...bytes.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const eye = await page.getByTestId('twin-left').boundingBox();
  if (eye === null) throw new Error('the eye has no place on the page');
  const between_px = 8;
  expect(bytes.readUInt32BE(16)).toBe(2 * (2 * Math.round(eye.width) + between_px));
  expect(bytes.readUInt32BE(20)).toBeGreaterThan(2 * eye.height);
  // not empty: the middle of both eyes is no ground
  const colours = await page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.width, image.height];
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error('no canvas');
    pen.drawImage(image, 0, 0);
    return [0.25, 0.75].map((share) => {
      const { data } = pen.getImageData(Math.round(share * image.width) - 60, 150, 120, 120);
      return new Set(Array.from({ length: data.length / 4 }, (_, i) => data.slice(4 * i, 4 * i + 3).join())).size;
    });
  }, bytes.toString('base64'));
  for (const count of colours) expect(count).toBeGreaterThan(100);
  const [left, right] = await page.evaluate(
    async ([base64, source]) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [image.width, image.height];
      const pen = canvas.getContext('2d')!;
      pen.drawImage(image, 0, 0);
      // pixels within a strip through the middle of each eye, where the arrow lies
      return [0.25, 0.75].map((share) => drawnIn(pen, Math.round(share * image.width)));
      function drawnIn(from: CanvasRenderingContext2D, x: number): number {
        const { data } = from.getImageData(x - 20, 0, 40, from.canvas.height);
        let count = 0;
        const [red, green, blue] = source!.split(',').map(Number) as [number, number, number];
        for (let i = 0; i < data.length; i += 4)
          if (data[i]! > red && data[i + 1]! < green && data[i + 2]! > blue) count += 1;
        return count;
      }
    },
    [bytes.toString('base64'), PINK.join()] as const,
  );
  expect(left).toBeGreaterThan(60);
  expect(right).toBe(0);
}

/** Parses as SVG, holds both curves as paths, and carries the caution. */
async function checkSvg(page: Page, text: string): Promise<void> {
  const found = await page.evaluate((svg) => {
    const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
    const paths = [...parsed.querySelectorAll('g[aria-label="line"] path')];
    return {
      root: parsed.documentElement.localName,
      faults: parsed.querySelectorAll('parsererror').length,
      longCurves: paths.filter((path) => (path.getAttribute('d') ?? '').length > 200).length,
      words: parsed.documentElement.textContent,
    };
  }, text);
  expect(found).toMatchObject({ root: 'svg', faults: 0, longCurves: 2 });
  expect(found.words).toContain('not for planning surgery');
  expect(found.words).toContain('6 months');
  expect(text).not.toContain('NaN');
}

/** A WebM that a browser plays for as long as the span, and in which something moves or at least stands. */
async function checkFilm(browser: Browser, bytes: Buffer): Promise<void> {
  expect([...bytes.subarray(0, 4)]).toEqual([0x1a, 0x45, 0xdf, 0xa3]);
  // on a page of its own: the program's rules let it play no films
  const own = await browser.newPage();
  const { duration, width, reached, drawn } = await own.evaluate(
    async ([base64, pink]) => {
      const video = document.createElement('video');
      video.muted = true;
      const file = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      video.src = URL.createObjectURL(new Blob([file], { type: 'video/webm' }));
      await new Promise((resolve, reject) => {
        video.onloadedmetadata = resolve;
        video.onerror = () => reject(new Error(video.error?.message));
      });
      const ended = new Promise((resolve) => {
        video.onended = resolve;
      });
      await video.play();
      await ended;
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
      const pen = canvas.getContext('2d')!;
      pen.drawImage(video, 0, 0);
      const [red, green, blue] = pink.split(',').map(Number) as [number, number, number];
      const drawn = [0.25, 0.75].map((share) => {
        const { data } = pen.getImageData(Math.round(share * canvas.width) - 20, 60, 40, canvas.height - 120);
        let count = 0;
        for (let i = 0; i < data.length; i += 4)
          if (data[i]! > red && data[i + 1]! < green && data[i + 2]! > blue) count += 1;
        return count;
      });
      return { duration: video.duration, width: video.videoWidth, reached: video.currentTime, drawn };
    },
    [bytes.toString('base64'), PINK.join()] as const,
  );
  await own.close();
  expect(width).toBe(1280);
  expect(duration).toBeCloseTo(0.4, 1);
  expect(reached).toBeCloseTo(duration, 1);
  // the arrow that was drawn lies over the left eye only
  expect(drawn[0]).toBeGreaterThan(60);
  expect(drawn[1]).toBe(0);
}

/** Opens without a network, asks for nothing, and moves. */
async function checkPage(browser: Browser, path: string): Promise<void> {
  const text = readFileSync(path, 'utf8');
  expect(Buffer.byteLength(text)).toBeLessThan(MOST_PAGE_bytes);
  const context = await browser.newContext({ viewport: { width: 900, height: 700 } });
  await context.setOffline(true);
  const page = await context.newPage();
  const address = pathToFileURL(path).href;
  const asked: string[] = [];
  const complaints: string[] = [];
  page.on('pageerror', (fault) => complaints.push(fault.message));
  page.on('console', (message) => complaints.push(message.text()));
  await page.route('**', (route) => {
    if (route.request().url() === address) return route.continue();
    asked.push(route.request().url());
    return route.abort();
  });
  await page.goto(address);
  const body = page.locator('body');
  await expect(body).toHaveAttribute('data-ready', 'true');
  await expect(page.getByRole('heading')).toHaveText('A slit opens');
  await expect(page.locator('main')).toContainText('The sheet pulls the edges apart');
  await expect(page.locator('.caution')).toContainText('not for planning surgery');
  await expect(page.locator('canvas')).toHaveCount(2);
  const picture = () => page.evaluate(() => [...document.querySelectorAll('canvas')].map((one) => one.toDataURL()));
  const first = await picture();
  await page.locator('#play').click();
  await expect.poll(async () => Number(await body.getAttribute('data-moment')), { timeout: 20_000 }).toBeGreaterThan(3);
  await page.locator('#scrub').press('End');
  await expect(page.locator('#time')).toHaveText('0.5 s');
  const last = await picture();
  expect(last[0]).not.toBe(first[0]);
  expect(last[1]).not.toBe(first[1]);
  await page.locator('#tension').check();
  expect((await picture())[1]).not.toBe(last[1]);
  expect(asked).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
}

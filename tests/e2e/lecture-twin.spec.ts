import type { Locator, Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';

/** Two eyes under one hand in the page that ships, with the physics behind it. */
test.describe('the pair of eyes of the Lecture', () => {
  let site: Carried;
  test.beforeAll(async () => {
    site = await carry();
  });
  test.afterAll(async () => {
    await site.close();
  });

  const eye = (page: Page, side: 'left' | 'right'): Locator => page.getByTestId(`twin-${side}`);
  const stepOf = async (page: Page, side: 'left' | 'right' = 'left') =>
    Number((await eye(page, side).getAttribute('data-step')) ?? -1);
  const bothAt = async (page: Page) => [await stepOf(page, 'left'), await stepOf(page, 'right')];

  /** Opens the place; the first board has a live hand, the second a guided one. */
  async function open(page: Page, boards: number): Promise<string[]> {
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await site.open(page);
    await page.getByTestId('place-lecture').click();
    await expect(eye(page, 'right')).toHaveAttribute('data-step', /\d/, { timeout: 60_000 });
    for (let i = 0; i < boards; i++) await page.getByTestId('board-next').click();
    return complaints;
  }

  /** Both steps as they stand on the page, at every frame of the display for a while. */
  const watch = (page: Page, frames: number): Promise<(readonly [number, number])[]> =>
    page.evaluate(
      (count) =>
        new Promise((resolve) => {
          const seen: [number, number][] = [];
          const step = (side: string) =>
            Number(document.querySelector<HTMLElement>(`[data-testid=twin-${side}]`)?.dataset.step);
          requestAnimationFrame(function look() {
            seen.push([step('left'), step('right')]);
            if (seen.length >= count) resolve(seen);
            else requestAnimationFrame(look);
          });
        }),
      frames,
    );

  test('runs in lockstep, steps, scrubs, repeats', async ({ page }) => {
    const complaints = await open(page, 1);
    await expect.poll(() => stepOf(page), { timeout: 60_000 }).toBeGreaterThan(3);
    const seen = await watch(page, 40);
    expect(seen.every(([left, right]) => left === right)).toBe(true);
    await expect.poll(() => stepOf(page), { timeout: 90_000 }).toBeGreaterThan(45);

    await test.step('Space pauses, arrows step singly', async () => {
      await page.keyboard.press('Space');
      await expect(page.getByTestId('twin-play')).toContainText('Play');
      const [at] = await bothAt(page);
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('ArrowLeft');
      await expect.poll(() => bothAt(page)).toEqual([at! - 2, at! - 2]);
      await page.keyboard.press('ArrowRight');
      await expect.poll(() => bothAt(page)).toEqual([at! - 1, at! - 1]);
    });

    await test.step('any computed moment is shown again in both eyes', async () => {
      const scrubs = await page.evaluate(scrubTo, [40, 5, 30, 12, 42, 0, 33, 25, 20, 40]);
      const times = scrubs.map(({ ms }) => ms).sort((a, b) => a - b);
      console.log(
        `scrubbing to a computed moment, both eyes drawn: median ${times[5]?.toFixed(0)} ms, longest ${times[9]?.toFixed(0)} ms`,
      );
      // the first and the last go to the same moment: both eyes look the same to the pixel
      expect(scrubs[9]?.looks).toBe(scrubs[0]?.looks);
      expect(scrubs[5]?.looks).not.toBe(scrubs[0]?.looks);
      // the clock of a busy machine proves nothing, the frames of the display do: 150 ms are nine of them at 60 a second
      expect(Math.max(...scrubs.map(({ frames }) => frames))).toBeLessThanOrEqual(3);
    });

    await test.step('L repeats what was just seen', async () => {
      await page.evaluate(scrubTo, [40]);
      await page.keyboard.press('l');
      await page.getByTestId('twin-play').click();
      await expect(page.getByTestId('twin-loop')).toHaveAttribute('aria-pressed', 'true');
      await expect
        .poll(
          async () => {
            const steps = (await watch(page, 40)).map(([left]) => left);
            expect(Math.max(...steps)).toBeLessThanOrEqual(40);
            return steps.some((step, i) => i > 0 && step < (steps[i - 1] ?? 0));
          },
          { timeout: 90_000 },
        )
        .toBe(true);
      await page.keyboard.press('l');
      await expect(page.getByTestId('twin-loop')).toHaveAttribute('aria-pressed', 'false');
    });

    await test.step('the driving force by direction is computed at rest, and again for another moment', async () => {
      await page.keyboard.press('PageDown');
      await expect(page.getByTestId('board')).toHaveAttribute('data-board', 'twice-along-the-edge');
      await expect.poll(() => bothAt(page)).toEqual([0, 0]);
      await page.keyboard.press('5');
      const polar = (side: string) => page.getByTestId(`polar-${side}`);
      await expect(polar('left')).toHaveAttribute('data-state', 'moving');
      await page.keyboard.press('Space');
      for (const side of ['left', 'right']) {
        await expect(polar(side)).toHaveAttribute('data-curves', '1', { timeout: 60_000 });
        await expect(polar(side)).toContainText(/tear resistance, \d+\.\d\d\smN\. Largest: \d+\.\d\d\smN/);
      }
      await page.keyboard.press('Space');
      await expect(polar('left')).toHaveAttribute('data-state', 'moving');
      await page.keyboard.press('5');
      await expect(polar('left')).toHaveCount(0);
    });
    expect(complaints).toEqual([]);
  });

  test('a live hand over either eye moves both, by mouse and by keys', async ({ page }) => {
    const complaints = await open(page, 0);
    const box = (await eye(page, 'right').boundingBox())!;
    await page.mouse.move(box.x + 0.62 * box.width, box.y + 0.5 * box.height);
    const instrument = (side: 'left' | 'right') => eye(page, side).getAttribute('data-instrument-px');
    await expect
      .poll(async () => Math.abs(Number((await instrument('left'))?.split(',')[0]) - 0.62 * box.width), {
        timeout: 60_000,
      })
      .toBeLessThan(12);
    // read at one moment: the mouse stands still, so both come to rest at the same place of their stages
    const apart = () =>
      page.evaluate(() => {
        const [left, right] = ['left', 'right'].map((side) =>
          (document.querySelector<HTMLElement>(`[data-testid=twin-${side}]`)?.dataset.instrumentPx ?? '')
            .split(',')
            .map(Number),
        );
        return Math.hypot((left?.[0] ?? 0) - (right?.[0] ?? 0), (left?.[1] ?? 0) - (right?.[1] ?? 0));
      });
    await expect.poll(apart, { timeout: 30_000 }).toBeLessThan(3);
    await eye(page, 'left').focus();
    const before = Number((await instrument('right'))?.split(',')[0]);
    await page.keyboard.down('ArrowLeft');
    await expect
      .poll(async () => Number((await instrument('right'))?.split(',')[0]), { timeout: 60_000 })
      .toBeLessThan(before - 25);
    await page.keyboard.up('ArrowLeft');
    expect(complaints).toEqual([]);
  });

  test('black screen, drawing, text size and trail by keys and pointer', async ({ page }) => {
    const complaints = await open(page, 0);
    await page.keyboard.press('b');
    const black = page.getByTestId('black');
    expect(await black.boundingBox()).toEqual({ x: 0, y: 0, width: 1280, height: 800 });
    await page.keyboard.press('b');
    await expect(black).toHaveCount(0);

    const drawing = page.getByTestId('drawing');
    const box = (await drawing.boundingBox())!;
    const at = (x: number, y: number) => [box.x + x * box.width, box.y + y * box.height] as const;
    const drag = async (from: readonly [number, number], to: readonly [number, number]) => {
      await page.mouse.move(...from);
      await page.mouse.down();
      await page.mouse.move(...to, { steps: 6 });
      await page.mouse.up();
    };
    await page.keyboard.press('d');
    await drag(at(0.1, 0.2), at(0.4, 0.5));
    await page.getByTestId('draw-arrow').click();
    await drag(at(0.6, 0.6), at(0.9, 0.7));
    await expect(drawing).toHaveAttribute('data-shapes', '2');
    await page.getByTestId('draw-erase').click();
    await page.mouse.click(...at(0.25, 0.35));
    await expect(drawing).toHaveAttribute('data-shapes', '1');
    await page.keyboard.press('Control+z');
    await expect(drawing).toHaveAttribute('data-shapes', '2');
    await page.keyboard.press('x');
    await expect(drawing).toHaveAttribute('data-shapes', '0');
    await page.keyboard.press('d');
    await expect(page.getByTestId('draw')).toHaveAttribute('aria-pressed', 'false');

    const size = () =>
      page.getByTestId('lecture').evaluate((place) => Number.parseFloat(getComputedStyle(place).fontSize));
    const small = await size();
    await page.getByTestId('text-size').click();
    expect(await size()).toBeGreaterThan(1.2 * small);
    await page.keyboard.press('t');
    await page.mouse.move(...at(0.3, 0.3), { steps: 3 });
    await expect(page.getByTestId('trail')).toHaveAttribute('data-drawn', /[1-9]/);
    expect(complaints).toEqual([]);
  });

  test('prints how fast both eyes are drawn', async ({ page }) => {
    await page.setViewportSize({ width: 1280, height: 720 });
    await open(page, 1);
    await expect.poll(() => stepOf(page), { timeout: 60_000 }).toBeGreaterThan(20);
    const from = await stepOf(page);
    const rate = await page.evaluate(
      () =>
        new Promise<{ readonly drawn: number; readonly frames: number }>((resolve) => {
          const drawn = () => Number(document.querySelector<HTMLElement>('[data-testid=twin-right]')?.dataset.frames);
          const [began_ms, before] = [performance.now(), drawn()];
          let frames = 0;
          requestAnimationFrame(function count(now_ms) {
            frames += 1;
            const passed_s = (now_ms - began_ms) / 1000;
            if (passed_s < 2.5) requestAnimationFrame(count);
            else resolve({ drawn: (drawn() - before) / passed_s, frames: frames / passed_s });
          });
        }),
    );
    const steps = ((await stepOf(page)) - from) / 2.5;
    console.log(
      `both eyes at 1280x720, physics running: drawn ${rate.drawn.toFixed(1)} times a second of ${rate.frames.toFixed(1)} frames, about ${steps.toFixed(0)} steps a second at half speed`,
    );
    expect(rate.drawn).toBeGreaterThan(0);
  });
});

interface Scrub {
  readonly ms: number;
  /** Frames of the display until both eyes stood there. */
  readonly frames: number;
  readonly looks: string;
}

/** Runs in the page: draws along the line of time as a hand does; how long until both eyes stand there, and how they look. */
async function scrubTo(steps: readonly number[]): Promise<Scrub[]> {
  const line = document.querySelector<HTMLInputElement>('[data-testid=twin-scrub]')!;
  const eyes = [...document.querySelectorAll<HTMLElement>('.twin-stage')];
  const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!;
  const out: Scrub[] = [];
  for (const step of steps) {
    const began = performance.now();
    set.call(line, String(step));
    line.dispatchEvent(new Event('input', { bubbles: true }));
    const there = () => eyes.every(({ dataset }) => dataset.step === String(step));
    let frames = 0;
    for (; !there(); frames++) await new Promise(requestAnimationFrame);
    const ms = performance.now() - began;
    out.push({ ms, frames, looks: eyes.map(({ dataset }) => `${dataset.tipPx} ${dataset.instrumentPx}`).join('|') });
  }
  return out;
}

/** Where the window opens: by the rule alone, and in the window's real sources over the stand-in for Electron. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { keptPlace, placeOn, type WindowPlace } from '../../src-main/electron/window-place.ts';
import type * as Double from '../support/electron-double.ts';
import { LONGEST_START, startPageless } from '../support/pageless-window.ts';

vi.mock('electron', () => import('../support/electron-double.ts'));

const LAPTOP = { id: 1, scaleFactor: 1, area: { x: 0, y: 0, width: 1440, height: 860 } };
/** To the left of the laptop, higher up: its coordinates are negative. */
const PROJECTOR = { id: 2, scaleFactor: 1, area: { x: -1920, y: -200, width: 1920, height: 1080 } };

const display = ({ id, scaleFactor, area }: typeof LAPTOP) => ({
  id,
  scaleFactor,
  bounds: area,
  workArea: area,
});
const BOTH = [LAPTOP, PROJECTOR].map(display);
const ONE = [display(LAPTOP)];

const place = (x: number, y: number, width: number, height: number): WindowPlace => ({
  ...{ x, y, width, height },
  maximized: false,
  fullScreen: false,
});
type Area = { x: number; y: number; width: number; height: number };
const isWithin = (inner: Area, outer: Area): boolean =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height;

describe('the window opens', () => {
  test('in the middle of the main screen at the first start', () => {
    expect(placeOn(null, BOTH)).toEqual({ x: 80, y: 30, width: 1280, height: 800 });
  });

  test('where it was, on either of two screens', () => {
    for (const kept of [place(100, 20, 1200, 700), place(-1800, -100, 1500, 900)]) {
      const { x, y, width, height } = kept;
      expect(placeOn(kept, BOTH)).toEqual({ x, y, width, height });
    }
  });

  test('in the middle of the screen that is left when the one it was on is gone', () => {
    const opened = placeOn(place(-1800, -100, 1500, 900), ONE);
    expect(opened).toEqual({ x: 0, y: 0, width: 1440, height: 860 });
    expect(placeOn(place(-1800, -100, 1000, 700), ONE)).toEqual({ x: 220, y: 80, width: 1000, height: 700 });
  });

  test('wholly on the screen that held the most of it', () => {
    expect(placeOn(place(-300, 100, 1000, 700), BOTH)).toEqual({ x: 0, y: 100, width: 1000, height: 700 });
    expect(placeOn(place(-900, 100, 1000, 700), BOTH)).toEqual({ x: -1000, y: 100, width: 1000, height: 700 });
    expect(placeOn(place(1400, 840, 1000, 700), BOTH)).toEqual({ x: 440, y: 160, width: 1000, height: 700 });
  });

  test('smaller when the screen shows everything larger than before', () => {
    const kept = place(400, 50, 1440, 860);
    // The same laptop at twice the scale has half the room.
    const scaled = display({ ...LAPTOP, scaleFactor: 2, area: { x: 0, y: 0, width: 720, height: 430 } });
    expect(placeOn(kept, [scaled])).toEqual({ x: 0, y: 0, width: 720, height: 430 });
  });

  test('no smaller than the page needs, wherever it was and however small it was', () => {
    expect(placeOn(place(700, 500, 200, 100), ONE)).toEqual({ x: 540, y: 260, width: 900, height: 600 });
  });

  test('wholly on a screen that exists, whatever was kept', () => {
    const spans = [-99_999, -2500, -1920, -1, 0, 1439, 5000, 99_999];
    const sizes = [1, 899, 900, 1440, 99_999];
    for (const screens of [BOTH, ONE]) {
      for (const x of spans) {
        for (const y of spans) {
          for (const size of sizes) {
            const opened = placeOn(place(x, y, size, size), screens);
            expect(
              screens.some(({ workArea }) => isWithin(opened, workArea)),
              JSON.stringify({ x, y, size, opened }),
            ).toBe(true);
          }
        }
      }
    }
  });
});

describe('what is kept of the place', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'place-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));
  const write = (text: string): void => writeFileSync(join(folder, 'window-place.json'), text);

  test('is read back', async () => {
    const kept = { ...place(-5, 6, 1000, 700), fullScreen: true };
    write(JSON.stringify(kept));
    expect(await keptPlace(folder)).toEqual(kept);
  });

  test.each([
    ['is not there', null],
    ['is empty', ''],
    ['is cut short', '{"x":1,"y":'],
    ['is no place', '[]'],
    ['lacks a length', '{"x":1,"y":2,"width":1000,"maximized":false,"fullScreen":false}'],
    ['has a number too large', JSON.stringify(place(1e12, 0, 1000, 700))],
    ['has a length of nothing', JSON.stringify(place(0, 0, 0, 700))],
    ['has a fraction', JSON.stringify(place(0.5, 0, 1000, 700))],
    ['has text for a number', JSON.stringify({ ...place(0, 0, 1000, 700), x: '0' })],
    ['has a number that is none', '{"x":null,"y":0,"width":1000,"height":700,"maximized":false,"fullScreen":false}'],
    ['has more in it than a place', JSON.stringify({ ...place(0, 0, 1000, 700), script: 'x' })],
    ['is endless', `${JSON.stringify(place(0, 0, 1000, 700))}${' '.repeat(2000)}`],
  ])('and %s counts for nothing', async (_title, text) => {
    if (text !== null) write(text);
    expect(await keptPlace(folder)).toBeNull();
  });
});

describe('the program', () => {
  const folder = (): string => process.env.RIMWARD_DATA ?? '';
  const kept = (): unknown => JSON.parse(readFileSync(join(folder(), 'window-place.json'), 'utf8'));
  const isKept = (): boolean => existsSync(join(folder(), 'window-place.json'));
  let double: typeof Double;

  async function starts(displays: typeof BOTH, before: string | null): Promise<Double.BrowserWindow> {
    double = await startPageless((fresh) => {
      fresh.asked.displays = displays;
      if (before !== null) writeFileSync(join(folder(), 'window-place.json'), before);
    });
    await vi.waitFor(() => expect(double.asked.windows).toHaveLength(1), LONGEST_START);
    return double.asked.windows[0]!;
  }
  const boundsOf = ({ options: { x, y, width, height } }: Double.BrowserWindow) => ({ x, y, width, height });

  afterEach(() => {
    vi.useRealTimers();
    double.quit();
    rmSync(folder(), { recursive: true, force: true });
  });

  test('writes down where its window is when that closes, and the next opens there, in full screen again', async () => {
    const window = await starts(BOTH, null);
    expect(boundsOf(window)).toEqual({ x: 80, y: 30, width: 1280, height: 800 });
    const there = { x: -1700, y: -50, width: 1400, height: 900 };
    window.setBounds(there);
    window.setFullScreen(true);
    window.emit('close', {});
    expect(kept()).toEqual({ ...there, maximized: false, fullScreen: true });

    const text = JSON.stringify(kept());
    const again = await starts(BOTH, text);
    expect(boundsOf(again)).toEqual(there);
    await vi.waitFor(() => expect(again.isFullScreen()).toBe(true));

    const without = await starts(ONE, text);
    expect(boundsOf(without)).toEqual({ x: 20, y: 0, width: 1400, height: 860 });
  });

  test('opens a window that filled its screen so that it fills it again', async () => {
    const window = await starts(ONE, JSON.stringify({ ...place(10, 10, 1000, 700), maximized: true }));
    await vi.waitFor(() => expect(window.isMaximized()).toBe(true));
    expect(window.isFullScreen()).toBe(false);
  });

  test('starts as ever where what was kept is broken', async () => {
    const window = await starts(ONE, '{"x":');
    expect(boundsOf(window)).toEqual({ x: 80, y: 30, width: 1280, height: 800 });
    expect(window.isFullScreen()).toBe(false);
  });

  test('writes at most once a second while its window is moved, and nothing while it rests', async () => {
    const window = await starts(ONE, null);
    vi.useFakeTimers();
    for (let x = 0; x < 10; x++) window.setBounds({ x, y: 0, width: 1000, height: 700 });
    expect(isKept()).toBe(false);
    vi.advanceTimersByTime(999);
    expect(isKept()).toBe(false);
    vi.advanceTimersByTime(1);
    expect(kept()).toMatchObject({ x: 9 });
    rmSync(join(folder(), 'window-place.json'));
    vi.advanceTimersByTime(60_000);
    expect(isKept()).toBe(false);
    window.setBounds({ x: 9, y: 0, width: 1000, height: 700 });
    vi.advanceTimersByTime(1000);
    // It stands where it stood.
    expect(isKept()).toBe(false);
  });

  test('closes as ever where the folder may not be written to', async () => {
    const window = await starts(ONE, null);
    rmSync(folder(), { recursive: true });
    expect(() => window.emit('close', {})).not.toThrow();
    expect(existsSync(folder())).toBe(false);
  });
});

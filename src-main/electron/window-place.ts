import { randomBytes } from 'node:crypto';
import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { BrowserWindow, Rectangle } from 'electron';
import { z } from 'zod';

/** Least room in which the page is laid out, px of the screen's scale. */
export const LEAST = { width: 900, height: 600 } as const;
const AT_FIRST = { width: 1280, height: 800 } as const;

/** Moving a window tells of every pixel; this is how often it is written down meanwhile. */
const WRITE_EVERY_ms = 1000;

/** No desktop of screens reaches farther, px; what lies beyond was not written by us. Assumed. */
const FARTHEST = 100_000;
/** Longer than what is written here ever is. */
const LONGEST_TEXT = 1000;

const along = z.int().min(-FARTHEST).max(FARTHEST);
const across = z.int().min(1).max(FARTHEST);
const placeShape = z.strictObject({
  x: along,
  y: along,
  width: across,
  height: across,
  maximized: z.boolean(),
  fullScreen: z.boolean(),
});

/** Where a window was, as a window among others, and whether it filled its screen. In px of the screen's scale. */
export type WindowPlace = z.infer<typeof placeShape>;

/** The part of a screen that no bar of the system covers. */
export interface Screen {
  readonly workArea: Rectangle;
}

const placeFile = (dataFolder: string): string => join(dataFolder, 'window-place.json');

/** Where the window was, null when that is not known: the first start, or a file that says nothing sensible. */
export async function keptPlace(dataFolder: string): Promise<WindowPlace | null> {
  try {
    const text = await readFile(placeFile(dataFolder), 'utf8');
    if (text.length > LONGEST_TEXT) return null;
    const read = placeShape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** What two areas have in common, px². */
function shared_px2(a: Rectangle, b: Rectangle): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return Math.max(0, width) * Math.max(0, height);
}

const within = (value: number, least: number, most: number): number => Math.max(least, Math.min(most, value));

/** A length that fits into a span: no less than the page needs, unless the screen itself has less. */
const fitting = (asked: number, least: number, span: number): number => Math.min(Math.max(asked, least), span);

/**
 * Where the window opens: as it was kept, on the screen that it lay on for the most part, wholly within it. Where that
 * screen is there no more, in the middle of the first one; at the first start too.
 *
 * @param screens those there are now, the main one first; at least one
 */
export function placeOn(kept: WindowPlace | null, screens: readonly Screen[]): Rectangle {
  const areas = screens.map(({ workArea }) => workArea);
  const [main] = areas;
  if (main === undefined) throw new Error('there is no screen to open a window on');
  const shares = areas.map((area) => (kept === null ? 0 : shared_px2(kept, area)));
  const most = Math.max(...shares);
  const area = areas[most > 0 ? shares.indexOf(most) : 0] ?? main;
  const width = fitting(kept?.width ?? AT_FIRST.width, LEAST.width, area.width);
  const height = fitting(kept?.height ?? AT_FIRST.height, LEAST.height, area.height);
  if (kept === null || most === 0) {
    const middle = (from: number, span: number, length: number): number => from + Math.floor((span - length) / 2);
    return { x: middle(area.x, area.width, width), y: middle(area.y, area.height, height), width, height };
  }
  const x = within(kept.x, area.x, area.x + area.width - width);
  const y = within(kept.y, area.y, area.y + area.height - height);
  return { x, y, width, height };
}

const placeOf = (window: BrowserWindow): WindowPlace => ({
  ...window.getNormalBounds(),
  maximized: window.isMaximized(),
  fullScreen: window.isFullScreen(),
});

/** Writes a hundred letters before the program goes on: at its end there is no later. Whole or not at all. */
function writeAtOnce(path: string, text: string): void {
  const beside = `${path}.${randomBytes(6).toString('hex')}.part`;
  try {
    writeFileSync(beside, text, { mode: 0o600 });
    renameSync(beside, path);
  } catch {
    // A folder that cannot be written to costs the place of the window and nothing else; the store tells of it.
    rmSync(beside, { force: true });
  }
}

/** Writes down where the window is when it closes, and at most once a second while it is moved. */
export function keepPlace(window: BrowserWindow, dataFolder: string): void {
  const path = placeFile(dataFolder);
  let written = '';
  let timer: NodeJS.Timeout | null = null;
  const text = (): string => `${JSON.stringify(placeOf(window))}\n`;
  const write = (): void => {
    timer = null;
    if (window.isDestroyed()) return;
    const now = text();
    if (now === written) return;
    written = now;
    writeAtOnce(path, now);
  };
  const soon = (): void => {
    timer ??= setTimeout(write, WRITE_EVERY_ms);
  };
  window.on('move', soon);
  window.on('resize', soon);
  window.on('maximize', soon);
  window.on('unmaximize', soon);
  window.on('enter-full-screen', soon);
  window.on('leave-full-screen', soon);
  window.on('close', () => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    writeAtOnce(path, text());
  });
}

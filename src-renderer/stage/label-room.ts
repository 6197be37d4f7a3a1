import type { Vec2 } from '../../physics/index.ts';

/** Width of a letter with its edge, as a share of the text's height: as the widest names came out on the screen. */
const LETTER_WIDTH = 0.4;
/** Free space between a name and the border of the stage, as a share of the text's height. */
const BORDER = 0.2;
const SINGLE_LETTER_OFF = 0.565;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
}

/** Letters of a text as a reader counts them: signs that stand above, below or joined to one add no width of their own. */
export function lettersIn(text: string): number {
  let count = 0;
  for (const _ of letters.segment(text)) count += 1;
  return count;
}

const letters = new Intl.Segmenter(undefined, { granularity: 'grapheme' });

/** Finds places for names at the heads of arrows so that they do not lie over each other and are not cut off. */
export class LabelRoom {
  #taken: Box[] = [];
  #extent: Vec2 = [Infinity, Infinity];

  /** @param extent half width and half height of what is shown round the origin, mm */
  clear(extent: Vec2): void {
    this.#taken = [];
    this.#extent = extent;
  }

  /**
   * @param head where the arrow ends @param way its direction, a unit vector @param height of the text, mm
   * @param letters length of the name; 0 for one letter that stands right before the arrow
   * @returns middle of the text
   */
  place([x, y]: Vec2, [ux, uy]: Vec2, height: number, letters: number): Vec2 {
    if (letters === 0) return [x + ux * SINGLE_LETTER_OFF * height, y + uy * SINGLE_LETTER_OFF * height];
    const halfWidth = (letters * LETTER_WIDTH * height) / 2;
    const halfHeight = height / 2;
    const [wide, high] = this.#extent;
    const box: Box = {
      x: within(x + ux * (halfWidth + 0.2 * height), wide - halfWidth - BORDER * height),
      y: within(y + uy * (halfHeight + 0.2 * height), high - halfHeight - BORDER * height),
      halfWidth,
      halfHeight,
    };
    // up or down by whole lines, away from what is there first
    const free = [0, 1, -1, 2, -2].map((lines) => ({ ...box, y: box.y + 0.9 * height * lines * (uy < 0 ? -1 : 1) }));
    const chosen = free.find((one) => !this.#taken.some((other) => overlap(one, other))) ?? box;
    this.#taken.push(chosen);
    return [chosen.x, chosen.y];
  }
}

const within = (at: number, limit: number): number => Math.max(-limit, Math.min(limit, at));

const overlap = (a: Box, b: Box): boolean =>
  Math.abs(a.x - b.x) < a.halfWidth + b.halfWidth && Math.abs(a.y - b.y) < 0.85 * (a.halfHeight + b.halfHeight);

import { Group } from 'three';
import type { TipView, Vec2 } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { arrowVector_mm } from './aims.ts';
import { LabelRoom, lettersIn } from './label-room.ts';
import { LAYER } from './layers.ts';
import { Letters } from './letters.ts';
import { type Paint, paint, Strokes } from './strokes.ts';

/** Each arrow has its own colour, dash, head and, in the words of the language, letter and name, so that none of them depends on seeing colours. */
interface ArrowStyle {
  readonly css: string;
  readonly colour: Paint;
  /** Lengths of stroke and gap in screen pixels; a gap of 0 is a solid line. */
  readonly dash: readonly [number, number];
  readonly width_px: number;
  /** Told to a room: wide below and narrow above, so that arrows in one direction are all seen. */
  readonly roomWidth_px: number;
  readonly head: 'triangle' | 'diamond' | 'chevron';
}

const STYLES = {
  pull: {
    css: '#ffb52e',
    colour: paint(0xffb52e),
    dash: [11, 5],
    width_px: 4,
    roomWidth_px: 13,
    head: 'triangle',
  },
  sheet: {
    css: '#a99bff',
    colour: paint(0x9a8aff),
    dash: [3.5, 4.5],
    width_px: 4,
    roomWidth_px: 9,
    head: 'diamond',
  },
  resultant: {
    css: '#ffffff',
    colour: paint(0xffffff),
    dash: [1, 0],
    width_px: 3,
    roomWidth_px: 4,
    head: 'chevron',
  },
} as const satisfies Record<string, ArrowStyle>;

export type ArrowName = keyof typeof STYLES;

/** How arrows are told to a room: by name, and longer. */
export interface ArrowTelling {
  readonly names: boolean;
  /** Length of an arrow as large as the tear resistance, mm. */
  readonly arrowLength_mm: number;
}

const DESK_ORDER = ['sheet', 'pull', 'resultant'] as const;
const ROOM_ORDER = ['pull', 'sheet', 'resultant'] as const;

const HALO = paint(0x0a0d12, 0.72);

/** Pull, sheet and resultant at each live tip. */
export class ArrowLayer {
  readonly group = new Group();
  readonly #strokes = new Strokes(LAYER.arrows);
  readonly #letters = new Letters();
  readonly #labels = new LabelRoom();
  #telling: ArrowTelling | null = null;

  constructor() {
    this.group.add(this.#strokes.mesh, this.#letters.group);
  }

  /** @param extent_mm half width and half height of what is shown */
  draw(
    tips: readonly TipView[],
    shown: Readonly<Record<ArrowName, boolean>>,
    mmPerPx: number,
    extent_mm: Vec2,
    telling: ArrowTelling | null = null,
  ): void {
    this.#strokes.begin();
    this.#letters.begin();
    this.#labels.clear(extent_mm);
    this.#telling = telling;
    for (const tip of tips) if (tip.live) this.#tip(tip, shown, mmPerPx);
    this.#strokes.commit();
  }

  dispose(): void {
    this.#strokes.dispose();
    this.#letters.dispose();
  }

  #tip(tip: TipView, shown: Readonly<Record<ArrowName, boolean>>, px: number): void {
    const resistance = tip.drivingRatio > 0 ? tip.drivingForce_mN / tip.drivingRatio : 0;
    const forces = { sheet: tip.sheet_mN, pull: tip.pull_mN, resultant: tip.resultant_mN } as const;
    for (const name of this.#telling === null ? DESK_ORDER : ROOM_ORDER) {
      const force = forces[name];
      if (!shown[name] || force === null) continue;
      const [dx, dy] = arrowVector_mm(force, resistance, this.#telling?.arrowLength_mm);
      const length = Math.hypot(dx, dy);
      if (length > 6 * px) this.#arrow(name, tip.id, tip.position_mm, [dx / length, dy / length], length, px);
    }
    if (this.#telling !== null) this.#sumLines(tip, shown, resistance, px);
    const [x, y] = tip.position_mm;
    this.#strokes.arc(x, y, 4 * px, 0, 2 * Math.PI, 4.5 * px, HALO);
    this.#strokes.arc(x, y, 4 * px, 0, 2 * Math.PI, 2 * px, STYLES.resultant.colour);
  }

  /** Fine lines from the heads of pull and sheet to that of the resultant: it is their sum. */
  #sumLines(tip: TipView, shown: Readonly<Record<ArrowName, boolean>>, resistance: number, px: number): void {
    if (!shown.resultant || tip.sheet_mN === null || tip.pull_mN === null) return;
    const head = (force: readonly [number, number]) => {
      const [dx, dy] = arrowVector_mm(force, resistance, this.#telling?.arrowLength_mm);
      return [tip.position_mm[0] + dx, tip.position_mm[1] + dy] as const;
    };
    const end = head(tip.resultant_mN);
    for (const [name, force] of [
      ['pull', tip.pull_mN],
      ['sheet', tip.sheet_mN],
    ] as const) {
      if (!shown[name]) continue;
      const from = head(force);
      const length = Math.hypot(end[0] - from[0], end[1] - from[1]);
      const dashes = Math.floor(length / (7 * px) / 2);
      for (let k = 0; k < dashes; k++) {
        const at = (share: number) =>
          [from[0] + share * (end[0] - from[0]), from[1] + share * (end[1] - from[1])] as const;
        this.#strokes.line(...at(k / dashes), ...at((k + 0.5) / dashes), 1.6 * px, STYLES.resultant.colour);
      }
    }
  }

  #arrow(
    name: ArrowName,
    tip: number,
    [x, y]: readonly [number, number],
    [ux, uy]: readonly [number, number],
    length: number,
    px: number,
  ): void {
    const style: ArrowStyle = STYLES[name];
    const width = this.#telling === null ? style.width_px : style.roomWidth_px;
    const head = (this.#telling === null ? 13 : 10 + 1.2 * width) * px;
    const stop = style.head === 'chevron' ? length - 1.5 * px : Math.max(0, length - 0.8 * head);
    const start = 6 * px;
    const along = (from: number, to: number, width_px: number, colour: Paint) =>
      this.#strokes.line(x + ux * from, y + uy * from, x + ux * to, y + uy * to, width_px * px, colour);
    along(start, stop, width + 3.2, HALO);
    this.#head(style.head, [x + ux * length, y + uy * length], [ux, uy], head + 3 * px, px, HALO, 2.4);
    const spread = (width / style.width_px) ** 0.5;
    const [stroke, gap] = [style.dash[0] * spread * px, style.dash[1] * spread * px];
    if (gap === 0) along(start, stop, width, style.colour);
    else
      for (let at = start; at < stop; at += stroke + gap) along(at, Math.min(stop, at + stroke), width, style.colour);
    this.#head(style.head, [x + ux * length, y + uy * length], [ux, uy], head, px, style.colour, 0);
    const tell = this.#telling?.names === true;
    const text = tell ? t(`bench.aids.${name}`) : t(`bench.stage.letter.${name}`);
    const height = (tell ? 26 : 23) * px;
    const place = this.#labels.place([x + ux * length, y + uy * length], [ux, uy], height, tell ? lettersIn(text) : 0);
    this.#letters.put(`${name}${tip}`, text, style.css, place[0], place[1], height);
  }

  #head(
    kind: ArrowStyle['head'],
    [x, y]: readonly [number, number],
    [ux, uy]: readonly [number, number],
    size: number,
    px: number,
    colour: Paint,
    extra_px: number,
  ): void {
    const at = (back: number, across: number) =>
      [x - ux * back * size - uy * across * size, y - uy * back * size + ux * across * size] as const;
    const [left, right, tail] = [at(1, 0.42), at(1, -0.42), at(1, 0)];
    if (kind === 'triangle') this.#strokes.triangle(x, y, ...left, ...right, colour);
    if (kind === 'diamond') {
      const [l, r] = [at(0.5, 0.42), at(0.5, -0.42)];
      this.#strokes.triangle(x, y, ...l, ...r, colour);
      this.#strokes.triangle(...tail, ...l, ...r, colour);
    }
    if (kind === 'chevron') {
      const width = (3.2 + extra_px) * px;
      this.#strokes.line(x, y, ...left, width, colour);
      this.#strokes.line(x, y, ...right, width, colour);
    }
  }
}

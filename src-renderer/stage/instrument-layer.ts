import { Group } from 'three';
import type { InstrumentView } from '../../physics/index.ts';
import { LAYER } from './layers.ts';
import { type Paint, paint, Strokes } from './strokes.ts';

/** One stretch of a metal part, in the instrument's own frame: distance back from the tip, and across, mm. */
interface Bar {
  readonly back: readonly [number, number];
  readonly across: readonly [number, number];
  readonly width: readonly [number, number];
}

/** Drawn sizes of common instruments of 23 gauge, from memory; they do not enter the mechanics. */
const JAW_LENGTH_mm = 1.9;
const SHAFT_WIDTH_mm = 0.56;
const OUTSIDE_mm = 9;

function forceps(jaws: number, reach: number): readonly Bar[] {
  const open = 0.36 * (1 - jaws) + 0.045;
  const bow = 0.15 + 0.11 * (1 - jaws);
  const parts: Bar[] = [];
  for (const side of [1, -1]) {
    parts.push({ back: [0.95, JAW_LENGTH_mm], across: [side * (bow + 0.02), side * 0.13], width: [0.14, 0.25] });
    parts.push({ back: [0.2, 0.95], across: [side * (open + 0.02), side * (bow + 0.02)], width: [0.1, 0.14] });
    parts.push({ back: [-0.04, 0.2], across: [side * open * 0.8, side * (open + 0.02)], width: [0.12, 0.1] });
  }
  parts.push({ back: [JAW_LENGTH_mm - 0.12, JAW_LENGTH_mm + 0.5], across: [0, 0], width: [0.46, SHAFT_WIDTH_mm] });
  return parts.concat(shaft(JAW_LENGTH_mm + 0.5, reach, SHAFT_WIDTH_mm, 0.95));
}

/** A needle whose point is bent to the side, as one makes a cystotome. */
function needle(reach: number): readonly Bar[] {
  return [
    { back: [-0.05, 0.42], across: [0, -0.24], width: [0.02, 0.22] },
    { back: [0.36, 1.1], across: [-0.2, 0], width: [0.24, 0.34] },
    ...shaft(1.05, reach, 0.34, 0.7),
  ];
}

function cannula(reach: number): readonly Bar[] {
  return [{ back: [-0.02, 0.12], across: [0, 0], width: [0.26, 0.42] }, ...shaft(0.12, reach, 0.42, 0.8)];
}

const shaft = (from: number, reach: number, width: number, outside: number): readonly Bar[] => [
  { back: [from, Math.max(from + 0.2, reach + 0.5)], across: [0, 0], width: [width, width + 0.06] },
  {
    back: [Math.max(from + 0.2, reach + 0.5), Math.max(from, reach) + OUTSIDE_mm],
    across: [0, 0],
    width: [width + 0.06, outside],
  },
];

const EDGE = paint(0x2a3037);
const BODY = paint(0x8f9aa6);
const SHINE = paint(0xeef3f7);
const SHADOW = paint(0x0a0406, 0.34);
const SHADOW_EDGE = paint(0x0a0406, 0);

/** The instrument from above with its soft shadow. The shaft runs from the tip through its incision and on outside. */
export class InstrumentLayer {
  readonly group = new Group();
  readonly #shadow = new Strokes(LAYER.instrumentShadow);
  readonly #metal = new Strokes(LAYER.instrument);

  constructor() {
    this.group.add(this.#shadow.mesh, this.#metal.mesh);
  }

  draw(view: InstrumentView, tip: readonly [number, number, number]): void {
    const [fx, fy] = view.fulcrum_mm;
    const reach = Math.hypot(tip[0] - fx, tip[1] - fy);
    const [ux, uy] = reach > 1e-6 ? [(fx - tip[0]) / reach, (fy - tip[1]) / reach] : [0, -1];
    const bars =
      view.kind === 'forceps' ? forceps(view.jaws, reach) : view.kind === 'needle' ? needle(reach) : cannula(reach);
    const height = Math.max(0, tip[2]);
    const shift: readonly [number, number] = [0.09 + 0.2 * height, -0.12 - 0.26 * height];
    this.#shadow.begin();
    this.#metal.begin();
    for (const bar of bars) {
      drawBar(this.#shadow, bar, [tip[0] + shift[0], tip[1] + shift[1]], [ux, uy], 1.5, SHADOW_EDGE, SHADOW, SHADOW);
    }
    for (const bar of bars) drawBar(this.#metal, bar, [tip[0], tip[1]], [ux, uy], 1.16, EDGE, EDGE, EDGE);
    for (const bar of bars) drawBar(this.#metal, bar, [tip[0], tip[1]], [ux, uy], 0.94, BODY, BODY, SHINE);
    this.#shadow.commit();
    this.#metal.commit();
  }

  dispose(): void {
    this.#shadow.dispose();
    this.#metal.dispose();
  }
}

/** Two long patches side by side, edge to middle and middle to edge, so that a bar looks round. */
function drawBar(
  strokes: Strokes,
  bar: Bar,
  tip: readonly [number, number],
  [ux, uy]: readonly [number, number],
  swell: number,
  left: Paint,
  right: Paint,
  middle: Paint,
): void {
  const at = (end: 0 | 1, side: number): readonly [number, number] => {
    const across = bar.across[end] + (side * swell * bar.width[end]) / 2;
    return [tip[0] + ux * bar.back[end] - uy * across, tip[1] + uy * bar.back[end] + ux * across];
  };
  const far = right === SHADOW ? left : right;
  strokes.quad([...at(0, -1), ...at(0, 0), ...at(1, 0), ...at(1, -1)], left, middle);
  strokes.quad([...at(0, 1), ...at(0, 0), ...at(1, 0), ...at(1, 1)], far, middle);
}

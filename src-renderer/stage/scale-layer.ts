import { Group } from 'three';
import type { StageGeometry } from '../../physics/index.ts';
import type { TargetRing } from './aims.ts';
import { LAYER } from './layers.ts';
import { Letters } from './letters.ts';
import type { StageFrame } from './microscope.ts';
import { paint, Strokes } from './strokes.ts';

const TICK = paint(0xe9eef4, 0.9);
const TICK_HALO = paint(0x10151b, 0.6);
const RING = paint(0x9fe8f5, 0.95);
const RING_HALO = paint(0x062028, 0.6);
const BAND = paint(0x9fe8f5, 0.13);
const BAND_EDGE = paint(0x9fe8f5, 0.4);

/** Clock-hour ticks, the millimetre bar and the target circle; redrawn only when the frame or the aim changes. */
export class ScaleLayer {
  readonly group = new Group();
  readonly #band = new Strokes(LAYER.targetBand);
  readonly #ring = new Strokes(LAYER.target);
  readonly #scale = new Strokes(LAYER.scale);
  readonly #letters = new Letters();

  constructor() {
    this.group.add(this.#band.mesh, this.#ring.mesh, this.#scale.mesh, this.#letters.group);
  }

  draw(geometry: StageGeometry, frame: StageFrame, ring: TargetRing | null, weight: number): void {
    this.#letters.begin();
    this.#scale.begin();
    this.#clock(geometry.limbusDiameter_mm / 2, frame, weight);
    this.#bar(frame, weight);
    this.#scale.commit();
    this.#band.begin();
    this.#ring.begin();
    if (ring !== null) this.#target(ring, weight / frame.pxPerMm);
    this.#band.commit();
    this.#ring.commit();
  }

  dispose(): void {
    for (const strokes of [this.#band, this.#ring, this.#scale]) strokes.dispose();
    this.#letters.dispose();
  }

  #clock(limbus: number, frame: StageFrame, weight: number): void {
    const px = weight / frame.pxPerMm;
    // at high magnification the limbus leaves the view: the hours then stand at the edge of the stage
    const edge = Math.min(frame.width_px, frame.height_px) / 2 / frame.pxPerMm;
    const radius = Math.min(limbus + 0.28, edge - 40 * px);
    for (let hour = 0; hour < 12; hour++) {
      const angle = Math.PI / 2 - (hour * Math.PI) / 6;
      const long = hour % 3 === 0;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const from = radius;
      const to = radius + (long ? 9 : 6) * px;
      this.#scale.line(from * c, from * s, to * c, to * s, (long ? 4.4 : 3.6) * px, TICK_HALO);
      this.#scale.line(from * c, from * s, to * c, to * s, (long ? 2.2 : 1.4) * px, TICK);
      const at = to + 12 * px;
      if (long) this.#letters.put(`hour${hour}`, String(hour === 0 ? 12 : hour), '#f2f5f8', at * c, at * s, 22 * px);
    }
  }

  /** One millimetre at the lower left; the letters say so. */
  #bar(frame: StageFrame, weight: number): void {
    const px = 1 / frame.pxPerMm;
    const x = (-frame.width_px / 2 + 24) * px;
    const y = (-frame.height_px / 2 + 22) * px;
    for (const [width, colour] of [
      [5 * weight, TICK_HALO],
      [2.2 * weight, TICK],
    ] as const) {
      this.#scale.line(x, y, x + 1, y, width * px, colour);
      this.#scale.line(x, y - 5 * px, x, y + 5 * px, width * px, colour);
      this.#scale.line(x + 1, y - 5 * px, x + 1, y + 5 * px, width * px, colour);
    }
    this.#letters.put('bar', '1 mm', '#f2f5f8', x + 0.5, y + 16 * px * weight, 21 * px * weight);
  }

  #target(ring: TargetRing, px: number): void {
    const [x, y] = ring.centre_mm;
    const [small, large] = [ring.smallest_mm / 2, ring.largest_mm / 2];
    if (large > small) {
      this.#band.arc(x, y, (small + large) / 2, 0, 2 * Math.PI, large - small, BAND);
      for (const edge of [small, large]) this.#ring.arc(x, y, edge, 0, 2 * Math.PI, 1 * px, BAND_EDGE);
    }
    const dashes = 60;
    for (let i = 0; i < dashes; i++) {
      const from = (2 * Math.PI * i) / dashes;
      const to = from + (2 * Math.PI * 0.58) / dashes;
      this.#ring.arc(x, y, ring.diameter_mm / 2, from, to, 3.6 * px, RING_HALO);
      this.#ring.arc(x, y, ring.diameter_mm / 2, from, to, 1.9 * px, RING);
    }
  }
}

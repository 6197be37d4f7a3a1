import type { WorldView } from '../../physics/index.ts';

/** Longest time over which two views are blended; after a longer gap the newer one is shown as it stands. */
const LONGEST_GAP_ms = 120;

/**
 * The last two views of the sheet and when they came. What is drawn lies between them, so that drawing runs at its own
 * rate; views of different topology are never blended.
 */
export class BlendedSheet {
  #before: WorldView | null = null;
  #now: WorldView | null = null;
  #cameAt_ms = 0;
  #gap_ms = 0;
  #mayBlend = true;
  #blend = new Float32Array(0);

  /** @param gap_ms time over which to pass from the view before to this one; left out, the time since that one came */
  receive(view: WorldView, at_ms: number, gap_ms?: number): void {
    this.#before = this.#now;
    this.#gap_ms = gap_ms ?? at_ms - this.#cameAt_ms;
    this.#mayBlend = gap_ms !== undefined || this.#gap_ms <= LONGEST_GAP_ms;
    this.#now = view;
    this.#cameAt_ms = at_ms;
  }

  forget(): void {
    this.#before = null;
    this.#now = null;
  }

  get latest(): WorldView | null {
    return this.#now;
  }

  /** Share of the way from the older to the newer view, 0 to 1. */
  shareAt(at_ms: number): number {
    const { before, now } = { before: this.#before, now: this.#now };
    if (before === null || now === null || before.topology !== now.topology) return 1;
    if (this.#gap_ms <= 0 || !this.#mayBlend) return 1;
    return Math.min(1, Math.max(0, (at_ms - this.#cameAt_ms) / this.#gap_ms));
  }

  /** Node positions to draw, 3 per node, mm. Valid until the next call. */
  positionsAt(at_ms: number): Float32Array {
    const now = this.#now;
    if (now === null) return new Float32Array(0);
    const share = this.shareAt(at_ms);
    const from = this.#before?.position_mm;
    if (share >= 1 || from === undefined) return now.position_mm;
    const to = now.position_mm;
    if (this.#blend.length !== to.length) this.#blend = new Float32Array(to.length);
    for (let i = 0; i < to.length; i++) this.#blend[i] = from[i]! + share * (to[i]! - from[i]!);
    return this.#blend;
  }

  /** Instrument tip to draw, mm. */
  instrumentTipAt(at_ms: number): readonly [number, number, number] | null {
    const now = this.#now?.instrument.tip_mm;
    if (now === undefined) return null;
    const share = this.shareAt(at_ms);
    const from = this.#before?.instrument.tip_mm ?? now;
    const at = (i: 0 | 1 | 2) => from[i] + share * (now[i] - from[i]);
    return [at(0), at(1), at(2)];
  }
}

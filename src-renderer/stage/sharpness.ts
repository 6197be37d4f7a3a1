/** Frames slower than this make the hand feel late, ms. Our choice. */
const SLOW_FRAME_ms = 60;
/** Slow frames in a row before the drawing gets coarser. */
const PATIENCE = 12;
const COARSER = 0.75;
const COARSEST = 0.5;

/**
 * Share of the full resolution at which to draw. Where frames keep coming late (drawing in software, a weak machine)
 * it goes down step by step: a stage that answers at once is worth more than a fine one. It goes up again only with
 * a new size, so that it does not swing to and fro.
 */
export class Sharpness {
  #share = 1;
  #slow = 0;
  #last_ms: number | null = null;

  get share(): number {
    return this.#share;
  }

  /** To be called once per drawn frame; true when the share has just changed. Gaps of a second are no slow frames. */
  frame(now_ms: number): boolean {
    const gap_ms = this.#last_ms === null ? 0 : now_ms - this.#last_ms;
    this.#last_ms = now_ms;
    if (gap_ms > 1000) return false;
    this.#slow = gap_ms > SLOW_FRAME_ms ? this.#slow + 1 : 0;
    if (this.#slow < PATIENCE || this.#share <= COARSEST) return false;
    this.#slow = 0;
    this.#share = Math.max(COARSEST, this.#share * COARSER);
    return true;
  }

  reset(): void {
    this.#share = 1;
    this.#slow = 0;
    this.#last_ms = null;
  }
}

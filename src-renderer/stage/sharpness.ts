/** Frames that take longer than this in the mean make the hand feel late, ms: below about 22 pictures a second. Our choice. */
const SLOW_FRAME_ms = 45;
/** Frames over which the mean is taken before the drawing may get coarser. */
const PATIENCE = 12;
const COARSER = 0.75;
const COARSEST = 0.5;

/**
 * Share of the full resolution at which to draw what moves. Where frames keep coming late (drawing in software, a weak machine)
 * it goes down step by step: a stage that answers at once is worth more than a fine one. It goes up again only with
 * a new size, so that it does not swing to and fro.
 */
export class Sharpness {
  #share = 1;
  #frames = 0;
  #sum_ms = 0;
  #last_ms: number | null = null;

  get share(): number {
    return this.#share;
  }

  /** To be called once per drawn frame; true when the share has just changed. Gaps of a second are no slow frames. */
  frame(now_ms: number): boolean {
    const gap_ms = this.#last_ms === null ? 0 : now_ms - this.#last_ms;
    this.#last_ms = now_ms;
    if (gap_ms > 1000) return false;
    this.#frames += 1;
    this.#sum_ms += gap_ms;
    if (this.#frames < PATIENCE) return false;
    const slow = this.#sum_ms > PATIENCE * SLOW_FRAME_ms;
    this.#frames = 0;
    this.#sum_ms = 0;
    if (!slow || this.#share <= COARSEST) return false;
    this.#share = Math.max(COARSEST, this.#share * COARSER);
    return true;
  }

  reset(): void {
    this.#share = 1;
    this.#frames = 0;
    this.#sum_ms = 0;
    this.#last_ms = null;
  }
}

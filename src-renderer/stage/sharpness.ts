/** Wanted of every stage: thirty pictures a second. A little over a thirtieth of a second, so that a display at 60 Hz may waver. */
const WANTED_ms = 35;
/** Drawn frames, and time that they took, over which a mean is taken at least: long enough for a tear's own bursts. Our choice. */
const PATIENCE = 10;
const PATIENCE_ms = 1000;
/** Shares of the full resolution along each side; the pixels go with their square. */
export const SHARES: readonly number[] = [1, 0.85, 0.72, 0.6, 0.5];
/**
 * Finer drawing is tried when it would still come in time if this share of the time went with the pixels. Measured in software it is
 * a third for a stage of 450 pixels and more for a larger one; what was hoped for in vain is not hoped for again soon.
 */
const PIXELS = 0.5;
/** Time in which frames have to come in time before finer drawing is tried, and at most, once trying has failed again and again, ms. */
const FIRST_WAIT_ms = 2000;
const LONGEST_WAIT_ms = 120_000;
/** Coarser drawing that does not bring the next picture sooner by this share is not the remedy. */
const GAIN = 0.04;

/** Kept for the browser's session: `full` draws at full resolution whatever it takes, to measure that or for a film. */
const KEPT_AS = 'rimward.drawing';

export const drawsInFull = (): boolean => globalThis.sessionStorage?.getItem(KEPT_AS) === 'full';

/**
 * Share of the full resolution at which to draw what moves: the largest that comes thirty times a second. Where drawn frames keep
 * coming late (drawing in software, a weak machine) it goes down a step, and back if that brought nothing; where there is room it
 * goes up again. Each time that going up was too much it waits twice as long before it tries again, so that it settles.
 */
export class Sharpness {
  readonly #fixed: boolean;
  #at = 0;
  #frames = 0;
  #sum_ms = 0;
  #last_ms: number | null = null;
  #lastDrew = false;
  /** Time of frames in time at this share, and how much is asked for before a finer one is tried. */
  #inTime_ms = 0;
  #wait_ms = FIRST_WAIT_ms;
  /** Mean before the last step down; null where the last step was up or the step has proved itself. */
  #before_ms: number | null = null;
  #triedFiner = false;
  /** Time for which no step down is taken, because the last brought nothing. */
  #resigned_ms = 0;

  constructor(fixed = false) {
    this.#fixed = fixed;
  }

  get share(): number {
    return SHARES[this.#at]!;
  }

  /**
   * To be called once per frame of the display; true when the share has just changed. The time that a frame took is counted where
   * the frame before was drawn: a stage at rest says nothing about drawing. Gaps of a second are no slow frames.
   *
   * @param drew whether this frame is drawn
   */
  frame(now_ms: number, drew: boolean): boolean {
    const gap_ms = this.#last_ms === null || !this.#lastDrew ? null : now_ms - this.#last_ms;
    this.#last_ms = now_ms;
    this.#lastDrew = drew;
    if (this.#fixed || gap_ms === null || gap_ms > 1000) return false;
    this.#frames += 1;
    this.#sum_ms += gap_ms;
    if (this.#frames < PATIENCE || this.#sum_ms < PATIENCE_ms) return false;
    const sum_ms = this.#sum_ms;
    const mean_ms = sum_ms / this.#frames;
    this.#frames = 0;
    this.#sum_ms = 0;
    return mean_ms > WANTED_ms ? this.#late(mean_ms, sum_ms) : this.#early(mean_ms, sum_ms);
  }

  #late(mean_ms: number, sum_ms: number): boolean {
    this.#inTime_ms = 0;
    if (this.#resigned_ms > 0) {
      this.#resigned_ms -= sum_ms;
      return false;
    }
    if (this.#before_ms !== null && mean_ms > (1 - GAIN) * this.#before_ms) {
      // something else is what takes the time
      this.#before_ms = null;
      this.#resigned_ms = this.#wait_ms;
      this.#wait_ms = Math.min(LONGEST_WAIT_ms, 2 * this.#wait_ms);
      return this.#go(-1);
    }
    if (this.#triedFiner) this.#wait_ms = Math.min(LONGEST_WAIT_ms, 2 * this.#wait_ms);
    this.#triedFiner = false;
    if (this.#at === SHARES.length - 1) return false;
    this.#before_ms = mean_ms;
    return this.#go(1);
  }

  #early(mean_ms: number, sum_ms: number): boolean {
    this.#before_ms = null;
    this.#inTime_ms += sum_ms;
    const finer = SHARES[this.#at - 1];
    if (finer === undefined || this.#inTime_ms < this.#wait_ms) return false;
    const asked_ms = mean_ms * (1 - PIXELS + PIXELS * (finer / this.share) ** 2);
    if (asked_ms > WANTED_ms) return false;
    this.#triedFiner = true;
    return this.#go(-1);
  }

  #go(steps: 1 | -1): boolean {
    this.#inTime_ms = 0;
    this.#at = Math.min(SHARES.length - 1, Math.max(0, this.#at + steps));
    return true;
  }

  reset(): void {
    this.#at = 0;
    this.#frames = 0;
    this.#sum_ms = 0;
    this.#last_ms = null;
    this.#lastDrew = false;
    this.#inTime_ms = 0;
    this.#wait_ms = FIRST_WAIT_ms;
    this.#before_ms = null;
    this.#triedFiner = false;
    this.#resigned_ms = 0;
  }
}

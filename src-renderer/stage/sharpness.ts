/** Wanted of every stage: thirty pictures a second. A little over a thirtieth of a second, so that a display at 60 Hz may waver. */
const WANTED_ms = 35;
/** Drawn frames over which a mean is taken. Our choice: half a second at the pace that is wanted. */
const PATIENCE = 15;
/** Shares of the full resolution along each side; the pixels go with their square. */
export const SHARES: readonly number[] = [1, 0.85, 0.72, 0.6, 0.5];
/** Finer drawing is tried when it would still come in time if all the work went with the pixels. */
const ROOM = 0.95;
/** Drawn frames before finer drawing is tried, and at most, once trying has failed again and again. */
const FIRST_WAIT = 45;
const LONGEST_WAIT = 3600;
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
  /** Drawn frames in time at this share, and how many are asked for before a finer one is tried. */
  #inTime = 0;
  #wait = FIRST_WAIT;
  /** Mean before the last step down; null where the last step was up or the step has proved itself. */
  #before_ms: number | null = null;
  #triedFiner = false;
  /** Drawn frames for which no step down is taken, because the last brought nothing. */
  #resigned = 0;

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
    if (this.#frames < PATIENCE) return false;
    const mean_ms = this.#sum_ms / this.#frames;
    this.#frames = 0;
    this.#sum_ms = 0;
    return mean_ms > WANTED_ms ? this.#late(mean_ms) : this.#early(mean_ms);
  }

  #late(mean_ms: number): boolean {
    this.#inTime = 0;
    if (this.#resigned > 0) {
      this.#resigned -= PATIENCE;
      return false;
    }
    if (this.#before_ms !== null && mean_ms > (1 - GAIN) * this.#before_ms) {
      // something else is what takes the time
      this.#before_ms = null;
      this.#resigned = this.#wait;
      this.#wait = Math.min(LONGEST_WAIT, 2 * this.#wait);
      return this.#go(-1);
    }
    if (this.#triedFiner) this.#wait = Math.min(LONGEST_WAIT, 2 * this.#wait);
    this.#triedFiner = false;
    if (this.#at === SHARES.length - 1) return false;
    this.#before_ms = mean_ms;
    return this.#go(1);
  }

  #early(mean_ms: number): boolean {
    this.#before_ms = null;
    this.#inTime += PATIENCE;
    const finer = SHARES[this.#at - 1];
    if (finer === undefined || this.#inTime < this.#wait) return false;
    const asked_ms = mean_ms * (finer / this.share) ** 2;
    if (asked_ms > ROOM * WANTED_ms) return false;
    this.#triedFiner = true;
    return this.#go(-1);
  }

  #go(steps: 1 | -1): boolean {
    this.#inTime = 0;
    this.#at = Math.min(SHARES.length - 1, Math.max(0, this.#at + steps));
    return true;
  }

  reset(): void {
    this.#at = 0;
    this.#frames = 0;
    this.#sum_ms = 0;
    this.#last_ms = null;
    this.#lastDrew = false;
    this.#inTime = 0;
    this.#wait = FIRST_WAIT;
    this.#before_ms = null;
    this.#triedFiner = false;
    this.#resigned = 0;
  }
}

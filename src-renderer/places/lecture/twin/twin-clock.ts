import { STEP_S } from '../../../../physics/index.ts';
import type { TwinState } from '../contract.ts';

/** Longest time a drawn frame may stand for, s: after a hidden tab the clock does not leap. */
const LONGEST_FRAME_s = 0.1;
/** A live hand goes on from here: this near to the last step the clock stands at the last step. */
const NEAR_END = 8;

/** The one clock of both eyes: where it stands, in steps, and how it goes on. */
export class TwinClock {
  playing = true;
  speed = 1;
  loop: TwinState['loop'] = null;
  held = false;
  heldAt = 0;
  /** Step to be shown once it is computed. */
  wish: number | null = null;
  /** Steps, with fractions. */
  head = 0;
  /** Steps to be computed before the clock goes by itself. */
  #catchUp = 0;
  #due = 0;

  /** @param from the clock follows what is computed up to there before it goes by itself */
  restart(from: number): void {
    this.playing = true;
    this.loop = null;
    this.held = false;
    this.wish = null;
    this.head = 0;
    this.#due = 0;
    this.#catchUp = from;
  }

  hold(held: boolean): void {
    this.held = held;
    this.heldAt = Math.floor(this.head);
    this.wish = null;
  }

  jump(step: number): void {
    this.head = step;
    this.wish = null;
    this.#due = 0;
  }

  /** The step that playing needs next. */
  get wantedStep(): number {
    return Math.ceil(this.head);
  }

  /**
   * Time passes.
   * @param last last step that may be shown
   * @param live whether steps come into being as time passes, instead of being computed ahead
   * @param ended nothing comes after `last`
   * @returns steps that a live hand is to be asked for now
   */
  pass(passed_s: number, last: number, live: boolean, ended: boolean): number {
    if (!this.playing || this.held) return 0;
    if (this.#catchUp > 0) {
      this.head = last;
      if (last >= this.#catchUp || ended) this.#catchUp = 0;
      return 0;
    }
    const steps = (Math.min(LONGEST_FRAME_s, passed_s) * this.speed) / STEP_S;
    if (this.loop !== null) {
      this.head = looped(this.head + steps, this.loop, last, ended);
      return 0;
    }
    if (!live || last - this.head > NEAR_END) {
      this.head = Math.min(last, this.head + steps);
      return 0;
    }
    this.head = last;
    this.#due += steps;
    const whole = Math.floor(this.#due);
    this.#due -= whole;
    return whole;
  }

  /** More has been computed. @returns true when what was wished for is there now */
  arrived(last: number): boolean {
    if (this.wish === null || this.wish > last) return false;
    this.jump(this.wish);
    return true;
  }
}

function looped(head: number, { from, to }: NonNullable<TwinState['loop']>, last: number, ended: boolean): number {
  if (head < from || head >= (ended ? Math.min(to, last) : to)) return from;
  return Math.min(head, last);
}

import type { Page } from '@playwright/test';
import { type Point, readStage, type StageReading } from './stage-reader.ts';

/** How the mouse takes a tear round; angles from the circle through the tip toward the centre. */
export interface MouseHand {
  /** Diameter of the line to follow, mm. */
  readonly line_mm: number;
  readonly pullAngle_deg: number;
  /** Turned farther in for each mm that the tip lies outside of the line. */
  readonly gain_deg_per_mm: number;
  readonly speed_mm_per_s: number;
  readonly regraspEvery_deg: number;
  /** Simulated time after which it gives up. */
  readonly limit_s: number;
  /** Stops once so much is torn, mm; absent goes on to the end. */
  readonly enough_mm?: number;
}

/** What a pointing device can do; the mouse of the browser by default. */
export interface PointingDevice {
  /** True where it cannot be moved about before it takes hold. */
  readonly takesHoldWhereItLands?: boolean;
  move(x: number, y: number): Promise<void>;
  down(): Promise<void>;
  up(): Promise<void>;
  /** Wheel units down the page; a device without a wheel raises and lowers in its own way. */
  wheel(across: number, down: number): Promise<void>;
}

const STEPS_PER_s = 60;
/** Above this driving ratio the hand waits for the tear to follow. */
const ENOUGH_RATIO = 1.25;
/** From this ratio on the flap is taut; and the longest move of the mouse then, mm. */
const TAUT_RATIO = 0.12;
const TAUT_MOVE_mm = 0.06;
/** How far the place that is pulled to may be ahead of the mouse, mm. */
const LEAD_mm = 0.25;
/** A flap drawn out this far is let go and grasped again, mm. */
const LONGEST_REACH_mm = 2.6;
/** How near the instrument must be to where it is to grasp. */
const ARRIVED_mm = 0.1;
/** Share of the way from grip to tip that the flap is laid over the tip. */
const LAY_OVER_SHARE = 0.7;
/** Wheel units that raise the tip from its holding height to a carrying height, and back. */
const WHEEL_UP = -500;
const RAD = Math.PI / 180;

const plus = (a: Point, b: Point, times = 1): Point => [a[0] + times * b[0], a[1] + times * b[1]];
const distance = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Where the tip lies about the centre, counter-clockwise as seen, degrees. */
const angle_deg = ({ tip, centre }: StageReading): number =>
  Math.atan2(centre[1] - (tip?.[1] ?? 0), (tip?.[0] ?? 0) - centre[0]) / RAD;

/**
 * Takes a prepared flap round counter-clockwise with mouse events alone, by what stands on the stage: grasps the flap
 * beside the tip, lays it over, pulls ahead of the tip toward the line, lets go and grasps again.
 */
export class MouseTearing {
  readonly #page: Page;
  readonly #hand: MouseHand;
  readonly #device: PointingDevice;
  #at: Point = [0, 0];
  /** Distance of the tip from the centre, seen just before the last grasp. */
  #restRadius_mm = 0;
  /** What the mouse did, for the report of a failed test. */
  readonly log: string[] = [];

  constructor(page: Page, hand: MouseHand, device: PointingDevice = page.mouse) {
    this.#page = page;
    this.#hand = hand;
    this.#device = device;
  }

  /** Works until the attempt is over or the time is up; gives the last reading. */
  async takeRound(): Promise<StageReading> {
    let seen = await readStage(this.#page);
    const end = seen.step + this.#hand.limit_s * STEPS_PER_s;
    while (seen.phase === 'working' && seen.step < end && !this.#enough(seen)) {
      const before = seen.step;
      seen = await this.grasp();
      if (seen.gripping) seen = await this.#layOver(seen);
      if (seen.gripping) seen = await this.#pull(seen, end);
      await this.#device.up();
      seen = await this.#waitSteps(seen, 10);
      this.#note('let go', seen);
      if (seen.step === before) throw new Error(`time stands still at step ${before}\n${this.log.join('\n')}`);
    }
    return seen;
  }

  /**
   * Whether as much is torn as was asked for, at least. Told by the length that the world says is torn: a pull carries the tip along with
   * the soft sheet by more than ten degrees without tearing anything.
   */
  #enough({ torn_mm }: StageReading): boolean {
    return torn_mm >= (this.#hand.enough_mm ?? Infinity);
  }

  #note(what: string, { step, tip, centre, pxPerMm, ratio }: StageReading): void {
    const place = tip === null ? '' : ` r ${(distance(tip, centre) / pxPerMm).toFixed(2)} mm`;
    this.log.push(`${(step / STEPS_PER_s).toFixed(1)} s ${what}${place} ratio ${ratio.toFixed(2)}`);
  }

  async #move(to: Point): Promise<void> {
    this.#at = to;
    await this.#device.move(to[0], to[1]);
  }

  async #waitSteps(from: StageReading, steps: number): Promise<StageReading> {
    let seen = from;
    for (let i = 0; i < 200 && seen.step < from.step + steps && seen.phase === 'working'; i++) {
      await this.#page.waitForTimeout(15);
      seen = await readStage(this.#page);
    }
    return seen;
  }

  /** Leads the instrument to the flap and takes hold of it there. */
  async grasp(): Promise<StageReading> {
    let seen = await readStage(this.#page);
    const spot = seen.flap ?? seen.tip;
    if (spot === null) return seen;
    await this.#move(spot);
    if (this.#device.takesHoldWhereItLands !== true) {
      seen = await this.#waitSteps(seen, 30);
      await this.#move(seen.flap ?? spot);
      seen = await this.#arrive(seen);
    }
    if (seen.tip !== null) this.#restRadius_mm = distance(seen.tip, seen.centre) / seen.pxPerMm;
    await this.#device.down();
    for (let i = 0; i < 12 && !seen.gripping && seen.phase === 'working'; i++) seen = await this.#waitSteps(seen, 6);
    this.#note(seen.gripping ? 'holds' : 'missed', seen);
    return seen;
  }

  /** Waits for the instrument to be at the flap's edge: a stick leads it there in its own time, and the flap may still move. */
  async #arrive(from: StageReading): Promise<StageReading> {
    let seen = from;
    for (let i = 0; i < 15; i++) {
      const spot = seen.flap ?? this.#at;
      if (distance(seen.instrument, spot) < ARRIVED_mm * seen.pxPerMm) break;
      await this.#move(spot);
      seen = await this.#waitSteps(seen, 6);
    }
    return seen;
  }

  /** Unit vector of the pull, page pixels (y downward); the tear goes round counter-clockwise as seen. */
  #aim({ tip, centre }: StageReading): Point | null {
    if (tip === null) return null;
    const away: Point = [tip[0] - centre[0], tip[1] - centre[1]];
    const r = Math.hypot(...away);
    // the pull carries the tip inward with the soft sheet, so the line is judged by where the tip lay at rest
    const outside_mm = this.#restRadius_mm - this.#hand.line_mm / 2;
    const wanted = this.#hand.pullAngle_deg + this.#hand.gain_deg_per_mm * outside_mm;
    const angle = Math.min(120, Math.max(-30, wanted)) * RAD;
    const along: Point = [away[1] / r, -away[0] / r];
    return plus(
      [Math.cos(angle) * along[0], Math.cos(angle) * along[1]],
      [-away[0] / r, -away[1] / r],
      Math.sin(angle),
    );
  }

  /** One small move toward a place at no more than a speed; time is that of the simulated eye. */
  async #toward(goal: Point, most_px: number): Promise<void> {
    const way = distance(goal, this.#at);
    if (way < 0.05 || most_px <= 0) return;
    await this.#move(plus(this.#at, [goal[0] - this.#at[0], goal[1] - this.#at[1]], Math.min(1, most_px / way)));
  }

  async #layOver(from: StageReading): Promise<StageReading> {
    let seen = from;
    if (seen.tip === null) return seen;
    const reach = LAY_OVER_SHARE * distance(seen.instrument, seen.tip);
    await this.#device.wheel(0, WHEEL_UP);
    const end = seen.step + 240;
    while (seen.gripping && seen.step < end && seen.phase === 'working' && !(seen.ratio > ENOUGH_RATIO)) {
      const aim = this.#aim(seen);
      if (seen.tip === null || aim === null) break;
      const goal = plus(seen.tip, aim, reach);
      if (distance(goal, this.#at) < 0.06 * seen.pxPerMm) break;
      const before = seen.step;
      seen = await this.#waitSteps(seen, 1);
      await this.#toward(goal, ((seen.step - before) / STEPS_PER_s) * 1.5 * this.#hand.speed_mm_per_s * seen.pxPerMm);
    }
    await this.#device.wheel(0, -WHEEL_UP);
    this.#note('laid over', seen);
    return seen;
  }

  async #pull(from: StageReading, end: number): Promise<StageReading> {
    let seen = from;
    if (seen.tip === null) return seen;
    let reach = distance(this.#at, seen.tip);
    const began = angle_deg(seen);
    while (seen.gripping && seen.phase === 'working' && seen.step < end) {
      const aim = this.#aim(seen);
      if (seen.tip === null || aim === null) break;
      if (this.#enough(seen)) break;
      const torn = (angle_deg(seen) - began + 720) % 360;
      if (torn > this.#hand.regraspEvery_deg && torn < 300) break;
      // drawn out this far the flap is a soft spring and the instrument near the end of its reach
      if (distance(seen.instrument, seen.tip) > LONGEST_REACH_mm * seen.pxPerMm) break;
      const before = seen;
      seen = await this.#waitSteps(seen, 1);
      if (seen.tip === null) break;
      const free_px = ((seen.step - before.step) / STEPS_PER_s) * this.#hand.speed_mm_per_s * seen.pxPerMm;
      // a taut flap is pulled in small moves: between two looks at the stage it must not be overstretched
      const way_px = seen.ratio < TAUT_RATIO ? free_px : Math.min(free_px, TAUT_MOVE_mm * seen.pxPerMm);
      // only a little ahead of the mouse, or the pull would run on by itself
      const farthest = distance(this.#at, seen.tip) + LEAD_mm * seen.pxPerMm;
      if (seen.ratio < ENOUGH_RATIO) reach = Math.min(reach + way_px, farthest);
      await this.#toward(plus(seen.tip, aim, reach), 1.5 * way_px);
    }
    this.#note(seen.gripping ? 'pulled' : 'pulled until it slipped', seen);
    return seen;
  }
}

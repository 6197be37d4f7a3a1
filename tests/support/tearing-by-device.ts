import { type GuidedHand, STEP_S, type Vec2 } from '../../physics/index.ts';
import { chooseTip, watchTips } from '../../physics/scenario/guided-sight.ts';
import { createGuided, type GuidedState } from '../../physics/scenario/guided-state.ts';
import { tipWork, type Work } from '../../physics/scenario/guided-work.ts';
import type { HandWays } from '../../src-renderer/tools/hand.ts';
import type { HandAtWork } from './hand-at-work.ts';

/** What a person does with a device; each method makes the device's own events. */
export interface Device {
  /** Leads the tip of the open or closed jaws toward a place; called once a step. */
  toward(at_mm: Vec2): void;
  close(): void;
  open(): void;
  fold(): void;
  /** Raises or lowers what is held toward a height; called once a step. */
  liftTo(lift_mm: number): void;
  /** Whatever the device does by itself as time passes. */
  pass?(dt_s: number): void;
}

const APPROACH_mm_per_s = 4;
const PULL_LIFT_mm = 0.25;
/** Keys raise by whole tenths. */
const LIFT_WITHIN_mm = 0.06;
/** Above this driving ratio the hand waits for the tear to follow. */
const ENOUGH_RATIO = 1.05;
const LONGEST_REACH_mm = 3;
/** Longest wait for the jaws to hold, and time for them to open, steps. */
const CLOSING_STEPS = 90;
const OPENING_STEPS = 15;
/** A device that misses so often in a row does not work. */
const MOST_MISSED = 4;

/**
 * Takes a prepared flap round with a device alone. Where to take it and which way to pull come from what the world shows, as
 * for the guided hands; how the instrument gets there is the device's doing.
 */
export class TearingByDevice {
  readonly #work: HandAtWork;
  readonly #device: Device;
  readonly #eyes: GuidedState;
  readonly #ways: HandWays;
  #wanted: Vec2 = [0, 0];
  #missed = 0;
  /** What was done, for the report of a failed test. */
  readonly log: string[] = [];

  constructor(work: HandAtWork, device: Device, hand: GuidedHand, ways: HandWays) {
    this.#work = work;
    this.#device = device;
    this.#ways = ways;
    const { frame, seed } = work.world;
    this.#eyes = createGuided(hand, seed, frame.targetCentre_mm, frame.geometry.target.lineDiameter_mm / 2);
  }

  /** Works until the attempt is over or the time is up. */
  takeRound(limit_s: number): void {
    const last = limit_s / STEP_S;
    while (this.#working && this.#work.view.step < last) {
      this.#wanted = this.#work.asked_mm;
      if (this.#missed > MOST_MISSED) break;
      if (this.#grasp()) {
        this.#layOver();
        this.#pull(last);
      }
      this.#device.open();
      this.#wait(OPENING_STEPS);
    }
    while (this.#work.view.phase === 'relaxing' && this.#work.view.step < last) this.#step();
  }

  get #working(): boolean {
    return this.#work.view.phase === 'working';
  }

  get #holds(): boolean {
    return this.#work.view.instrument.gripping && this.#working;
  }

  #note(what: string): void {
    const { step, torn_mm } = this.#work.view;
    this.log.push(`${(step * STEP_S).toFixed(1)} s ${what}, ${torn_mm.toFixed(2)} mm torn`);
  }

  #step(): void {
    this.#device.pass?.(STEP_S);
    this.#work.step(STEP_S, this.#ways);
  }

  #wait(steps: number): void {
    for (let i = 0; i < steps && this.#working; i++) this.#step();
  }

  /** What is to be done now; null where no tip is in sight. */
  #look(): Work | null {
    const { view } = this.#work;
    watchTips(this.#eyes, view);
    const tip = chooseTip(this.#eyes, view);
    return tip === null ? null : tipWork(this.#eyes, view, tip);
  }

  #leadTo(goal: Vec2, speed_mm_per_s: number): void {
    const [dx, dy] = [goal[0] - this.#wanted[0], goal[1] - this.#wanted[1]];
    const share = Math.min(1, (speed_mm_per_s * STEP_S) / Math.max(1e-9, Math.hypot(dx, dy)));
    this.#wanted = [this.#wanted[0] + share * dx, this.#wanted[1] + share * dy];
    this.#device.toward(this.#wanted);
  }

  #grasp(): boolean {
    for (let steps = 0; steps < 300 && this.#working; steps++) {
      const place = this.#look()?.grasp() ?? null;
      if (place === null) return false;
      this.#leadTo([place[0], place[1]], APPROACH_mm_per_s);
      this.#step();
      const [x, y] = this.#work.view.instrument.tip_mm;
      if (steps > 20 && Math.hypot(x - place[0], y - place[1]) < 0.08) break;
    }
    this.#device.close();
    for (let i = 0; i < CLOSING_STEPS && !this.#holds && this.#working; i++) this.#step();
    this.#wait(6);
    const work = this.#look();
    if (work !== null) this.#eyes.arcAtGrasp_deg = work.arc_deg;
    this.#missed = this.#holds ? 0 : this.#missed + 1;
    this.#note(this.#holds ? 'holds' : 'missed');
    return this.#holds;
  }

  #layOver(): void {
    this.#device.fold();
    this.#step();
    if (this.#holds && this.#work.hand.doing !== 'folding') throw new Error('the flap is not being laid over');
    for (let i = 0; i < 120 && this.#holds && this.#work.hand.doing === 'folding'; i++) this.#step();
    for (
      let i = 0;
      i < 90 && this.#holds && Math.abs(this.#work.holdLift_mm - PULL_LIFT_mm) > LIFT_WITHIN_mm - 0.02;
      i++
    ) {
      this.#device.liftTo(PULL_LIFT_mm);
      this.#step();
    }
    const off_mm = Math.abs(this.#work.holdLift_mm - PULL_LIFT_mm);
    if (this.#holds && off_mm > LIFT_WITHIN_mm) throw new Error(`the flap is held ${off_mm} mm off its height`);
    this.#wanted = this.#work.asked_mm;
    this.#note('laid over');
  }

  #pull(last: number): void {
    const { speed_mm_per_s } = this.#eyes.hand;
    let reach: number | null = null;
    while (this.#holds && this.#work.view.step < last) {
      const work = this.#look();
      if (work === null || work.tornEnough() || this.#work.view.instrument.reachLimited) break;
      const [tx, ty] = work.position_mm;
      reach ??= Math.hypot(this.#wanted[0] - tx, this.#wanted[1] - ty);
      if (reach > LONGEST_REACH_mm) break;
      if (work.drivingRatio < ENOUGH_RATIO) reach += speed_mm_per_s * STEP_S;
      const [ax, ay] = work.aim();
      this.#leadTo([tx + reach * ax, ty + reach * ay], 2 * speed_mm_per_s);
      this.#step();
    }
    this.#note(this.#holds ? 'pulled' : 'pulled until it slipped');
  }
}

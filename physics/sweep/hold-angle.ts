/**
 * The pull angle that keeps the tear on its circle: a guided hand grasps a usual flap, folds it over and pulls at a fixed angle; how
 * the torn path leaves the circle tells which angle is right. It is the whole model in motion, with the same grasp at every age.
 */
import { hypot } from '../core/elementary/hypot.ts';
import { handPlayer } from '../scenario/attempt.ts';
import type { GuidedHand } from '../scenario/hand.ts';
import { STEP_S } from '../world/contract.ts';
import { viewWorld } from '../world/view.ts';
import { createWorld, stepWorld } from '../world/world.ts';
import { crossingOf } from './crossing.ts';
import { type SampleOptions, sampleScenario, usualLine_mm } from './sample-eye.ts';

/** Arc already torn when the hand takes the flap, degrees, and length to be torn under one grasp, mm of unloaded sheet. */
const FLAP_ARC_deg = 100;
const TORN_mm = 0.9;
/** A grasp that has torn nothing for this long is given up, s. */
const PATIENCE_s = 14;
/** Angles between which the hold angle is looked for, degrees from the tangent toward the centre. */
const LEAST_deg = -40;
const MOST_deg = 130;
/** Angles tried first; the drift is nearly straight between them. */
const FIRST_deg = [30, 60] as const;
/** The search ends when the bracket is this narrow, degrees; within it the drift is taken as straight. */
const NARROW_deg = 8;

const handAt = (pullAngle_deg: number): GuidedHand => ({
  rimwardHand: 1,
  kind: 'guided',
  id: 'hold-angle',
  title: 'Pulls at one angle',
  start: 'flap',
  pullAngle_deg,
  speed_mm_per_s: 1,
  regraspEvery_deg: 720,
  graspBehind_mm: 0.6,
  graspInside_mm: 0.4,
  fold: true,
});

/**
 * How the tear leaves its circle under a pull at one angle: change of radius per length torn, positive outward, dimensionless.
 * Null when the pull tears too little to say, or the tear has run out.
 *
 * @param netPressure_mmHg held throughout: no fluid is lost and none refilled
 * @param pullAngle_deg from the tangent of the circle through the tip toward the centre
 */
export function driftAt(
  age_years: number,
  netPressure_mmHg: number,
  pullAngle_deg: number,
  options: SampleOptions,
): number | null {
  const radius_mm = usualLine_mm(age_years) / 2;
  const start = { kind: 'flap', clock_h: 12, radius_mm, arc_deg: FLAP_ARC_deg, innerRadius_mm: 0.2 } as const;
  const world = createWorld(sampleScenario(age_years, netPressure_mmHg, start, options));
  const { chamber } = world;
  const next = handPlayer(world, handAt(pullAngle_deg));
  while (world.phase === 'working' && world.step * STEP_S < PATIENCE_s) {
    const command = next(viewWorld(world));
    if (command === null) break;
    world.chamber = chamber;
    stepWorld(world, command);
    if (world.torn_mm >= TORN_mm * world.frame.baseStretch) return riseOverLength(world.tears[0].points);
  }
  return null;
}

/** Change of radius over the last TORN_mm of a line, per length. */
function riseOverLength(points: readonly number[]): number {
  let k = points.length - 2;
  const end = hypot(points[k], points[k + 1]);
  let length = 0;
  while (k >= 2 && length < TORN_mm) {
    length += hypot(points[k] - points[k - 2], points[k + 1] - points[k - 1]);
    k -= 2;
  }
  return (end - hypot(points[k], points[k + 1])) / length;
}

export interface HoldAngle {
  /** Pull angle at which the tear stays on its circle, degrees from the tangent toward the centre; null when none does. */
  readonly holdAngle_deg: number | null;
  /** Angles between which it was found, degrees. */
  readonly between_deg: readonly [number, number] | null;
}

/** A tear that runs out under a pull counts as drifting outward, one that a pull does not move as not known. */
export function holdAngleOf(age_years: number, netPressure_mmHg: number, options: SampleOptions): HoldAngle {
  const tried = new Map<number, number>();
  const drift = (angle: number): number => {
    const found = tried.get(angle) ?? driftAt(age_years, netPressure_mmHg, angle, options) ?? Number.NaN;
    tried.set(angle, found);
    return found;
  };
  let [low, high] = FIRST_deg as readonly [number, number] as [number, number];
  while (drift(low) < 0 && low > LEAST_deg) [low, high] = [Math.max(LEAST_deg, low - 30), low];
  while (drift(high) > 0 && high < MOST_deg) [low, high] = [high, Math.min(MOST_deg, high + 30)];
  if (!(drift(low) >= 0 && drift(high) <= 0)) return { holdAngle_deg: null, between_deg: null };
  const found = crossingOf(drift, [low, drift(low)], [high, drift(high)], NARROW_deg);
  return { holdAngle_deg: found?.at ?? null, between_deg: found?.between ?? null };
}

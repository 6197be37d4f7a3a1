/** The law of motion of a tear tip: when it goes, how fast, and how far it may turn. Equations: model.md, "The law". */

import { cos, sin } from '../core/elementary/circular.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { power } from '../core/elementary/power.ts';

/** Speed at twice the tear resistance, mm/s. Assumed, 3 to 30: fast against the hand, slow enough to be seen. */
export const TEAR_SPEED_mm_per_s = 10;
/** Exponent 1/n of the overstress. Assumed 1 (n = 1), 0.5 to 2. */
export const SPEED_EXPONENT = 1;
/** Fastest run, mm/s. Assumed; a run-out crosses the capsule in a few tenths of a second. */
export const FASTEST_mm_per_s = 25;
/** Largest turn per advance of one element, degrees. Assumed, 10 to 30: a path's radius is then at least 0.17 mm. */
export const LARGEST_TURN_deg = 20;

/** v = v0 (|J|/Gt - 1)^(1/n) above the tear resistance, 0 below it. mm/s. */
export function tearSpeed_mm_per_s(drivingRatio: number): number {
  if (!(drivingRatio > 1)) return 0;
  return Math.min(FASTEST_mm_per_s, TEAR_SPEED_mm_per_s * power(drivingRatio - 1, SPEED_EXPONENT));
}

/**
 * Direction of the next advance: along the driving force, turned by at most the limit from the present tangent.
 * @param tangent unit vector, reference axes @param force mN @returns unit vector
 */
export function headingOf(
  tangent: readonly [number, number],
  force: readonly [number, number],
  limit_deg = LARGEST_TURN_deg,
): [number, number] {
  const [tx, ty] = tangent;
  const along = force[0] * tx + force[1] * ty;
  const across = tx * force[1] - ty * force[0];
  return turnedBy(tangent, atan2(across, along), limit_deg);
}

/**
 * A tangent turned by so many radians, positive to the left, but by no more than the limit. @returns unit vector
 */
export function turnedBy(tangent: readonly [number, number], by_rad: number, limit_deg: number): [number, number] {
  const [tx, ty] = tangent;
  const limit = (limit_deg * Math.PI) / 180;
  const turn = Math.max(-limit, Math.min(limit, by_rad));
  const c = cos(turn);
  const s = sin(turn);
  return [c * tx - s * ty, s * tx + c * ty];
}

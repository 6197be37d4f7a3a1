import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { Vec2 } from '../world/contract.ts';
import { clockHourOf, farthestCrossing, type Outline } from './outline.ts';

/** Steps of 0.1 clock hour round the optic. */
const STEPS = 120;
const RAYS_PER_STEP = 6;

/**
 * How the capsule covers an optic.
 *
 * @returns the smallest overlap all round, mm, negative where there is none: the optic's radius less the farthest point
 *   of the margin from the optic's centre (exact); and the clock hours without overlap as ranges, clockwise, in steps of 0.1 h.
 *   A range over 12 o'clock ends below its start; [0, 12] is the whole ring.
 */
export function opticCover(outline: Outline, centre: Vec2, opticDiameter_mm: number) {
  const radius = opticDiameter_mm / 2;
  const bare = new Uint8Array(STEPS);
  let farthest = 0;
  for (const point of outline) {
    const distance = hypot(point[0] - centre[0], point[1] - centre[1]);
    farthest = Math.max(farthest, distance);
    if (distance > radius) bare[stepOf(atan2(point[1] - centre[1], point[0] - centre[0]))] = 1;
  }
  for (let ray = 0; ray < STEPS * RAYS_PER_STEP; ray++) {
    const angle = (Math.PI * 2 * (ray + 0.5)) / (STEPS * RAYS_PER_STEP);
    if (farthestCrossing(outline, centre, angle) > radius) bare[stepOf(angle)] = 1;
  }
  return { opticOverlapSmallest_mm: radius - farthest, opticUncovered_clock_h: rangesOf(bare) };
}

function stepOf(angle_rad: number): number {
  return Math.floor((clockHourOf(angle_rad) * STEPS) / 12) % STEPS;
}

function rangesOf(bare: Uint8Array): (readonly [number, number])[] {
  const covered = bare.indexOf(0);
  if (covered < 0) return [[0, 12]];
  const ranges: (readonly [number, number])[] = [];
  let start = -1;
  // Begins at a covered step, so that a range over 12 o'clock stays whole.
  for (let k = 1; k <= STEPS; k++) {
    const step = (covered + k) % STEPS;
    if (bare[step] === 1 && start < 0) start = step;
    if (bare[step] === 0 && start >= 0) {
      ranges.push([start / 10, step === 0 ? 12 : step / 10]);
      start = -1;
    }
  }
  return ranges.sort((a, b) => a[0] - b[0]);
}

import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { Vec2 } from '../world/contract.ts';

/*
 * Faults of a margin, found on an evenly resampled counter-clockwise outline. The length scales are ours (assumed):
 * well above the size of the mesh at a torn edge (about 0.12 mm at most) and well below anything a surgeon would call round.
 */

/** Length of margin on each side over which a kink is measured, mm. */
export const KINK_SPAN_mm = 0.3;
/** A nick reaches at least this far outward of its base, mm. */
export const NICK_DEPTH_mm = 0.1;
/** A nick's base is at most this wide, mm. */
export const NICK_BASE_mm = 0.6;
/** A nick is at least this deep for the width of its base: its apex is sharper than about 67 degrees. */
export const NICK_SHARPNESS = 0.75;

/**
 * Largest turn of the margin, degrees 0 to 180: the angle between the chord that comes from 0.3 mm before a point and the chord
 * that goes to 0.3 mm after it. A circle of 5 mm has 6.9; a square's corner 90.
 */
export function largestKink_deg(points: readonly Vec2[], spacing_mm: number): number {
  const n = points.length;
  const span = Math.min(Math.max(Math.round(KINK_SPAN_mm / spacing_mm), 1), Math.floor(n / 3));
  let largest = 0;
  for (let i = 0; i < n; i++) {
    const a = points[(i - span + n) % n];
    const b = points[i];
    const c = points[(i + span) % n];
    const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
    largest = Math.max(largest, Math.abs(atan2(ux * vy - uy * vx, ux * vx + uy * vy)));
  }
  return (largest * 180) / Math.PI;
}

interface Pocket {
  readonly from: number;
  readonly to: number;
  readonly depth_mm: number;
}

/**
 * Depths of the radial nicks, mm, longest first. A nick is a stretch of margin, at most half of it, that reaches more than
 * 0.1 mm outward of the chord across its base, where the base is at most 0.6 mm and at most 1.33 times the depth.
 * Corners and waves are not nicks, nor are tags that stand inward.
 */
export function nickDepths_mm(points: readonly Vec2[]): number[] {
  const taken = new Uint8Array(points.length);
  const depths: number[] = [];
  for (const pocket of findPockets(points).sort((a, b) => b.depth_mm - a.depth_mm || a.from - b.from)) {
    if (!claim(taken, pocket)) continue;
    depths.push(pocket.depth_mm);
  }
  return depths;
}

/** Marks a pocket's margin as spoken for; false when a deeper nick has some of it already. */
function claim(taken: Uint8Array, { from, to }: Pocket): boolean {
  for (let i = from; i <= to; i++) if (taken[i % taken.length] === 1) return false;
  for (let i = from; i <= to; i++) taken[i % taken.length] = 1;
  return true;
}

function findPockets(points: readonly Vec2[]): Pocket[] {
  const n = points.length;
  const pockets: Pocket[] = [];
  for (let from = 0; from < n; from++) {
    const a = points[from];
    for (let to = from + 2; to <= from + n / 2; to++) {
      const b = points[to % n];
      const base = hypot(b[0] - a[0], b[1] - a[1]);
      if (base > NICK_BASE_mm || base === 0) continue;
      const depth_mm = pocketDepth(points, from, to, base);
      if (depth_mm > NICK_DEPTH_mm && depth_mm >= NICK_SHARPNESS * base) pockets.push({ from, to, depth_mm });
    }
  }
  return pockets;
}

/** How far the margin between two points reaches to the right of the chord, which is outward on a counter-clockwise outline. */
function pocketDepth(points: readonly Vec2[], from: number, to: number, base: number): number {
  const n = points.length;
  const a = points[from];
  const b = points[to % n];
  const outX = (b[1] - a[1]) / base;
  const outY = -(b[0] - a[0]) / base;
  let depth = 0;
  for (let i = from + 1; i < to; i++) {
    const point = points[i % n];
    depth = Math.max(depth, (point[0] - a[0]) * outX + (point[1] - a[1]) * outY);
  }
  return depth;
}

/** Height added to triangles that lie upper side down, mm, so that a flap laid flat is drawn over what it lies on. */
const TURNED_BIAS_mm = 0.12;
/** Above this (bias included) a triangle is drawn over the iris instead of under it. */
export const HIGH_mm = 0.1;
/** Low, rising heights, and last what the iris hides. */
const BINS = 96;
const HIDDEN = BINS - 1;
const TALLEST_mm = 3.2;

/** A triangle that lies flat is still drawn with a corner this far outside of the pupil, mm: its side may reach in. */
export const UNDER_IRIS_mm = 0.4;

/** Triangles of a sheet from the lowest up. */
export interface SheetOrder {
  /** Node indices, 3 per triangle, sorted; owned by the caller, same length as the input. */
  readonly sorted: Uint32Array;
  /** Triangles before this one are low. */
  readonly lowCount: number;
  /** Triangles before this one are seen; the rest lies flat under the iris. */
  readonly seenCount: number;
}

/** The hole in the iris, mm. */
export interface Pupil {
  readonly centre_mm: readonly [number, number];
  readonly radius_mm: number;
}

/**
 * Sorts triangles by height for painting from the bottom up, in linear time.
 *
 * @param position 3 per node, mm
 * @param triangle 3 node indices per triangle
 * @param piece 1 per triangle; a free piece counts as high
 * @param pupil low triangles wholly outside of it are hidden
 * @param sorted receives the indices
 * @param isHigh receives 1 for each node that belongs to a high triangle; one per node
 */
export function orderSheet(
  position: Float32Array,
  triangle: Uint32Array,
  piece: Uint8Array,
  pupil: Pupil,
  sorted: Uint32Array,
  isHigh: Uint8Array,
): SheetOrder {
  const count = triangle.length / 3;
  const bin = new Uint8Array(count);
  const start = new Uint32Array(BINS + 1);
  isHigh.fill(0);
  for (let t = 0; t < count; t++) {
    const height = heightBin(position, triangle, t, piece[t] === 1);
    bin[t] = height === 0 && outside(position, triangle, t, pupil) ? HIDDEN : height;
    start[bin[t]! + 1]!++;
    if (height > 0) for (let k = 0; k < 3; k++) isHigh[triangle[3 * t + k]!] = 1;
  }
  for (let b = 0; b < BINS; b++) start[b + 1]! += start[b]!;
  const lowCount = start[1]!;
  const seenCount = start[HIDDEN]!;
  for (let t = 0; t < count; t++) {
    const at = start[bin[t]!]!++;
    for (let k = 0; k < 3; k++) sorted[3 * at + k] = triangle[3 * t + k]!;
  }
  return { sorted, lowCount, seenCount };
}

/** 0 for low triangles, then by height. */
function heightBin(position: Float32Array, triangle: Uint32Array, t: number, free: boolean): number {
  const a = 3 * triangle[3 * t]!;
  const b = 3 * triangle[3 * t + 1]!;
  const c = 3 * triangle[3 * t + 2]!;
  const ax = position[a]!;
  const ay = position[a + 1]!;
  const twiceArea = (position[b]! - ax) * (position[c + 1]! - ay) - (position[c]! - ax) * (position[b + 1]! - ay);
  const mean = (position[a + 2]! + position[b + 2]! + position[c + 2]!) / 3;
  const height = mean + (twiceArea < 0 || free ? TURNED_BIAS_mm : 0);
  if (!(height > HIGH_mm)) return 0;
  return Math.min(HIDDEN - 1, 1 + Math.floor((height / TALLEST_mm) * (BINS - 3)));
}

/** True when no corner lies inside of the pupil; triangles are small against it. */
function outside(position: Float32Array, triangle: Uint32Array, t: number, { centre_mm, radius_mm }: Pupil): boolean {
  for (let k = 0; k < 3; k++) {
    const node = 3 * triangle[3 * t + k]!;
    const dx = position[node]! - centre_mm[0];
    const dy = position[node + 1]! - centre_mm[1];
    if (dx * dx + dy * dy < radius_mm * radius_mm) return false;
  }
  return true;
}

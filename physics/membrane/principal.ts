/** Principal stretches and axes of a triangle from the places of its three nodes. Equations: model.md, "Membrane". */

/** Slots of a triangle's values; those of material.ts come first. */
export const L1 = 6;
export const L2 = 7;
/** Reference axis of the larger stretch, N1 = (cos, sin); N2 = (-sin, cos). */
export const COS = 8;
export const SIN = 9;
/** Spatial axes n1, n2, n3, three numbers each. */
export const AXES = 10;
export const VALUES = 19;

/** Stretches below this are treated as this when a direction has collapsed; the energy there is the residual only. */
const COLLAPSED = 1e-9;
/** Relative difference of stretches under which they count as equal. */
const EQUAL_STRETCHES = 1e-13;

/**
 * Writes stretches l1 >= l2 > 0 and axes of triangle t to `values`, from slot `at` on.
 * @param triangle 3 nodes per triangle @param gradient 6 per triangle, 1/mm, see membrane.ts @param x 3 per node, mm
 */
export function principalFrame(
  triangle: Int32Array,
  gradient: Float64Array,
  x: Float64Array,
  t: number,
  values: Float64Array,
  at: number,
): void {
  const a = triangle[t * 3] * 3;
  const b = triangle[t * 3 + 1] * 3;
  const c = triangle[t * 3 + 2] * 3;
  const g = t * 6;
  const gbx = gradient[g + 2];
  const gby = gradient[g + 3];
  const gcx = gradient[g + 4];
  const gcy = gradient[g + 5];
  const b0 = x[b] - x[a];
  const b1 = x[b + 1] - x[a + 1];
  const b2 = x[b + 2] - x[a + 2];
  const c0 = x[c] - x[a];
  const c1 = x[c + 1] - x[a + 1];
  const c2 = x[c + 2] - x[a + 2];
  const u0 = b0 * gbx + c0 * gcx;
  const u1 = b1 * gbx + c1 * gcx;
  const u2 = b2 * gbx + c2 * gcx;
  const v0 = b0 * gby + c0 * gcy;
  const v1 = b1 * gby + c1 * gcy;
  const v2 = b2 * gby + c2 * gcy;
  const c11 = u0 * u0 + u1 * u1 + u2 * u2;
  const c22 = v0 * v0 + v1 * v1 + v2 * v2;
  const c12 = u0 * v0 + u1 * v1 + u2 * v2;
  const mean = 0.5 * (c11 + c22);
  const half = 0.5 * (c11 - c22);
  const radius = Math.sqrt(half * half + c12 * c12);
  // area ratio from the cross product: exact where l2 is small
  const w0 = u1 * v2 - u2 * v1;
  const w1 = u2 * v0 - u0 * v2;
  const w2 = u0 * v1 - u1 * v0;
  const ratio = Math.sqrt(w0 * w0 + w1 * w1 + w2 * w2);
  const l1 = Math.max(COLLAPSED, Math.sqrt(mean + radius));
  let cos = 1;
  let sin = 0;
  if (radius > EQUAL_STRETCHES * mean) {
    if (half >= 0) {
      cos = Math.sqrt(0.5 * (1 + half / radius));
      sin = c12 / (2 * radius * cos);
    } else {
      sin = Math.sqrt(0.5 * (1 - half / radius));
      cos = c12 / (2 * radius * sin);
    }
  }
  values[at + L1] = l1;
  values[at + L2] = Math.min(l1, Math.max(COLLAPSED, ratio / l1));
  values[at + COS] = cos;
  values[at + SIN] = sin;
  const n = at + AXES;
  alongFirst(u0 * cos + v0 * sin, u1 * cos + v1 * sin, u2 * cos + v2 * sin, values, n);
  if (ratio > COLLAPSED) {
    values[n + 6] = w0 / ratio;
    values[n + 7] = w1 / ratio;
    values[n + 8] = w2 / ratio;
  } else anyNormal(values, n);
  // n2 = n3 x n1
  values[n + 3] = values[n + 7] * values[n + 2] - values[n + 8] * values[n + 1];
  values[n + 4] = values[n + 8] * values[n] - values[n + 6] * values[n + 2];
  values[n + 5] = values[n + 6] * values[n + 1] - values[n + 7] * values[n];
}

/** n1 along e = F N1. */
function alongFirst(e0: number, e1: number, e2: number, values: Float64Array, n: number): void {
  const length = Math.sqrt(e0 * e0 + e1 * e1 + e2 * e2);
  const some = length > COLLAPSED;
  values[n] = some ? e0 / length : 1;
  values[n + 1] = some ? e1 / length : 0;
  values[n + 2] = some ? e2 / length : 0;
}

/** n3 of a triangle that has collapsed to a line: any normal square to n1 serves. */
function anyNormal(values: Float64Array, n: number): void {
  const along = Math.abs(values[n + 2]) < 0.9 ? 2 : 0;
  const d = values[n + along];
  const n0 = (along === 0 ? 1 : 0) - d * values[n];
  const n1 = -d * values[n + 1];
  const n2 = (along === 2 ? 1 : 0) - d * values[n + 2];
  const scale = 1 / Math.sqrt(n0 * n0 + n1 * n1 + n2 * n2);
  values[n + 6] = n0 * scale;
  values[n + 7] = n1 * scale;
  values[n + 8] = n2 * scale;
}

/** Stiffness of the membrane, made positive semi-definite triangle by triangle; see model.md, "Stiffness of a triangle". */
import { BLOCK, type BlockMatrix, findBlock } from './block-matrix.ts';
import { W1, W2, W11, W12, W22 } from './material.ts';
import { GRADIENTS, type Membrane } from './membrane.ts';
import { AXES, COS, L1, L2, SIN, VALUES } from './principal.ts';

/** Positions in the matrix of the nine blocks of each triangle, row node major. */
export function triangleBlocks(membrane: Membrane, matrix: BlockMatrix): Int32Array {
  const { triangle, triangleCount } = membrane;
  const places = new Int32Array(triangleCount * 9);
  for (let t = 0; t < triangleCount; t++)
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++)
        places[t * 9 + a * 3 + b] = findBlock(matrix, triangle[t * 3 + a], triangle[t * 3 + b]) * BLOCK;
  return places;
}

/** Local stiffness coefficients in the principal frame, times the triangle's volume where they are used. */
const local = { w11: 0, w12: 0, w22: 0, alpha: 0, beta: 0, out1: 0, out2: 0 };

/** Second derivatives in the principal frame, made positive semi-definite mode by mode. */
function localStiffness(values: Float64Array, v: number): void {
  const l1 = values[v + L1];
  const l2 = values[v + L2];
  const w1 = values[v + W1];
  const w2 = values[v + W2];
  let a = values[v + W11];
  let b = values[v + W12];
  let d = values[v + W22];
  const flipWhenEqual = a - b;
  const mean = 0.5 * (a + d);
  const half = 0.5 * (a - d);
  const radius = Math.sqrt(half * half + b * b);
  if (mean - radius < 0) {
    // keep the positive eigenvalue only
    const top = Math.max(0, mean + radius);
    const c2 = radius > 0 ? half / radius : 1;
    const s2 = radius > 0 ? b / radius : 0;
    a = 0.5 * top * (1 + c2);
    d = 0.5 * top * (1 - c2);
    b = 0.5 * top * s2;
  }
  local.w11 = a;
  local.w12 = b;
  local.w22 = d;
  const gap = l1 - l2;
  const flip = gap > 1e-6 * l1 ? (w1 - w2) / gap : flipWhenEqual;
  const twist = (w1 + w2) / (l1 + l2);
  const f = Math.max(0, flip);
  const w = Math.max(0, twist);
  local.alpha = 0.5 * (f + w);
  local.beta = 0.5 * (f - w);
  local.out1 = Math.max(0, w1 / l1);
  local.out2 = Math.max(0, w2 / Math.max(l2, 1e-3));
}

/** Gradients of the three shape functions along N1 and N2. */
const along = new Float64Array(3);
const across = new Float64Array(3);

/**
 * Adds the projected stiffness (mN/mm) of values from `evaluateMembrane` to the matrix.
 * @param places from `triangleBlocks`
 */
export function addMembraneStiffness(
  membrane: Membrane,
  values: Float64Array,
  matrix: BlockMatrix,
  places: Int32Array,
): void {
  const { gradient, area_mm2, thickness_mm } = membrane;
  for (let t = 0; t < membrane.triangleCount; t++) {
    const v = t * VALUES;
    const cos = values[v + COS];
    const sin = values[v + SIN];
    localStiffness(values, v);
    for (let a = 0; a < 3; a++) {
      const g = t * GRADIENTS + a * 2;
      along[a] = cos * gradient[g] + sin * gradient[g + 1];
      across[a] = cos * gradient[g + 1] - sin * gradient[g];
    }
    const volume = area_mm2[t] * thickness_mm;
    const at = t * 9;
    addPair(0, 0, volume, values, v + AXES, matrix.values, places[at], -1);
    addPair(0, 1, volume, values, v + AXES, matrix.values, places[at + 1], places[at + 3]);
    addPair(0, 2, volume, values, v + AXES, matrix.values, places[at + 2], places[at + 6]);
    addPair(1, 1, volume, values, v + AXES, matrix.values, places[at + 4], -1);
    addPair(1, 2, volume, values, v + AXES, matrix.values, places[at + 5], places[at + 7]);
    addPair(2, 2, volume, values, v + AXES, matrix.values, places[at + 8], -1);
  }
}

/**
 * The block of nodes a, b in the principal frame, turned into space, R k R^T with the axes at slot `n`; added at `at` and, where
 * `mirror` is a place, transposed there.
 */
function addPair(
  a: number,
  b: number,
  volume: number,
  values: Float64Array,
  n: number,
  out: Float64Array,
  at: number,
  mirror: number,
): void {
  const pa = along[a];
  const qa = across[a];
  const pb = along[b];
  const qb = across[b];
  const k11 = volume * (local.w11 * pa * pb + local.alpha * qa * qb);
  const k12 = volume * (local.w12 * pa * qb + local.beta * qa * pb);
  const k21 = volume * (local.w12 * qa * pb + local.beta * pa * qb);
  const k22 = volume * (local.w22 * qa * qb + local.alpha * pa * pb);
  const k33 = volume * (local.out1 * pa * pb + local.out2 * qa * qb);
  const x0 = values[n];
  const y0 = values[n + 1];
  const z0 = values[n + 2];
  const x1 = values[n + 3];
  const y1 = values[n + 4];
  const z1 = values[n + 5];
  const x2 = values[n + 6];
  const y2 = values[n + 7];
  const z2 = values[n + 8];
  const rx1 = x0 * k11 + x1 * k21;
  const rx2 = x0 * k12 + x1 * k22;
  const rx3 = x2 * k33;
  const ry1 = y0 * k11 + y1 * k21;
  const ry2 = y0 * k12 + y1 * k22;
  const ry3 = y2 * k33;
  const rz1 = z0 * k11 + z1 * k21;
  const rz2 = z0 * k12 + z1 * k22;
  const rz3 = z2 * k33;
  const xx = rx1 * x0 + rx2 * x1 + rx3 * x2;
  const xy = rx1 * y0 + rx2 * y1 + rx3 * y2;
  const xz = rx1 * z0 + rx2 * z1 + rx3 * z2;
  const yx = ry1 * x0 + ry2 * x1 + ry3 * x2;
  const yy = ry1 * y0 + ry2 * y1 + ry3 * y2;
  const yz = ry1 * z0 + ry2 * z1 + ry3 * z2;
  const zx = rz1 * x0 + rz2 * x1 + rz3 * x2;
  const zy = rz1 * y0 + rz2 * y1 + rz3 * y2;
  const zz = rz1 * z0 + rz2 * z1 + rz3 * z2;
  out[at] += xx;
  out[at + 1] += xy;
  out[at + 2] += xz;
  out[at + 3] += yx;
  out[at + 4] += yy;
  out[at + 5] += yz;
  out[at + 6] += zx;
  out[at + 7] += zy;
  out[at + 8] += zz;
  if (mirror < 0) return;
  out[mirror] += xx;
  out[mirror + 1] += yx;
  out[mirror + 2] += zx;
  out[mirror + 3] += xy;
  out[mirror + 4] += yy;
  out[mirror + 5] += zy;
  out[mirror + 6] += xz;
  out[mirror + 7] += yz;
  out[mirror + 8] += zz;
}

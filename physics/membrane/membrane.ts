/**
 * The membrane on a triangle mesh: energy, nodal forces, stiffness. Flat reference disc, nodes free in space.
 * F is the 3x2 deformation gradient of a triangle, l1 >= l2 its principal stretches. Equations: model.md, "Membrane".
 */
import { BLOCK, type BlockMatrix, findBlock } from './block-matrix.ts';
import { ENERGY_SLOTS, type Material, W, W1, W2, W11, W12, W22 } from './material.ts';
import { evaluateRelaxed, SLACK_RESIDUAL } from './relaxed.ts';

/** Reference shape of each triangle: the gradients of its three shape functions, x and y (1/mm). */
export const GRADIENTS = 6;

export interface Membrane {
  readonly nodeCount: number;
  readonly triangleCount: number;
  /** 2 per node, mm. */
  readonly reference_mm: Float64Array;
  /** 3 per triangle, counter-clockwise in the reference disc. */
  readonly triangle: Int32Array;
  /** 6 per triangle, 1/mm. */
  readonly gradient: Float64Array;
  /** 1 per triangle, mm^2. */
  readonly area_mm2: Float64Array;
  readonly material: Material;
  readonly thickness_mm: number;
  /** Whether compression is relaxed away; off in checks against linear elasticity. */
  readonly tensionField: boolean;
  readonly residual_kPa: number;
}

export function createMembrane(
  reference_mm: Float64Array,
  triangle: Int32Array,
  material: Material,
  thickness_mm: number,
  options: { tensionField?: boolean; residualShare?: number } = {},
): Membrane {
  const triangleCount = triangle.length / 3;
  const gradient = new Float64Array(triangleCount * GRADIENTS);
  const area_mm2 = new Float64Array(triangleCount);
  for (let t = 0; t < triangleCount; t++) {
    const a = triangle[t * 3] * 2;
    const b = triangle[t * 3 + 1] * 2;
    const c = triangle[t * 3 + 2] * 2;
    const abx = reference_mm[b] - reference_mm[a];
    const aby = reference_mm[b + 1] - reference_mm[a + 1];
    const acx = reference_mm[c] - reference_mm[a];
    const acy = reference_mm[c + 1] - reference_mm[a + 1];
    const twice = abx * acy - aby * acx;
    if (!(twice > 0)) throw new Error(`triangle ${t} has no positive area in the reference disc (twice ${twice} mm2)`);
    area_mm2[t] = 0.5 * twice;
    const g = t * GRADIENTS;
    gradient[g + 2] = acy / twice;
    gradient[g + 3] = -acx / twice;
    gradient[g + 4] = -aby / twice;
    gradient[g + 5] = abx / twice;
    gradient[g] = -gradient[g + 2] - gradient[g + 4];
    gradient[g + 1] = -gradient[g + 3] - gradient[g + 5];
  }
  const share = options.residualShare ?? SLACK_RESIDUAL;
  return {
    nodeCount: reference_mm.length / 2,
    triangleCount,
    reference_mm,
    triangle,
    gradient,
    area_mm2,
    material,
    thickness_mm,
    tensionField: options.tensionField ?? true,
    residual_kPa: share * material.youngModulus_kPa,
  };
}

/** Stretches below this are treated as this when a direction has collapsed; the energy there is the residual only. */
const COLLAPSED = 1e-9;
/** Relative difference of stretches under which they count as equal. */
const EQUAL_STRETCHES = 1e-13;

/** Principal frame of one triangle: filled by `principalFrame`. */
const frame = {
  l1: 0,
  l2: 0,
  c: 1,
  s: 0,
  n: new Float64Array(9),
};
const energy = new Float64Array(ENERGY_SLOTS);

/** Principal stretches, reference axes N1 = (c, s), N2 = (-s, c), and spatial axes n1, n2, n3 of triangle t. */
function principalFrame(membrane: Membrane, x: Float64Array, t: number): void {
  const { triangle, gradient } = membrane;
  const a = triangle[t * 3] * 3;
  const b = triangle[t * 3 + 1] * 3;
  const c = triangle[t * 3 + 2] * 3;
  const g = t * GRADIENTS;
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
  const l2 = Math.min(l1, Math.max(COLLAPSED, ratio / l1));
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
  frame.l1 = l1;
  frame.l2 = l2;
  frame.c = cos;
  frame.s = sin;
  spatialAxes(u0 * cos + v0 * sin, u1 * cos + v1 * sin, u2 * cos + v2 * sin, w0, w1, w2, ratio);
}

/** n1 along F N1, n3 along the normal where there is one, n2 = n3 x n1. */
function spatialAxes(e0: number, e1: number, e2: number, w0: number, w1: number, w2: number, ratio: number): void {
  const n = frame.n;
  const length = Math.sqrt(e0 * e0 + e1 * e1 + e2 * e2);
  if (length > COLLAPSED) {
    n[0] = e0 / length;
    n[1] = e1 / length;
    n[2] = e2 / length;
  } else {
    n[0] = 1;
    n[1] = 0;
    n[2] = 0;
  }
  if (ratio > COLLAPSED) {
    n[6] = w0 / ratio;
    n[7] = w1 / ratio;
    n[8] = w2 / ratio;
  } else {
    // collapsed to a line: any normal square to n1 serves
    const along = Math.abs(n[2]) < 0.9 ? 2 : 0;
    const d = n[along];
    n[6] = (along === 0 ? 1 : 0) - d * n[0];
    n[7] = -d * n[1];
    n[8] = (along === 2 ? 1 : 0) - d * n[2];
    const scale = 1 / Math.sqrt(n[6] * n[6] + n[7] * n[7] + n[8] * n[8]);
    n[6] *= scale;
    n[7] *= scale;
    n[8] *= scale;
  }
  n[3] = n[7] * n[2] - n[8] * n[1];
  n[4] = n[8] * n[0] - n[6] * n[2];
  n[5] = n[6] * n[1] - n[7] * n[0];
}

function evaluate(membrane: Membrane): void {
  const { material } = membrane;
  if (membrane.tensionField) evaluateRelaxed(material, membrane.residual_kPa, frame.l1, frame.l2, energy);
  else material.evaluate(frame.l1, frame.l2, energy);
}

/** Stored energy, mN mm. `x` has 3 per node, mm. */
export function membraneEnergy(membrane: Membrane, x: Float64Array): number {
  let sum = 0;
  for (let t = 0; t < membrane.triangleCount; t++) {
    principalFrame(membrane, x, t);
    evaluate(membrane);
    sum += energy[W] * membrane.area_mm2[t];
  }
  return sum * membrane.thickness_mm;
}

/** Adds the energy's gradient (mN) to `out`, 3 per node. @returns the energy, mN mm. */
export function addMembraneForces(membrane: Membrane, x: Float64Array, out: Float64Array): number {
  const { triangle, gradient, area_mm2, thickness_mm } = membrane;
  const n = frame.n;
  let sum = 0;
  for (let t = 0; t < membrane.triangleCount; t++) {
    principalFrame(membrane, x, t);
    evaluate(membrane);
    const volume = area_mm2[t] * thickness_mm;
    sum += energy[W] * volume;
    addTriangleForces(t, volume, n, triangle, gradient, out);
  }
  return sum;
}

function addTriangleForces(
  t: number,
  volume: number,
  n: Float64Array,
  triangle: Int32Array,
  gradient: Float64Array,
  out: Float64Array,
): void {
  const s1 = energy[W1] * volume;
  const s2 = energy[W2] * volume;
  for (let k = 0; k < 3; k++) {
    const g = t * GRADIENTS + k * 2;
    const p = s1 * (frame.c * gradient[g] + frame.s * gradient[g + 1]);
    const q = s2 * (frame.c * gradient[g + 1] - frame.s * gradient[g]);
    const a = triangle[t * 3 + k] * 3;
    out[a] += p * n[0] + q * n[3];
    out[a + 1] += p * n[1] + q * n[4];
    out[a + 2] += p * n[2] + q * n[5];
  }
}

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

/** Local stiffness coefficients in the principal frame; see model.md, "Stiffness of a triangle". */
const local = { w11: 0, w12: 0, w22: 0, alpha: 0, beta: 0, out1: 0, out2: 0 };

/** Second derivatives in the principal frame, made positive semi-definite mode by mode. */
function localStiffness(): void {
  const { l1, l2 } = frame;
  let a = energy[W11];
  let b = energy[W12];
  let d = energy[W22];
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
  const flip = gap > 1e-6 * l1 ? (energy[W1] - energy[W2]) / gap : energy[W11] - energy[W12];
  const twist = (energy[W1] + energy[W2]) / (l1 + l2);
  const f = Math.max(0, flip);
  const w = Math.max(0, twist);
  local.alpha = 0.5 * (f + w);
  local.beta = 0.5 * (f - w);
  local.out1 = Math.max(0, energy[W1] / l1);
  local.out2 = Math.max(0, energy[W2] / Math.max(l2, 1e-3));
}

const m = new Float64Array(9);

/**
 * Adds forces (mN) and projected stiffness (mN/mm): one pass over the triangles.
 * @param places from `triangleBlocks` @returns the energy, mN mm
 */
export function addMembraneStiffness(
  membrane: Membrane,
  x: Float64Array,
  out: Float64Array,
  matrix: BlockMatrix,
  places: Int32Array,
): number {
  const { triangle, gradient, area_mm2, thickness_mm } = membrane;
  const n = frame.n;
  const values = matrix.values;
  let sum = 0;
  for (let t = 0; t < membrane.triangleCount; t++) {
    principalFrame(membrane, x, t);
    evaluate(membrane);
    const volume = area_mm2[t] * thickness_mm;
    sum += energy[W] * volume;
    addTriangleForces(t, volume, n, triangle, gradient, out);
    localStiffness();
    for (let a = 0; a < 3; a++) {
      const ga = t * GRADIENTS + a * 2;
      const pa = frame.c * gradient[ga] + frame.s * gradient[ga + 1];
      const qa = frame.c * gradient[ga + 1] - frame.s * gradient[ga];
      for (let b = a; b < 3; b++) {
        const gb = t * GRADIENTS + b * 2;
        const pb = frame.c * gradient[gb] + frame.s * gradient[gb + 1];
        const qb = frame.c * gradient[gb + 1] - frame.s * gradient[gb];
        rotateBlock(pa, qa, pb, qb, volume, n);
        addBlock(values, places[t * 9 + a * 3 + b]);
        if (b !== a) addTransposed(values, places[t * 9 + b * 3 + a]);
      }
    }
  }
  return sum;
}

/** The block of nodes a, b in the principal frame, turned into space: m = R k R^T. */
function rotateBlock(pa: number, qa: number, pb: number, qb: number, volume: number, n: Float64Array): void {
  const k11 = volume * (local.w11 * pa * pb + local.alpha * qa * qb);
  const k12 = volume * (local.w12 * pa * qb + local.beta * qa * pb);
  const k21 = volume * (local.w12 * qa * pb + local.beta * pa * qb);
  const k22 = volume * (local.w22 * qa * qb + local.alpha * pa * pb);
  const k33 = volume * (local.out1 * pa * pb + local.out2 * qa * qb);
  for (let i = 0; i < 3; i++) {
    const r1 = n[i] * k11 + n[3 + i] * k21;
    const r2 = n[i] * k12 + n[3 + i] * k22;
    const r3 = n[6 + i] * k33;
    m[i * 3] = r1 * n[0] + r2 * n[3] + r3 * n[6];
    m[i * 3 + 1] = r1 * n[1] + r2 * n[4] + r3 * n[7];
    m[i * 3 + 2] = r1 * n[2] + r2 * n[5] + r3 * n[8];
  }
}

function addBlock(values: Float64Array, at: number): void {
  for (let q = 0; q < 9; q++) values[at + q] += m[q];
}

function addTransposed(values: Float64Array, at: number): void {
  values[at] += m[0];
  values[at + 1] += m[3];
  values[at + 2] += m[6];
  values[at + 3] += m[1];
  values[at + 4] += m[4];
  values[at + 5] += m[7];
  values[at + 6] += m[2];
  values[at + 7] += m[5];
  values[at + 8] += m[8];
}

/** What one triangle carries, for views, checks and the tip force. */
export interface TriangleState {
  l1: number;
  l2: number;
  /** Energy per reference area, mN/mm. */
  energy_mN_per_mm: number;
  /** Principal nominal line tensions, mN/mm. */
  tension1_mN_per_mm: number;
  tension2_mN_per_mm: number;
  /** Reference axis of the larger stretch: (cos, sin). */
  cos: number;
  sin: number;
  /** Spatial axes n1, n2, n3; overwritten by the next call. */
  axes: Float64Array;
}

/** Fills `state` for triangle t. */
export function triangleState(membrane: Membrane, x: Float64Array, t: number, state: TriangleState): void {
  principalFrame(membrane, x, t);
  evaluate(membrane);
  const thickness = membrane.thickness_mm;
  state.l1 = frame.l1;
  state.l2 = frame.l2;
  state.energy_mN_per_mm = energy[W] * thickness;
  state.tension1_mN_per_mm = energy[W1] * thickness;
  state.tension2_mN_per_mm = energy[W2] * thickness;
  state.cos = frame.c;
  state.sin = frame.s;
  state.axes.set(frame.n);
}

export const createTriangleState = (): TriangleState => ({
  l1: 1,
  l2: 1,
  energy_mN_per_mm: 0,
  tension1_mN_per_mm: 0,
  tension2_mN_per_mm: 0,
  cos: 1,
  sin: 0,
  axes: new Float64Array(9),
});

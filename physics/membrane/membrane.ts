/**
 * The membrane on a triangle mesh: energy, nodal forces, stiffness. Flat reference disc, nodes free in space.
 * F is the 3x2 deformation gradient of a triangle, l1 >= l2 its principal stretches. Equations: model.md, "Membrane".
 */
import { Unmeshable } from '../core/unmeshable.ts';
import { ENERGY_SLOTS, type Material, W, W1, W2 } from './material.ts';
import { AXES, COS, L1, L2, principalFrame, SIN, VALUES } from './principal.ts';
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
    if (!(twice > 0))
      throw new Unmeshable(`triangle ${t} has no positive area in the reference disc (twice ${twice} mm2)`);
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

const energy = new Float64Array(ENERGY_SLOTS);

/**
 * Writes what triangle t carries at `x` to `values`, from slot `at` on: energy density and its derivatives (kPa, the slots of
 * material.ts), then the principal frame (the slots of principal.ts).
 */
function evaluateTriangle(membrane: Membrane, x: Float64Array, t: number, values: Float64Array, at: number): void {
  principalFrame(membrane.triangle, membrane.gradient, x, t, values, at);
  const { material } = membrane;
  const l1 = values[at + L1];
  const l2 = values[at + L2];
  if (membrane.tensionField) evaluateRelaxed(material, membrane.residual_kPa, l1, l2, energy);
  else material.evaluate(l1, l2, energy);
  for (let q = 0; q < ENERGY_SLOTS; q++) values[at + q] = energy[q];
}

/** Writes what every triangle carries at `x` to `values`, VALUES slots per triangle. `x` has 3 per node, mm. */
export function evaluateMembrane(membrane: Membrane, x: Float64Array, values: Float64Array): void {
  for (let t = 0; t < membrane.triangleCount; t++) evaluateTriangle(membrane, x, t, values, t * VALUES);
}

/** Stored energy, mN mm, of values from `evaluateMembrane`. */
export function energyOf(membrane: Membrane, values: Float64Array): number {
  const { area_mm2 } = membrane;
  let sum = 0;
  for (let t = 0; t < membrane.triangleCount; t++) sum += values[t * VALUES + W] * area_mm2[t];
  return sum * membrane.thickness_mm;
}

/** Adds the energy's gradient (mN) of evaluated values to `out`, 3 per node. @returns the energy, mN mm */
export function addForcesOf(membrane: Membrane, values: Float64Array, out: Float64Array): number {
  const { triangle, gradient, area_mm2, thickness_mm } = membrane;
  let sum = 0;
  for (let t = 0; t < membrane.triangleCount; t++) {
    const v = t * VALUES;
    const volume = area_mm2[t] * thickness_mm;
    sum += values[v + W] * volume;
    const s1 = values[v + W1] * volume;
    const s2 = values[v + W2] * volume;
    const c = values[v + COS];
    const s = values[v + SIN];
    const n0 = values[v + AXES];
    const n1 = values[v + AXES + 1];
    const n2 = values[v + AXES + 2];
    const n3 = values[v + AXES + 3];
    const n4 = values[v + AXES + 4];
    const n5 = values[v + AXES + 5];
    for (let k = 0; k < 3; k++) {
      const g = t * GRADIENTS + k * 2;
      const p = s1 * (c * gradient[g] + s * gradient[g + 1]);
      const q = s2 * (c * gradient[g + 1] - s * gradient[g]);
      const a = triangle[t * 3 + k] * 3;
      out[a] += p * n0 + q * n3;
      out[a + 1] += p * n1 + q * n4;
      out[a + 2] += p * n2 + q * n5;
    }
  }
  return sum;
}

/** Stored energy, mN mm. `x` has 3 per node, mm. */
export function membraneEnergy(membrane: Membrane, x: Float64Array): number {
  const values = new Float64Array(membrane.triangleCount * VALUES);
  evaluateMembrane(membrane, x, values);
  return energyOf(membrane, values);
}

/** Adds the energy's gradient (mN) to `out`, 3 per node. @returns the energy, mN mm. */
export function addMembraneForces(membrane: Membrane, x: Float64Array, out: Float64Array): number {
  const values = new Float64Array(membrane.triangleCount * VALUES);
  evaluateMembrane(membrane, x, values);
  return addForcesOf(membrane, values, out);
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

const one = new Float64Array(VALUES);

/** Fills `state` for triangle t. */
export function triangleState(membrane: Membrane, x: Float64Array, t: number, state: TriangleState): void {
  evaluateTriangle(membrane, x, t, one, 0);
  const thickness = membrane.thickness_mm;
  state.l1 = one[L1];
  state.l2 = one[L2];
  state.energy_mN_per_mm = one[W] * thickness;
  state.tension1_mN_per_mm = one[W1] * thickness;
  state.tension2_mN_per_mm = one[W2] * thickness;
  state.cos = one[COS];
  state.sin = one[SIN];
  for (let q = 0; q < 9; q++) state.axes[q] = one[AXES + q];
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

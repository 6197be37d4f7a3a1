/**
 * Everything that acts on the nodes in one place: membrane, folds, zonule ring, grip, floor and drag.
 * Energies in mN mm, forces in mN, stiffness in mN/mm, x in mm with 3 per node.
 */

import { analyse, type BlockCholesky } from './block-cholesky.ts';
import { BLOCK, type BlockMatrix, blockMatrixFromGroups } from './block-matrix.ts';
import { type EvaluatedPair, evaluatedAt, noneEvaluated } from './evaluated.ts';
import { addHingeStiffness, type Hinges } from './hinges.ts';
import type { Membrane } from './membrane.ts';
import { minimumDegreeOrder } from './ordering.ts';
import { addMembraneStiffness, triangleBlocks } from './stiffness.ts';

export interface Body {
  readonly membrane: Membrane;
  readonly hinges: Hinges;
  /** 1 per node, mN/mm: springs to `anchor`, for zonule and grip alike; 0 where there is none. */
  readonly spring_mN_per_mm: Float64Array;
  /** 3 per node, mm. */
  readonly anchor: Float64Array;
  /** 3 per node, mN: dead loads, used by checks. */
  readonly load: Float64Array;
  /** 1 per node, floor stiffness for z < 0, mN/mm. */
  readonly floor_mN_per_mm: Float64Array;
  /** 1 per node, mN s/mm: drag coefficient times nodal area. */
  readonly drag: Float64Array;
  readonly matrix: BlockMatrix;
  readonly factor: BlockCholesky;
  readonly places: Int32Array;
  /** The part of the stiffness that never changes (folds), in the matrix's order. */
  readonly constant: Float64Array;
  /** Evaluated states of this body. */
  readonly evaluated: EvaluatedPair;
}

export function createBody(membrane: Membrane, hinges: Hinges): Body {
  const n = membrane.nodeCount;
  const matrix = blockMatrixFromGroups(n, [{ nodes: membrane.triangle, stride: 3 }]);
  addHingeStiffness(hinges, matrix);
  return {
    membrane,
    hinges,
    spring_mN_per_mm: new Float64Array(n),
    anchor: new Float64Array(n * 3),
    load: new Float64Array(n * 3),
    floor_mN_per_mm: new Float64Array(n),
    drag: new Float64Array(n),
    matrix,
    factor: analyse(matrix, minimumDegreeOrder(matrix)),
    places: triangleBlocks(membrane, matrix),
    constant: matrix.values.slice(),
    evaluated: noneEvaluated(),
  };
}

/** Step of the incremental potential: the state it starts from and its length. */
export interface Increment {
  /** 3 per node, mm: state at the beginning. */
  readonly from: Float64Array;
  /** Drag is divided by this, s; Infinity gives the static problem. */
  dt_s: number;
}

/** Incremental potential, mN mm. */
export function potential(body: Body, increment: Increment, x: Float64Array): number {
  const { byArea, hinge } = evaluatedAt(body.evaluated, body.membrane, body.hinges, x);
  return byArea + hinge + addPointTerms(body, increment, x, null);
}

/** Writes the potential's gradient to `out`. @returns the potential. */
export function gradient(body: Body, increment: Increment, x: Float64Array, out: Float64Array): number {
  const { byVolume, hinge, force } = evaluatedAt(body.evaluated, body.membrane, body.hinges, x);
  out.set(force);
  return byVolume + hinge + addPointTerms(body, increment, x, out);
}

/** Writes the projected stiffness at `x` into the body's matrix. */
export function stiffness(body: Body, increment: Increment, x: Float64Array): void {
  const { matrix } = body;
  const { values } = evaluatedAt(body.evaluated, body.membrane, body.hinges, x);
  matrix.values.set(body.constant);
  matrix.elsewhere = false;
  addMembraneStiffness(body.membrane, values, matrix, body.places);
  for (let node = 0; node < matrix.nodeCount; node++) {
    const v = matrix.diagonal[node] * BLOCK;
    const k = planeStiffness(body, increment, node);
    matrix.values[v] += k;
    matrix.values[v + 4] += k;
    matrix.values[v + 8] += k + floorStiffness(body, x, node);
  }
}

/**
 * What every triangle carries at `x`: VALUES slots each, named in material.ts and principal.ts; stresses are per area of section,
 * times the membrane's thickness they are mN/mm. Not to be kept: overwritten when other states have been evaluated.
 */
export const triangleValues = (body: Body, x: Float64Array): Float64Array =>
  evaluatedAt(body.evaluated, body.membrane, body.hinges, x).values;

/** Springs, loads, floor and drag: energy, and forces when `out` is given. */
function addPointTerms(body: Body, increment: Increment, x: Float64Array, out: Float64Array | null): number {
  const { spring_mN_per_mm, anchor, load, floor_mN_per_mm, drag } = body;
  const { from, dt_s } = increment;
  let sum = 0;
  for (let node = 0; node < spring_mN_per_mm.length; node++) {
    const i = node * 3;
    const k = spring_mN_per_mm[node];
    const c = drag[node] / dt_s;
    for (let axis = 0; axis < 3; axis++) {
      const stretch = x[i + axis] - anchor[i + axis];
      const moved = x[i + axis] - from[i + axis];
      sum += 0.5 * k * stretch * stretch + 0.5 * c * moved * moved - load[i + axis] * x[i + axis];
      if (out) out[i + axis] += k * stretch + c * moved - load[i + axis];
    }
    const z = x[i + 2];
    if (z < 0) {
      sum += 0.5 * floor_mN_per_mm[node] * z * z;
      if (out) out[i + 2] += floor_mN_per_mm[node] * z;
    }
  }
  return sum;
}

/** Stiffness of a node's spring and drag, mN/mm. */
export const planeStiffness = (body: Body, increment: Increment, node: number): number =>
  body.spring_mN_per_mm[node] + body.drag[node] / increment.dt_s;

/** Stiffness of the floor under a node across the plane, mN/mm; 0 above it. */
export const floorStiffness = (body: Body, x: Float64Array, node: number): number =>
  x[node * 3 + 2] < 0 ? body.floor_mN_per_mm[node] : 0;

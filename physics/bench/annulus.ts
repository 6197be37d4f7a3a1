/** A ring of rubber under tension at its rim, put to the product's solver and, on the same triangles, to another. */

import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { power } from '../core/elementary/power.ts';
import { type Body, createBody } from '../membrane/body.ts';
import { noHinges } from '../membrane/hinges.ts';
import { neoHookean } from '../membrane/material.ts';
import { createMembrane } from '../membrane/membrane.ts';
import { createSolverState, solve } from '../membrane/solve.ts';

/** Shear modulus 1 kPa and thickness 1 mm: forces come out over mu t. */
const MU_kPa = 1;
const INNER_mm = 1;
const OUTER_mm = 4;
/** Stretch at which the rim is held: hoop stretch at the hole comes to about 1.66. */
export const ANNULUS_RIM_STRETCH = 1.2;
/** Springs that hold the rim over mu t; they give by about a part in 1e5. */
const CLAMP = 1e5;
/** Largest force out of balance that counts as solved, over the force on a rim node. */
const RESIDUAL = 1e-8;

export interface AnnulusSample {
  /** 2 per node, mm; 3 per triangle, counter-clockwise. */
  readonly reference_mm: Float64Array;
  readonly triangle: Int32Array;
  /** Nodes of the rim, which is held, and of the hole, which is free. */
  readonly rim: readonly number[];
  readonly hole: readonly number[];
  /** Solves from the evenly stretched ring on. Throws when the residual is not reached. */
  readonly solve: () => { readonly x_mm: Float64Array; readonly residualShare: number; readonly iterations: number };
}

/** @param around nodes on a circle @param across elements from hole to rim; the ring has 2 x around x across triangles */
export function annulusSample(around: number, across: number): AnnulusSample {
  const reference_mm = new Float64Array((across + 1) * around * 2);
  for (let ring = 0; ring <= across; ring++)
    for (let k = 0; k < around; k++) {
      const radius = INNER_mm * power(OUTER_mm / INNER_mm, ring / across);
      const angle = (2 * Math.PI * (k + 0.5 * (ring % 2))) / around;
      reference_mm[(ring * around + k) * 2] = radius * cos(angle);
      reference_mm[(ring * around + k) * 2 + 1] = radius * sin(angle);
    }
  const triangle = ringTriangles(around, across);
  const membrane = createMembrane(reference_mm, triangle, neoHookean(MU_kPa), 1, { tensionField: false });
  const rim = Array.from({ length: around }, (_, k) => across * around + k);
  const body = createBody(membrane, noHinges());
  holdRim(body, rim);
  return { reference_mm, triangle, rim, hole: Array.from({ length: around }, (_, k) => k), solve: () => toRest(body) };
}

function ringTriangles(around: number, across: number): Int32Array {
  const out: number[] = [];
  for (let ring = 0; ring < across; ring++)
    for (let k = 0; k < around; k++) {
      const next = (k + 1) % around;
      const [a, b] = [ring * around + k, ring * around + next];
      // odd rings are turned by half a side
      const outer = (ring + 1) * around;
      const [c, d] = [outer + k, outer + next];
      if (ring % 2 === 0) out.push(a, c, b, b, c, d);
      else out.push(a, d, b, a, c, d);
    }
  return Int32Array.from(out);
}

function holdRim(body: Body, rim: readonly number[]): void {
  const { reference_mm } = body.membrane;
  for (const node of rim) {
    body.spring_mN_per_mm[node] = CLAMP * MU_kPa;
    body.anchor[node * 3] = ANNULUS_RIM_STRETCH * reference_mm[node * 2];
    body.anchor[node * 3 + 1] = ANNULUS_RIM_STRETCH * reference_mm[node * 2 + 1];
  }
}

function toRest(body: Body) {
  const { reference_mm, nodeCount } = body.membrane;
  const x_mm = new Float64Array(nodeCount * 3);
  for (let node = 0; node < nodeCount; node++) {
    x_mm[node * 3] = ANNULUS_RIM_STRETCH * reference_mm[node * 2];
    x_mm[node * 3 + 1] = ANNULUS_RIM_STRETCH * reference_mm[node * 2 + 1];
  }
  // a rim node carries about mu t times its share of the rim
  const force_mN = MU_kPa * hypot(reference_mm[2] - reference_mm[0], reference_mm[3] - reference_mm[1]);
  const increment = { from: x_mm.slice(), dt_s: Infinity };
  const options = { tolerance_mN: RESIDUAL * force_mN, maxIterations: 60 };
  const { residual_mN, iterations } = solve(body, createSolverState(nodeCount), increment, x_mm, options);
  if (!(residual_mN <= options.tolerance_mN)) throw new Error(`the ring stopped at a residual of ${residual_mN} mN`);
  return { x_mm, residualShare: residual_mN / force_mN, iterations };
}

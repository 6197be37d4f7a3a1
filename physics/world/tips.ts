/** Tip forces in the world: the whole, the sheet's part with the pull let go, and how a tip lies in the living eye. */
import { GRADIENTS, type Membrane } from '../membrane/membrane.ts';
import { solve } from '../membrane/solve.ts';
import { tipFrame } from '../mesh/tear-line.ts';
import { tipForce } from '../tear/tip-force.ts';
import type { Tip, World } from './state.ts';

export function updateTipForces(world: World): void {
  for (const tip of world.tips) tip.force = tipForce(world.body.membrane, tip.patch, world.x);
}

/** Largest nodal residual of a state taken as at rest, mN. A thousandth of the smallest force that is shown. */
export const RESIDUAL_mN = 2e-3;

/**
 * The sheet's part of each tip force: the state that the present one would relax to with the pull let go at this
 * instant. Kept from call to call and carried along, so that few iterations are needed.
 */
export function updateSheetForces(world: World): void {
  if (world.tips.length === 0) return;
  const { sheetBody, body, mesh } = world;
  if (!world.grip) {
    world.sheet.set(world.x);
    for (const tip of world.tips) tip.sheet = [tip.force[0], tip.force[1]];
    world.sheetFresh = true;
    return;
  }
  const held = new Set(world.grip.nodes);
  for (let node = 0; node < mesh.nodeCount; node++)
    sheetBody.spring_mN_per_mm[node] = held.has(node) ? 0 : body.spring_mN_per_mm[node];
  sheetBody.anchor.set(body.anchor);
  const from = world.sheet.slice();
  solve(sheetBody, world.sheetSolver, { from, dt_s: LET_GO_s }, world.sheet, {
    tolerance_mN: 4 * RESIDUAL_mN,
    maxIterations: 25,
  });
  for (const tip of world.tips) tip.sheet = tipForce(sheetBody.membrane, tip.patch, world.sheet);
  world.sheetFresh = true;
}

/** Length of the step in which the let-go sheet comes to rest, s: long against its own relaxation. */
const LET_GO_s = 2;

/**
 * In-plane gradient of the sheet just ahead of a tip: reference vector to eye frame, 2x2 row by row. Triangles that are
 * folded over do not count: the flap says nothing about where the sheet ahead lies.
 */
export function aheadGradient(world: World, tip: Tip): [number, number, number, number] {
  const { membrane } = world.body;
  const { tx, ty } = tipFrame(tip.ref);
  const sum: [number, number, number, number] = [0, 0, 0, 0];
  const own: [number, number, number, number] = [0, 0, 0, 0];
  let area = 0;
  for (const t of tip.patch.triangles) {
    if (middleOf(membrane, t, 0, tip.patch.x) * tx + middleOf(membrane, t, 1, tip.patch.y) * ty <= 0) continue;
    own.fill(0);
    for (let k = 0; k < 3; k++) {
      const node = membrane.triangle[t * 3 + k] * 3;
      const g = t * GRADIENTS + k * 2;
      for (let i = 0; i < 2; i++)
        for (let j = 0; j < 2; j++) own[i * 2 + j] += world.x[node + i] * membrane.gradient[g + j];
    }
    if (own[0] * own[3] - own[1] * own[2] < UNFOLDED) continue;
    area += membrane.area_mm2[t];
    for (let k = 0; k < 4; k++) sum[k] += membrane.area_mm2[t] * own[k];
  }
  return area > 0 ? (sum.map((v) => v / area) as [number, number, number, number]) : [1, 0, 0, 1];
}

/** Least in-plane area ratio of a triangle that counts as lying flat. */
const UNFOLDED = 0.4;

const middleOf = ({ reference_mm, triangle }: Membrane, t: number, axis: 0 | 1, from: number): number =>
  (reference_mm[triangle[t * 3] * 2 + axis] +
    reference_mm[triangle[t * 3 + 1] * 2 + axis] +
    reference_mm[triangle[t * 3 + 2] * 2 + axis]) /
    3 -
  from;

/** A reference vector carried into the eye frame: direction by the gradient ahead, length kept. */
export function toEye(gradient: readonly number[], v: readonly [number, number]): [number, number] {
  const size = Math.hypot(v[0], v[1]);
  const x = gradient[0] * v[0] + gradient[1] * v[1];
  const y = gradient[2] * v[0] + gradient[3] * v[1];
  const length = Math.hypot(x, y);
  return length > 0 ? [(x * size) / length, (y * size) / length] : [0, 0];
}

/** Tip forces in the world: the whole, the sheet's part with the pull let go, and how a tip lies in the living eye. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { solve } from '../membrane/solve.ts';
import { tipForce } from '../tear/tip-force.ts';
import { faceRun, outerFaces } from './margins.ts';
import type { Tip, World } from './state.ts';

export function updateTipForces(world: World): void {
  for (const tip of world.tips) tip.force = tipForce(world.body.membrane, tip.patch, world.x);
}

/** Largest nodal residual of a state taken as at rest, mN. A thousandth of the smallest force that is shown. */
export const RESIDUAL_mN = 6e-3;

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
}

/** Length of the step in which the let-go sheet comes to rest, s: long against its own relaxation. */
const LET_GO_s = 2;

/** Length of torn margin behind a tip by which its direction is judged, in tip elements: about half a millimetre. */
const MARGIN_SPAN = 8;

/**
 * How the torn margin at a tip has turned between the unloaded disc and the eye, radians: the angle between the chords of its
 * outer side over the last half millimetre. Directions at the tip are carried into the eye by this turn, since the margin
 * is what a person sees; the gradient right at the tip is dominated by the tip's own opening and turns by tens of degrees.
 */
export function marginTurn(world: World, tip: Tip): number {
  const { mesh, x } = world;
  const run = faceRun(outerFaces(world, world.tears.indexOf(tip.ref.tear)));
  const { reference_mm } = mesh;
  const at = (k: number) => run[tip.ref.atEnd ? run.length - 1 - k : k];
  const far = MARGIN_SPAN * world.sizes.tip_mm;
  const end = at(0);
  let k = 1;
  const chord = (node: number): [number, number] => [
    reference_mm[end * 2] - reference_mm[node * 2],
    reference_mm[end * 2 + 1] - reference_mm[node * 2 + 1],
  ];
  while (k + 1 < run.length && hypot(...chord(at(k))) < far) k++;
  const back = at(k);
  const [rx, ry] = chord(back);
  const ex = x[end * 3] - x[back * 3];
  const ey = x[end * 3 + 1] - x[back * 3 + 1];
  return atan2(rx * ey - ry * ex, rx * ex + ry * ey);
}

/** A reference vector turned into the eye frame; its length is kept. */
export function toEye(turn: number, v: readonly [number, number]): [number, number] {
  const c = cos(turn);
  const s = sin(turn);
  return [c * v[0] - s * v[1], s * v[0] + c * v[1]];
}

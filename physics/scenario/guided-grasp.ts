/** Where a guided hand grasps the flap: on the tissue as it lies now, on top. */
import { hypot } from '../core/elementary/hypot.ts';
import { barycentric, blend, cornersAt } from '../mesh/barycentric.ts';
import type { TipView, Vec2, WorldView } from '../world/contract.ts';
import { innerRun, trackOf } from './guided-sight.ts';
import type { GuidedState } from './guided-state.ts';

/** Tries in order: the asked place, then places farther along the edge and farther in, where the asked one lies under another fold. */
const GRASP_TRIES: readonly (readonly [number, number])[] = [
  [1, 1],
  [1.5, 1],
  [1, 1.6],
  [0.7, 0.8],
  [2, 1.5],
  [2.6, 1],
];

/** Where the flap should be grasped: behind the tip along the torn edge and inside of it, on the tissue as it lies now, on top. */
export function graspPlace(state: GuidedState, view: WorldView, tip: TipView): [number, number, number] | null {
  const { hand } = state;
  let first: [number, number, number] | null = null;
  for (const [behind, inside] of GRASP_TRIES) {
    const wanted = referenceGrasp(state, view, tip, behind * hand.graspBehind_mm, inside * hand.graspInside_mm);
    const place = wanted && placeOf(view, wanted);
    if (!place) continue;
    first ??= place;
    if (!coveredAt(view, place)) return place;
  }
  return first;
}

/** Whether another layer lies over a place. */
function coveredAt(view: WorldView, place: readonly [number, number, number]): boolean {
  const { triangle, position_mm: p } = view;
  for (let t = 0; t < triangle.length; t += 3) {
    const nodes = cornersAt(triangle, t);
    const { weights } = barycentric(p, 3, nodes, place[0], place[1]);
    if (!(Math.min(...weights) >= 0)) continue;
    if (blend(p, 3, 2, nodes, weights) > place[2] + COVER_mm) return true;
  }
  return false;
}

/** A layer this much higher covers what is under it, mm. */
const COVER_mm = 0.02;

/** Reference place behind and inside of the tip: along the tear's own line by length, then square off it. */
function referenceGrasp(
  state: GuidedState,
  view: WorldView,
  tip: TipView,
  behind: number,
  inside: number,
): Vec2 | null {
  const run = innerRun(state, view, tip);
  if (!run) return null;
  let left = behind;
  for (let k = 0; k + 1 < run.length; k++) {
    const ax = view.reference_mm[run[k] * 2];
    const ay = view.reference_mm[run[k] * 2 + 1];
    const bx = view.reference_mm[run[k + 1] * 2];
    const by = view.reference_mm[run[k + 1] * 2 + 1];
    const size = hypot(bx - ax, by - ay);
    if (left > size && k + 2 < run.length) {
      left -= size;
      continue;
    }
    const u = Math.min(1, left / size);
    const s = trackOf(state, tip).sense;
    // the run goes backward from the tip, so its left is the tear's right
    const nx = ((by - ay) / size) * s;
    const ny = (-(bx - ax) / size) * s;
    return [ax + u * (bx - ax) + inside * nx, ay + u * (by - ay) + inside * ny];
  }
  return null;
}

/** Eye-frame place of a reference place: interpolated in the triangle that holds it. */
export function placeOf(view: WorldView, at: Vec2): [number, number, number] | null {
  const { triangle, reference_mm: r, position_mm: p } = view;
  let best: [number, number, number] | null = null;
  let most = -0.3;
  for (let t = 0; t < triangle.length; t += 3) {
    const nodes = cornersAt(triangle, t);
    const { weights } = barycentric(r, 2, nodes, at[0], at[1]);
    const low = Math.min(...weights);
    if (low <= most) continue;
    most = low;
    best = [0, 1, 2].map((i) => nodes.reduce((sum, node, k) => sum + weights[k] * p[node * 3 + i], 0)) as [
      number,
      number,
      number,
    ];
    if (low >= 0) break;
  }
  return best;
}

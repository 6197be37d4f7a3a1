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
    const edge: Vec2 = [ax + u * (bx - ax), ay + u * (by - ay)];
    const depth = state.hand.start === 'needle' ? depthBetween(view, edge, [nx, ny], inside) : inside;
    return depth === null ? null : [edge[0] + depth * nx, edge[1] + depth * ny];
  }
  return null;
}

/** A strip between two torn lines narrower than this cannot be taken, mm in the unloaded disc: the jaws need room on both sides. */
const NARROWEST_mm = 0.3;

/**
 * How far in from an edge to take the tissue, at most `inside`, mm: where a tear has gone round its own beginning, beyond the next line lies
 * other tissue, which does not hang on this tip. The middle between the two lines, null where they are too near.
 */
function depthBetween(view: WorldView, edge: Vec2, normal: Vec2, inside: number): number | null {
  const room = distanceAlong(view, edge, normal);
  if (room >= 2 * inside) return inside;
  return room < NARROWEST_mm ? null : 0.5 * room;
}

/** Nearest torn line ahead of a place that lies on one, mm in the unloaded disc; infinite where there is none. */
function distanceAlong({ margins, reference_mm: r }: WorldView, [x, y]: Vec2, [nx, ny]: Vec2): number {
  let nearest = Infinity;
  for (const run of margins)
    for (let k = 0; k + 1 < run.length; k++) {
      const [a, b] = [run[k] * 2, run[k + 1] * 2];
      const [ax, ay] = [r[a] - x, r[a + 1] - y];
      const [dx, dy] = [r[b] - r[a], r[b + 1] - r[a + 1]];
      const across = nx * dy - ny * dx;
      if (across === 0) continue;
      const distance = (ax * dy - ay * dx) / across;
      const along = (ax * ny - ay * nx) / across;
      if (distance > OWN_LINE_mm && along >= 0 && along <= 1) nearest = Math.min(nearest, distance);
    }
  return nearest;
}

/** Nearer than this is the line that the place lies on, mm. */
const OWN_LINE_mm = 0.02;

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

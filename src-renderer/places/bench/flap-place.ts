import type { TipView, Vec2, WorldView } from '../../../physics/index.ts';

/** Nodes closer than this in the unloaded disc are the same place, mm. */
const SAME_mm = 1e-3;
/** A place this far outside of every triangle still counts as on the nearest one, in triangle coordinates. */
const OUTSIDE = 0.3;

/**
 * Where a place of the flap is seen now: so far behind the tip along the torn edge, and so far inside of that edge.
 *
 * @param centre_mm middle of the target, which the flap lies toward
 * @returns the place on the stage, eye frame, mm; null where the tear is too short or not found in the view
 */
export function flapPlace(
  view: WorldView,
  tip: TipView,
  centre_mm: Vec2,
  behind_mm: number,
  inside_mm: number,
): Vec2 | null {
  const run = tearBehind(view, tip);
  const at =
    run === null ? null : stepBehind(view.reference_mm, run, behind_mm, inside_mm, centreOnLeft(tip, centre_mm));
  return at === null ? null : seenAt(view, at);
}

/** True when the centre lies to the left of the tear's direction, so that the flap does too. */
function centreOnLeft(tip: TipView, centre_mm: Vec2): boolean {
  const angle = (tip.tangent_deg * Math.PI) / 180;
  const toCentre = [centre_mm[0] - tip.position_mm[0], centre_mm[1] - tip.position_mm[1]] as const;
  return Math.cos(angle) * toCentre[1] - Math.sin(angle) * toCentre[0] > 0;
}

/** Nodes of a torn margin from the tip backward. */
function tearBehind(view: WorldView, tip: TipView): readonly number[] | null {
  const near = (node: number | undefined) =>
    node !== undefined &&
    Math.hypot(
      view.reference_mm[2 * node]! - tip.reference_mm[0],
      view.reference_mm[2 * node + 1]! - tip.reference_mm[1],
    ) < SAME_mm;
  for (const margin of view.margins) {
    if (near(margin[margin.length - 1])) return [...margin].reverse();
    if (near(margin[0])) return [...margin];
  }
  return null;
}

function stepBehind(
  reference: Float32Array,
  run: readonly number[],
  behind_mm: number,
  inside_mm: number,
  left: boolean,
): Vec2 | null {
  let way = behind_mm;
  for (let k = 0; k + 1 < run.length; k++) {
    const [ax, ay] = [reference[2 * run[k]!]!, reference[2 * run[k]! + 1]!];
    const [dx, dy] = [reference[2 * run[k + 1]!]! - ax, reference[2 * run[k + 1]! + 1]! - ay];
    const length = Math.hypot(dx, dy);
    if (way > length || length === 0) {
      way -= length;
      continue;
    }
    // the run goes backward, so the tear's left is its right
    const side = (left ? 1 : -1) * (inside_mm / length);
    return [ax + (way / length) * dx + side * dy, ay + (way / length) * dy - side * dx];
  }
  return null;
}

/** Place on the stage of a place of the unloaded disc, in the triangle that holds it best. */
function seenAt({ triangle, reference_mm: r, position_mm: p }: WorldView, [x, y]: Vec2): Vec2 | null {
  let best: Vec2 | null = null;
  let most = -OUTSIDE;
  for (let t = 0; t < triangle.length && most < 0; t += 3) {
    const [a, b, c] = [triangle[t]!, triangle[t + 1]!, triangle[t + 2]!];
    const [bx, by] = [r[2 * b]! - r[2 * a]!, r[2 * b + 1]! - r[2 * a + 1]!];
    const [cx, cy] = [r[2 * c]! - r[2 * a]!, r[2 * c + 1]! - r[2 * a + 1]!];
    const twiceArea = bx * cy - by * cx;
    const [px, py] = [x - r[2 * a]!, y - r[2 * a + 1]!];
    const wb = (px * cy - py * cx) / twiceArea;
    const wc = (bx * py - by * px) / twiceArea;
    const low = Math.min(wb, wc, 1 - wb - wc);
    if (!(low > most)) continue;
    most = low;
    const at = (k: 0 | 1) =>
      p[3 * a + k]! + wb * (p[3 * b + k]! - p[3 * a + k]!) + wc * (p[3 * c + k]! - p[3 * a + k]!);
    best = [at(0), at(1)];
  }
  return best;
}

import type { Vec2, WorldView } from '../../physics/index.ts';

/** Distance between strokes in the unloaded disc, mm. */
const SPACING_mm = 0.42;
/** Below this share of the full tension the capsule counts as slack: no stroke. */
const SLACK_SHARE = 0.06;

const ROWS = [0, 1, 2] as const;

/** One stroke: its middle in the eye, the direction of the larger principal tension, and that tension. */
export interface PrincipalStroke {
  readonly at_mm: Vec2;
  /** Unit vector on the stage; both ways are the same. */
  readonly direction: Vec2;
  readonly tension_mN_per_mm: number;
}

/**
 * Strokes along the larger principal tension, spread evenly over what lies flat. The material is isotropic, so tension and
 * stretch have the same axes: in each triangle the larger eigenvector N of C = F^T F, carried into the eye as F N.
 *
 * @param isHigh 1 for nodes of lifted or folded tissue, which is left out
 */
export function principalStrokes(
  view: WorldView,
  isHigh: Uint8Array,
  full_mN_per_mm: number,
): readonly PrincipalStroke[] {
  const strokes: PrincipalStroke[] = [];
  for (const t of spreadTriangles(view, isHigh)) {
    const tension = view.tension_mN_per_mm[t]!;
    if (!(tension > SLACK_SHARE * full_mN_per_mm)) continue;
    const stroke = strokeOf(view, t);
    if (stroke !== null) strokes.push({ ...stroke, tension_mN_per_mm: tension });
  }
  return strokes;
}

/** For each cell of a grid in the unloaded disc the triangle nearest to its middle. */
function spreadTriangles(view: WorldView, isHigh: Uint8Array): Iterable<number> {
  const { triangle, reference_mm: r } = view;
  const best = new Map<number, number>();
  const distance = new Map<number, number>();
  for (let t = 0; 3 * t < triangle.length; t++) {
    const [a, b, c] = [triangle[3 * t]!, triangle[3 * t + 1]!, triangle[3 * t + 2]!];
    if (isHigh[a] === 1 || isHigh[b] === 1 || isHigh[c] === 1) continue;
    const x = (r[2 * a]! + r[2 * b]! + r[2 * c]!) / 3 / SPACING_mm;
    const y = (r[2 * a + 1]! + r[2 * b + 1]! + r[2 * c + 1]!) / 3 / SPACING_mm;
    const cell = 1000 * Math.round(x) + Math.round(y);
    const off = (x - Math.round(x)) ** 2 + (y - Math.round(y)) ** 2;
    if (off < (distance.get(cell) ?? Number.POSITIVE_INFINITY)) {
      distance.set(cell, off);
      best.set(cell, t);
    }
  }
  return best.values();
}

function strokeOf(view: WorldView, t: number): Omit<PrincipalStroke, 'tension_mN_per_mm'> | null {
  const { triangle, reference_mm: r, position_mm: p } = view;
  const a = triangle[3 * t]!;
  const b = triangle[3 * t + 1]!;
  const c = triangle[3 * t + 2]!;
  const ux = r[2 * b]! - r[2 * a]!;
  const uy = r[2 * b + 1]! - r[2 * a + 1]!;
  const vx = r[2 * c]! - r[2 * a]!;
  const vy = r[2 * c + 1]! - r[2 * a + 1]!;
  const area = ux * vy - uy * vx;
  if (Math.abs(area) < 1e-12) return null;
  // F maps the two sides of the unloaded triangle to its sides in the eye: three rows of two, of which the map is made
  const row = (k: 0 | 1 | 2, nx: number, ny: number): number => {
    const d = p[3 * b + k]! - p[3 * a + k]!;
    const e = p[3 * c + k]! - p[3 * a + k]!;
    return (nx * (d * vy - e * uy) + ny * (e * ux - d * vx)) / area;
  };
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const k of ROWS) {
    const x = row(k, 1, 0);
    const y = row(k, 0, 1);
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const sx = row(0, Math.cos(angle), Math.sin(angle));
  const sy = row(1, Math.cos(angle), Math.sin(angle));
  const length = Math.hypot(sx, sy);
  if (!(length > 1e-9)) return null;
  return {
    at_mm: [(p[3 * a]! + p[3 * b]! + p[3 * c]!) / 3, (p[3 * a + 1]! + p[3 * b + 1]! + p[3 * c + 1]!) / 3],
    direction: [sx / length, sy / length],
  };
}

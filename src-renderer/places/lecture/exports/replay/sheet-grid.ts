import type { WorldView } from '../../../../../physics/index.ts';
import { BARE, FOLDED, GRID_SIDE, TENSION_LEVELS } from './contract.ts';

export interface GridFrame {
  readonly centre_mm: readonly [number, number];
  readonly reach_mm: number;
  readonly tensionMost_mN_per_mm: number;
}

/**
 * The sheet as a map: for each cell the tension of the sheet there, or that tissue lies folded over it, or nothing.
 * Cell centres are tested against the triangles as they lie in the eye.
 */
export function sheetGrid(view: WorldView, { centre_mm, reach_mm, tensionMost_mN_per_mm }: GridFrame): Uint8Array {
  const grid = new Uint8Array(GRID_SIDE * GRID_SIDE).fill(BARE);
  const cell_mm = (2 * reach_mm) / GRID_SIDE;
  const column = (x_mm: number) => (x_mm - centre_mm[0] + reach_mm) / cell_mm - 0.5;
  const row = (y_mm: number) => (centre_mm[1] + reach_mm - y_mm) / cell_mm - 0.5;
  const at = view.position_mm;
  const levels = nodeLevels(view, tensionMost_mN_per_mm);
  for (let t = 0; t < view.triangle.length / 3; t++) {
    const [a, b, c] = [3 * view.triangle[3 * t]!, 3 * view.triangle[3 * t + 1]!, 3 * view.triangle[3 * t + 2]!];
    const corners = [column(at[a]!), row(at[a + 1]!), column(at[b]!), row(at[b + 1]!), column(at[c]!), row(at[c + 1]!)];
    // counter-clockwise from above unless folded over; rows count downward, which turns the sign
    const folded = doubleArea(corners) >= 0 || view.piece[t] === 1;
    const level = (corner: number) => (folded ? FOLDED : levels[corner / 3]!);
    fill(grid, corners, [level(a), level(b), level(c)]);
  }
  return grid;
}

/** Level of each node: the mean of the triangles about it, so that the mesh does not show. */
function nodeLevels(view: WorldView, tensionMost_mN_per_mm: number): Float32Array {
  const sum = new Float32Array(view.position_mm.length / 3);
  const count = new Float32Array(sum.length);
  for (const [at, node] of view.triangle.entries()) {
    sum[node]! += view.tension_mN_per_mm[Math.floor(at / 3)]!;
    count[node]! += 1;
  }
  return sum.map((tension, node) => {
    const share = Math.max(0, Math.min(1, tension / Math.max(1, count[node]!) / tensionMost_mN_per_mm));
    return 1 + share * (TENSION_LEVELS - 1);
  });
}

const doubleArea = ([ax, ay, bx, by, cx, cy]: readonly number[]): number =>
  (bx! - ax!) * (cy! - ay!) - (cx! - ax!) * (by! - ay!);

/** Writes the values between those of the corners into the cells whose centres a triangle covers, the largest staying. */
function fill(grid: Uint8Array, corners: readonly number[], [atA, atB, atC]: readonly [number, number, number]): void {
  const [ax, ay, bx, by, cx, cy] = corners as [number, number, number, number, number, number];
  const area = doubleArea(corners);
  if (!Number.isFinite(area) || area === 0) return;
  const clamp = (cell: number) => Math.max(0, Math.min(GRID_SIDE - 1, cell));
  const bottom = clamp(Math.floor(Math.max(ay, by, cy)));
  const right = clamp(Math.floor(Math.max(ax, bx, cx)));
  for (let y = clamp(Math.ceil(Math.min(ay, by, cy))); y <= bottom; y++)
    for (let x = clamp(Math.ceil(Math.min(ax, bx, cx))); x <= right; x++) {
      const u = ((bx - x) * (cy - y) - (cx - x) * (by - y)) / area;
      const v = ((cx - x) * (ay - y) - (ax - x) * (cy - y)) / area;
      if (u < 0 || v < 0 || u + v > 1) continue;
      const cell = y * GRID_SIDE + x;
      const value = Math.round(u * atA + v * atB + (1 - u - v) * atC);
      if (grid[cell]! < value) grid[cell] = value;
    }
}

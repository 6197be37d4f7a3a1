import { bad, ok, type Problem, type Result } from '../core/result.ts';
import type { Vec2 } from '../world/contract.ts';
import { type Outline, outlineMoments } from './outline.ts';

/** More points than this are refused: the search for crossings may compare every edge with every other. */
export const MAX_OUTLINE_POINTS = 20_000;
/** Larger coordinates are no eye: most likely pixels or micrometres. */
const LARGEST_COORDINATE_mm = 50;
const SMALLEST_AREA_mm2 = 0.01;

/**
 * Checks a closed outline in mm and makes it counter-clockwise, without repeated neighbours and without the first point
 * repeated at the end.
 *
 * @returns the outline, or all problems: fewer than 3 different points, too many, a coordinate that is not finite or
 *   beyond 50 mm, no area, edges that cross. Edges that only touch (a closed slit) are allowed.
 */
export function soundOutline(points: readonly (readonly [number, number])[], file: string): Result<Outline> {
  if (points.length > MAX_OUTLINE_POINTS) {
    return bad([{ file, path: '', found: `${points.length} points`, allowed: `at most ${MAX_OUTLINE_POINTS}` }]);
  }
  const wrong = points.flatMap((point, index) => coordinateProblems(point, index, file));
  if (wrong.length > 0) return bad(wrong);
  const different = withoutRepeats(points);
  if (different.length < 3) {
    return bad([{ file, path: '', found: `${different.length} different points`, allowed: 'at least 3' }]);
  }
  const { area_mm2 } = outlineMoments(different);
  const crossing = firstCrossing(different);
  if (crossing !== null) {
    const found = `edges that cross, from points ${crossing[0]} and ${crossing[1]}`;
    return bad([{ file, path: '', found, allowed: 'an outline that does not cross itself' }]);
  }
  if (Math.abs(area_mm2) < SMALLEST_AREA_mm2) {
    const found = `an area of ${Math.abs(area_mm2).toPrecision(2)} mm²`;
    return bad([{ file, path: '', found, allowed: `at least ${SMALLEST_AREA_mm2} mm²` }]);
  }
  return ok(area_mm2 > 0 ? different : different.toReversed());
}

function coordinateProblems(point: readonly [number, number], index: number, file: string): Problem[] {
  return [0, 1].flatMap((axis) => {
    const value: unknown = point?.[axis];
    if (typeof value === 'number' && Math.abs(value) <= LARGEST_COORDINATE_mm) return [];
    const allowed = `a number from -${LARGEST_COORDINATE_mm} to ${LARGEST_COORDINATE_mm}, mm`;
    return [{ file, path: `[${index}][${axis}]`, found: String(value), allowed }];
  });
}

function withoutRepeats(points: readonly Vec2[]): Vec2[] {
  const same = (a: Vec2, b: Vec2) => a[0] === b[0] && a[1] === b[1];
  const kept = points.filter((point, index) => index === 0 || !same(point, points[index - 1]));
  while (kept.length > 1 && same(kept[0], kept[kept.length - 1])) kept.pop();
  return kept;
}

/** Indices of the first points of two edges that properly cross, or null. Sweeps over x, so that far edges are never compared. */
function firstCrossing(outline: Outline): readonly [number, number] | null {
  const n = outline.length;
  const low = outline.map((point, i) => Math.min(point[0], outline[(i + 1) % n][0]));
  const high = outline.map((point, i) => Math.max(point[0], outline[(i + 1) % n][0]));
  const order = outline.map((_, i) => i).sort((i, j) => low[i] - low[j] || i - j);
  let active: number[] = [];
  for (const edge of order) {
    active = active.filter((other) => high[other] >= low[edge]);
    for (const other of active) {
      if (edgesCross(outline[edge], outline[(edge + 1) % n], outline[other], outline[(other + 1) % n])) {
        return [Math.min(edge, other), Math.max(edge, other)];
      }
    }
    active.push(edge);
  }
  return null;
}

function edgesCross(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const side = (p: Vec2, q: Vec2, r: Vec2) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { bad, ok, type Problem, type Result } from '../core/result.ts';
import type { Vec2 } from '../world/contract.ts';
import { largestKink_deg, nickDepths_mm } from './margin-faults.ts';
import type { OpeningMetrics } from './metrics.ts';
import { opticCover } from './optic-cover.ts';
import {
  clockHourOf,
  farthestCrossing,
  type Outline,
  outlineMoments,
  rayCrossings,
  resampleEvenly,
  smoothAlong,
} from './outline.ts';
import { soundOutline } from './sound-outline.ts';

/** What an opening is measured against. All in the frame of the outline. */
export interface OpeningReference {
  /** Reference centre (of pupil, limbus or lens): of the target circle and of the decentration. */
  readonly targetCentre_mm: Vec2;
  readonly targetDiameter_mm: number;
  readonly opticCentre_mm: Vec2;
  readonly opticDiameter_mm: number;
  /** Name for the problems; "outline" when absent. */
  readonly file?: string;
}

/** Directions over the whole turn in which radii are taken: every half degree. */
const DIRECTIONS = 720;
/** Points of the evenly resampled outline, about 0.015 mm apart on a usual opening. */
const RESAMPLED = 1024;
/**
 * Width (standard deviation) along the margin of the smoothing before circularity, mm; assumed. It takes out steps of
 * the size of the mesh (0.1 mm) that would lengthen the perimeter and leaves what a surgeon sees.
 */
export const CIRCULARITY_SMOOTHING_mm = 0.1;

/**
 * Measures a closed outline.
 *
 * - Area, centroid and perimeter are those of the polygon. Equivalent diameter: of the circle of the same area.
 * - Diameters are chords through the centroid (farthest crossing on either side), every half degree; nicks count.
 * - Circularity is 4 pi A / P^2 of the outline smoothed over 0.1 mm; the perimeter itself is not smoothed.
 * - Deviation is radial about the target centre in 720 even directions. Where a ray meets the margin more than once the
 *   crossing that is farthest off the target counts; where it meets none the whole target radius does.
 * - Overlap, kink and nicks: see optic-cover.ts and margin-faults.ts.
 *
 * @param points outline in mm, either way round, first point repeated at the end or not
 * @returns metrics, all finite; or the problems of the outline or the reference
 */
export function measureOpening(
  points: readonly (readonly [number, number])[],
  reference: OpeningReference,
): Result<OpeningMetrics> {
  const file = reference.file ?? 'outline';
  const wrong = referenceProblems(reference, file);
  if (wrong.length > 0) return bad(wrong);
  const sound = soundOutline(points, file);
  if (!sound.ok) return sound;
  const outline = sound.value;
  const { area_mm2, centroid_mm, perimeter_mm } = outlineMoments(outline);
  const even = resampleEvenly(outline, RESAMPLED);
  const spacing_mm = perimeter_mm / RESAMPLED;
  const nicks = nickDepths_mm(even);
  return ok({
    equivalentDiameter_mm: 2 * Math.sqrt(area_mm2 / Math.PI),
    ...diameters(outline, centroid_mm),
    area_mm2,
    perimeter_mm,
    ...decentration(centroid_mm, reference.targetCentre_mm),
    circularity: circularity(even, spacing_mm),
    ...deviation(outline, reference.targetCentre_mm, reference.targetDiameter_mm / 2),
    ...opticCover(outline, reference.opticCentre_mm, reference.opticDiameter_mm),
    largestKink_deg: largestKink_deg(even, spacing_mm),
    radialNicks: nicks.length,
    longestNick_mm: nicks[0] ?? 0,
  });
}

function referenceProblems(reference: OpeningReference, file: string): Problem[] {
  const sizes = (['targetDiameter_mm', 'opticDiameter_mm'] as const).flatMap((path) => {
    const value = reference[path];
    return value > 0 && value <= 50 ? [] : [{ file, path, found: String(value), allowed: 'above 0, at most 50 mm' }];
  });
  const centres = (['targetCentre_mm', 'opticCentre_mm'] as const).flatMap((path) => {
    const value = reference[path];
    if (value.every((coordinate) => Math.abs(coordinate) <= 50)) return [];
    return [{ file, path, found: String(value), allowed: 'two numbers from -50 to 50, mm' }];
  });
  return [...sizes, ...centres];
}

function diameters(outline: Outline, centroid: Vec2) {
  let largest = { length: 0, axis: 0 };
  let smallest = { length: Number.POSITIVE_INFINITY, axis: 0 };
  for (let k = 0; k < DIRECTIONS / 2; k++) {
    const angle = (2 * Math.PI * k) / DIRECTIONS;
    const length = farthestCrossing(outline, centroid, angle) + farthestCrossing(outline, centroid, angle + Math.PI);
    const axis = (360 * k) / DIRECTIONS;
    if (length > largest.length) largest = { length, axis };
    if (length < smallest.length) smallest = { length, axis };
  }
  return {
    largestDiameter_mm: largest.length,
    largestDiameterAxis_deg: largest.axis,
    smallestDiameter_mm: smallest.length,
    smallestDiameterAxis_deg: smallest.axis,
    axisRatio: largest.length > 0 ? smallest.length / largest.length : 0,
  };
}

function decentration(centroid: Vec2, centre: Vec2) {
  const [dx, dy] = [centroid[0] - centre[0], centroid[1] - centre[1]];
  return { centroidDistance_mm: hypot(dx, dy), centroidDirection_clock_h: clockHourOf(atan2(dy, dx)) };
}

function circularity(even: readonly Vec2[], spacing_mm: number): number {
  const { area_mm2, perimeter_mm } = outlineMoments(smoothAlong(even, spacing_mm, CIRCULARITY_SMOOTHING_mm));
  return perimeter_mm > 0 ? (4 * Math.PI * Math.max(area_mm2, 0)) / (perimeter_mm * perimeter_mm) : 0;
}

function deviation(outline: Outline, centre: Vec2, radius: number) {
  let squares = 0;
  let peak = 0;
  for (let k = 0; k < DIRECTIONS; k++) {
    const crossings = rayCrossings(outline, centre, (2 * Math.PI * k) / DIRECTIONS);
    const off = crossings.reduce((worst, distance) => Math.max(worst, Math.abs(distance - radius)), 0);
    const here = crossings.length === 0 ? radius : off;
    squares += here * here;
    peak = Math.max(peak, here);
  }
  return { rmsDeviation_mm: Math.sqrt(squares / DIRECTIONS), peakDeviation_mm: peak };
}

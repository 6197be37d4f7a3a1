/*
 * Plane geometry of a closed outline. An outline is a list of [x, y] in mm, closed without repeating the first point,
 * counter-clockwise once it went through `soundOutline`.
 */
import { cos, sin } from '../core/elementary/circular.ts';
import { exp } from '../core/elementary/exponential.ts';
import { hypot } from '../core/elementary/hypot.ts';
import type { Vec2 } from '../world/contract.ts';

export type Outline = readonly Vec2[];

export interface OutlineMoments {
  /** Positive for counter-clockwise, mm^2. */
  readonly area_mm2: number;
  readonly centroid_mm: Vec2;
  readonly perimeter_mm: number;
}

/** Exact area, area centroid and perimeter of the polygon (Gauss's area formula, about the first point for accuracy). */
export function outlineMoments(outline: Outline): OutlineMoments {
  const [x0, y0] = outline[0];
  let twiceArea = 0;
  let momentX = 0;
  let momentY = 0;
  let perimeter_mm = 0;
  for (let i = 0; i < outline.length; i++) {
    const [ax, ay] = [outline[i][0] - x0, outline[i][1] - y0];
    const next = outline[(i + 1) % outline.length];
    const [bx, by] = [next[0] - x0, next[1] - y0];
    const cross = ax * by - bx * ay;
    twiceArea += cross;
    momentX += (ax + bx) * cross;
    momentY += (ay + by) * cross;
    perimeter_mm += hypot(bx - ax, by - ay);
  }
  const centroid_mm: Vec2 =
    twiceArea === 0 ? outline[0] : [x0 + momentX / (3 * twiceArea), y0 + momentY / (3 * twiceArea)];
  return { area_mm2: twiceArea / 2, centroid_mm, perimeter_mm };
}

/**
 * Distances from `centre` at which a ray meets the outline, unsorted, mm; empty when it meets none.
 * An edge takes its first end and leaves its last, so that a ray through a point meets it once.
 */
export function rayCrossings(outline: Outline, centre: Vec2, angle_rad: number): number[] {
  const c = cos(angle_rad);
  const s = sin(angle_rad);
  const distances: number[] = [];
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i];
    const b = outline[(i + 1) % outline.length];
    // Coordinates along the ray (u) and to its left (v).
    const [ax, ay, bx, by] = [a[0] - centre[0], a[1] - centre[1], b[0] - centre[0], b[1] - centre[1]];
    const va = ay * c - ax * s;
    const vb = by * c - bx * s;
    if (va >= 0 === vb >= 0) continue;
    const ua = ax * c + ay * s;
    const ub = bx * c + by * s;
    const u = ua + ((ub - ua) * va) / (va - vb);
    if (u >= 0) distances.push(u);
  }
  return distances;
}

/** Farthest crossing of a ray, mm; 0 where it meets nothing. */
export function farthestCrossing(outline: Outline, centre: Vec2, angle_rad: number): number {
  return rayCrossings(outline, centre, angle_rad).reduce((far, distance) => Math.max(far, distance), 0);
}

/** `count` points evenly spaced along the outline, beginning at its first point. */
export function resampleEvenly(outline: Outline, count: number): Vec2[] {
  const { perimeter_mm } = outlineMoments(outline);
  const points: Vec2[] = [];
  let edge = 0;
  let passed = 0;
  for (let i = 0; i < count; i++) {
    const wanted = (perimeter_mm * i) / count;
    let length = edgeLength(outline, edge);
    while (edge < outline.length - 1 && passed + length < wanted) {
      passed += length;
      edge += 1;
      length = edgeLength(outline, edge);
    }
    const share = length > 0 ? Math.min((wanted - passed) / length, 1) : 0;
    const a = outline[edge];
    const b = outline[(edge + 1) % outline.length];
    points.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
  }
  return points;
}

function edgeLength(outline: Outline, edge: number): number {
  const a = outline[edge];
  const b = outline[(edge + 1) % outline.length];
  return hypot(b[0] - a[0], b[1] - a[1]);
}

const bell = (deviations: number): number => exp(-0.5 * (deviations * deviations));

/**
 * Points of an evenly spaced outline, each averaged with its neighbours by a Gaussian of the given width along the
 * outline. A circle stays a circle (a little smaller).
 */
export function smoothAlong(points: readonly Vec2[], spacing_mm: number, sigma_mm: number): Vec2[] {
  const reach = Math.min(Math.ceil((4 * sigma_mm) / spacing_mm), Math.floor((points.length - 1) / 2));
  const weights = Array.from({ length: reach + 1 }, (_, k) => bell((k * spacing_mm) / sigma_mm));
  const total = weights.reduce((sum, weight, k) => sum + (k === 0 ? weight : 2 * weight), 0);
  const n = points.length;
  return points.map((_, i) => {
    let x = 0;
    let y = 0;
    for (let k = -reach; k <= reach; k++) {
      const weight = weights[Math.abs(k)];
      const point = points[(i + k + n) % n];
      x += weight * point[0];
      y += weight * point[1];
    }
    return [x / total, y / total] as const;
  });
}

/** Clock hour (0 up to 12) of a direction given counter-clockwise from +x. 12 o'clock, written 0, is +y; 3 is +x. */
export function clockHourOf(angle_rad: number): number {
  const hour = (3 - (angle_rad * 6) / Math.PI) % 12;
  return hour < 0 ? hour + 12 : hour;
}

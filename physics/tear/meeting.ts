/** Where a tip that advances meets a tear (its own included). */
import { hypot } from '../core/elementary/hypot.ts';
import type { TearLine, TipRef } from '../mesh/tear-line.ts';

export interface Meeting {
  readonly tear: TearLine;
  /** Segment that is met, by its first vertex, and the place on it. */
  readonly segment: number;
  readonly x: number;
  readonly y: number;
}

/**
 * The nearest place on any tear within `reach_mm` of the advance from (x0, y0) to (x1, y1), not counting the tip's own
 * last `own_mm` of line. Null when there is none.
 */
export function meetingOf(
  tears: readonly TearLine[],
  tip: TipRef,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  reach_mm: number,
  own_mm: number,
): Meeting | null {
  let best: Meeting | null = null;
  let nearest = reach_mm;
  for (const tear of tears) {
    const count = tear.points.length / 2;
    let first = 0;
    let last = count - 2;
    if (tear === tip.tear) {
      let length = 0;
      if (tip.atEnd) while (last >= 0 && length < own_mm) length += segmentLength(tear.points, last--);
      else while (first <= last && length < own_mm) length += segmentLength(tear.points, first++);
    }
    for (let s = first; s <= last; s++) {
      const [ax, ay, bx, by] = tear.points.slice(2 * s, 2 * s + 4);
      const crossing = crossingOf(x0, y0, x1, y1, ax, ay, bx, by);
      const [qx, qy] = crossing ?? closestOn(ax, ay, bx, by, x1, y1);
      const d = crossing ? 0 : hypot(qx - x1, qy - y1);
      if (d < nearest || (crossing && !best)) {
        nearest = d;
        best = { tear, segment: s, x: qx, y: qy };
      }
    }
  }
  return best;
}

const segmentLength = (p: number[], s: number): number => hypot(p[2 * s + 2] - p[2 * s], p[2 * s + 3] - p[2 * s + 1]);

function closestOn(ax: number, ay: number, bx: number, by: number, x: number, y: number): [number, number] {
  const dx = bx - ax;
  const dy = by - ay;
  const u = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return [ax + u * dx, ay + u * dy];
}

function crossingOf(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): [number, number] | null {
  const ux = x1 - x0;
  const uy = y1 - y0;
  const vx = bx - ax;
  const vy = by - ay;
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-15) return null;
  const s = ((ax - x0) * vy - (ay - y0) * vx) / det;
  const r = ((ax - x0) * uy - (ay - y0) * ux) / det;
  return s >= 0 && s <= 1 && r >= 0 && r <= 1 ? [x0 + s * ux, y0 + s * uy] : null;
}

/**
 * Makes the meeting a vertex of both tears. A vertex nearer than `snap_mm` is used as it stands, otherwise one is put in.
 * @returns the shared vertex
 */
export function joinAt(meeting: Meeting, snap_mm: number): [number, number] {
  const { points } = meeting.tear;
  const s = meeting.segment;
  for (const k of [s, s + 1])
    if (hypot(points[2 * k] - meeting.x, points[2 * k + 1] - meeting.y) < snap_mm)
      return [points[2 * k], points[2 * k + 1]];
  points.splice(2 * s + 2, 0, meeting.x, meeting.y);
  return [meeting.x, meeting.y];
}

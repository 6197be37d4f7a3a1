/** What a person marks on a photograph, in its pixels (x to the right, y downward), and the outline in mm that follows. */
import { bad, ok, type Problem, type Result, type Vec2 } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { number } from '../../../ui/format.ts';

export interface PhotoMarks {
  /** The two ends of the known length; fewer while they are being set. */
  readonly ends_px: readonly Vec2[];
  /** What the known length is, mm; text while it is no number. */
  readonly known_mm: number | string;
  readonly margin_px: readonly Vec2[];
  /** Reference centre; null means the middle of the known length. */
  readonly centre_px: Vec2 | null;
}

/** Shorter than this a known length says little about the scale: a click is a pixel or two off. Assumed. */
const SHORTEST_LENGTH_px = 20;
/** An eye's parts and a ruler's marks lie in this span, mm. */
export const KNOWN_LIMITS_mm: readonly [number, number] = [1, 50];

/** A new photograph. 11.7 mm is the mean horizontal corneal diameter of adults (Rüfer 2005); the person sets their own. */
export const noMarks: PhotoMarks = { ends_px: [], known_mm: 11.7, margin_px: [], centre_px: null };

/** Millimetres per pixel, or what is still missing or wrong. */
export function scaleOf({ ends_px, known_mm }: PhotoMarks): Result<number> {
  const problem = (path: string, found: string, allowed: string): Problem => ({
    file: t('logbook.problem.photograph'),
    path,
    found,
    allowed,
  });
  const length = t('logbook.problem.knownLength');
  const [a, b] = ends_px;
  const problems: Problem[] = [];
  const [low, high] = KNOWN_LIMITS_mm;
  if (typeof known_mm !== 'number' || !(known_mm >= low && known_mm <= high)) {
    problems.push(problem(length, `"${known_mm}"`, t('logbook.problem.range', { low, high })));
  }
  if (a === undefined || b === undefined) {
    const found = t('logbook.problem.ends', { count: ends_px.length });
    problems.push(problem(length, found, t('logbook.problem.bothEnds')));
    return bad(problems);
  }
  const length_px = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length_px < SHORTEST_LENGTH_px) {
    const allowed = t('logbook.problem.atLeastPixels', { length: SHORTEST_LENGTH_px });
    problems.push(problem(length, t('logbook.problem.pixels', { length: number(length_px, 0) }), allowed));
  }
  return problems.length > 0 || typeof known_mm !== 'number' ? bad(problems) : ok(known_mm / length_px);
}

/** Where the reference centre is on the photograph; null before there is a known length. */
export function centreOf({ centre_px, ends_px }: PhotoMarks): Vec2 | null {
  if (centre_px !== null) return centre_px;
  const [a, b] = ends_px;
  return a === undefined || b === undefined ? null : [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** The margin in mm about the reference centre, y upward. Whether it makes a sound outline is for the measuring to say. */
export function marginOf(marks: PhotoMarks): Result<readonly Vec2[]> {
  const scale = scaleOf(marks);
  const centre = centreOf(marks);
  const few: Problem[] = marks.margin_px.length < 3 ? [fewPoints(marks.margin_px.length)] : [];
  if (!scale.ok) return bad([...scale.problems, ...few]);
  if (few.length > 0 || centre === null) return bad(few);
  return ok(marks.margin_px.map(([x, y]): Vec2 => [(x - centre[0]) * scale.value, (centre[1] - y) * scale.value]));
}

const fewPoints = (count: number): Problem => ({
  file: t('logbook.problem.photograph'),
  path: t('logbook.problem.margin'),
  found: t('logbook.problem.points', { count }),
  allowed: t('logbook.problem.atLeastPoints'),
});

/**
 * Adds a point to the margin: into the edge that it lies on, within `reach_px`, else at the end.
 * The edge that closes the margin is the end.
 */
export function withMarginPoint(marks: PhotoMarks, point: Vec2, reach_px: number): PhotoMarks {
  const { margin_px } = marks;
  let at = margin_px.length;
  let nearest = reach_px;
  for (let i = 0; i + 1 < margin_px.length; i++) {
    const distance = distanceToEdge(point, margin_px[i]!, margin_px[i + 1]!);
    if (distance >= nearest) continue;
    nearest = distance;
    at = i + 1;
  }
  return { ...marks, margin_px: margin_px.toSpliced(at, 0, point) };
}

function distanceToEdge(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2));
  return Math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy);
}

/** One of the marks, by name: an end of the known length, a point of the margin, the centre. */
export type MarkName = { readonly of: 'end' | 'margin'; readonly index: number } | { readonly of: 'centre' };

export function withMark(marks: PhotoMarks, name: MarkName, to: Vec2): PhotoMarks {
  if (name.of === 'centre') return { ...marks, centre_px: to };
  const key = name.of === 'end' ? 'ends_px' : 'margin_px';
  return { ...marks, [key]: marks[key].with(name.index, to) };
}

export function withoutMark(marks: PhotoMarks, name: MarkName): PhotoMarks {
  if (name.of === 'centre') return { ...marks, centre_px: null };
  const key = name.of === 'end' ? 'ends_px' : 'margin_px';
  return { ...marks, [key]: marks[key].toSpliced(name.index, 1) };
}

export function markAt(marks: PhotoMarks, name: MarkName): Vec2 | null {
  if (name.of === 'centre') return centreOf(marks);
  return (name.of === 'end' ? marks.ends_px : marks.margin_px)[name.index] ?? null;
}

/** A tear as a line in the reference disc. Several may exist. */

import { hypot } from '../core/elementary/hypot.ts';

/**
 * What an end of a tear is: able to run; spent, where it ran and has met a tear or the zonules; resting for good (a blunt cut); or joined
 * to another tear or the rim from the start.
 */
export type EndKind = 'live' | 'spent' | 'blunt' | 'joined';

export interface TearLine {
  readonly id: number;
  /** x,y of each vertex from start to end, mm, reference disc. */
  points: number[];
  startKind: EndKind;
  endKind: EndKind;
}

/** One end of a tear. */
export interface TipRef {
  readonly tear: TearLine;
  readonly atEnd: boolean;
}

function endsThatAre(kinds: readonly EndKind[], tears: readonly TearLine[]): TipRef[] {
  const ends: TipRef[] = [];
  for (const tear of tears) {
    if (kinds.includes(tear.startKind)) ends.push({ tear, atEnd: false });
    if (kinds.includes(tear.endKind)) ends.push({ tear, atEnd: true });
  }
  return ends;
}

export const liveTips = (tears: readonly TearLine[]): TipRef[] => endsThatAre(['live'], tears);

/** Ends with rings of fine elements: those that can run, and those that ran, where coarser elements would store far more of the tip's stretch. */
export const ringedEnds = (tears: readonly TearLine[]): TipRef[] => endsThatAre(['live', 'spent'], tears);

/** Reference place of a tip and its unit forward tangent, from the chord over the last `span_mm` of the line. */
export function tipFrame(tip: TipRef, span_mm = 0): { x: number; y: number; tx: number; ty: number } {
  const { points } = tip.tear;
  const count = points.length / 2;
  const at = (k: number) => (tip.atEnd ? count - 1 - k : k) * 2;
  const x = points[at(0)];
  const y = points[at(0) + 1];
  let k = 1;
  let dx = x - points[at(1)];
  let dy = y - points[at(1) + 1];
  while (k + 1 < count && hypot(dx, dy) < span_mm) {
    k++;
    dx = x - points[at(k)];
    dy = y - points[at(k) + 1];
  }
  const length = hypot(dx, dy);
  return { x, y, tx: dx / length, ty: dy / length };
}

/** Appends a vertex at a tip. */
export function extendTip(tip: TipRef, x: number, y: number): void {
  if (tip.atEnd) tip.tear.points.push(x, y);
  else tip.tear.points.unshift(x, y);
}

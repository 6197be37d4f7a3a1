/**
 * Strips on a grid of lines, with a slit along y = 0. The product's mesher makes round sheets only; mesh apart,
 * everything here is the product's own.
 */
import type { Material } from '../membrane/material.ts';
import { createSample, type Sample, type SampleOptions } from './sample.ts';

export interface StripSample extends Sample {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  /** Node of column i and row j; on the slit that of the upper face. */
  node(i: number, j: number): number;
  /** Node of column i on the slit's lower face; the same as the upper one where there is no slit. */
  lower(i: number): number;
  /** Column whose line lies at x, the nearest one. */
  column(x: number): number;
}

/**
 * Lines from `from` to `to`, `finest` apart at each place of `fine` and wider by a factor `growth` from line to line
 * away from them. Every place of `fine` is a line.
 */
export function gradedLines(
  from: number,
  to: number,
  fine: readonly number[],
  finest: number,
  growth: number,
): number[] {
  const stops = [...new Set([from, ...fine, to])].sort((a, b) => a - b);
  const lines = [from];
  for (let k = 0; k + 1 < stops.length; k++) {
    const length = stops[k + 1] - stops[k];
    const parts = gapParts(length, fine.includes(stops[k]), fine.includes(stops[k + 1]), finest, growth);
    const total = parts.reduce((sum, part) => sum + part, 0);
    let at = stops[k];
    for (let p = 0; p + 1 < parts.length; p++) {
      at += (parts[p] * length) / total;
      lines.push(at);
    }
    lines.push(stops[k + 1]);
  }
  return lines;
}

/** Sizes of the parts of a gap that is fine at one end or at both. */
function gapParts(length: number, fineLeft: boolean, fineRight: boolean, finest: number, growth: number): number[] {
  const both = fineLeft && fineRight;
  const reach = both ? length / 2 : length;
  const side: number[] = [];
  for (let sum = 0, size = finest; sum < reach; size *= growth) {
    side.push(size);
    sum += size;
  }
  if (both) return [...side, ...side.slice().reverse()];
  return fineRight ? side.reverse() : side;
}

/** Strip over the lines' extent; the slit takes in every column of `slit` (from, to; mm), its inner ends are tips. */
export function stripSample(
  xs: readonly number[],
  ys: readonly number[],
  slit: readonly [number, number] | null,
  material: Material,
  options: SampleOptions = {},
): StripSample {
  const place: number[] = [];
  for (const y of ys) for (const x of xs) place.push(x, y);
  const columns = xs.length;
  const node = (i: number, j: number) => j * columns + i;
  const below = new Map<number, number>();
  const middle = ys.indexOf(0);
  if (slit) {
    if (middle < 0) throw new Error('a slit needs a line at y = 0');
    const last = columns - 1;
    for (let i = 0; i < columns; i++) {
      const inside = xs[i] > slit[0] && xs[i] < slit[1];
      const open = (i === 0 && slit[0] <= xs[0]) || (i === last && slit[1] >= xs[last]);
      if (!inside && !open) continue;
      below.set(i, place.length / 2);
      place.push(xs[i], 0);
    }
  }
  const lower = (i: number) => below.get(i) ?? node(i, middle);
  const triangle: number[] = [];
  for (let j = 0; j + 1 < ys.length; j++)
    for (let i = 0; i + 1 < columns; i++) {
      const top = j + 1 === middle ? lower : (k: number) => node(k, j + 1);
      const [a, b, c, d] = [node(i, j), node(i + 1, j), top(i + 1), top(i)];
      // diagonals alternate, so that the grid prefers no direction
      if ((i + j) % 2 === 0) triangle.push(a, b, c, a, c, d);
      else triangle.push(a, b, d, b, c, d);
    }
  const column = (x: number) =>
    xs.reduce((best, value, i) => (Math.abs(value - x) < Math.abs(xs[best] - x) ? i : best), 0);
  const sample = createSample(Float64Array.from(place), Int32Array.from(triangle), material, options);
  return { ...sample, xs, ys, node, lower, column };
}

/** Length that line i of `lines` stands for. */
export const shareOf = (lines: readonly number[], i: number): number =>
  0.5 * (lines[Math.min(lines.length - 1, i + 1)] - lines[Math.max(0, i - 1)]);

/** Dead load of a line tension (mN/mm) along x on the two ends. */
export function pullEnds(sample: StripSample, N: number): void {
  const last = sample.xs.length - 1;
  sample.ys.forEach((_, j) => {
    const force = N * shareOf(sample.ys, j);
    sample.body.load[sample.node(0, j) * 3] -= force;
    sample.body.load[sample.node(last, j) * 3] += force;
  });
}

/** Dead load of a line tension (mN/mm) along y on the upper and the lower edge. */
export function pullEdges(sample: StripSample, N: number): void {
  const last = sample.ys.length - 1;
  sample.xs.forEach((_, i) => {
    const force = N * shareOf(sample.xs, i);
    sample.body.load[sample.node(i, 0) * 3 + 1] -= force;
    sample.body.load[sample.node(i, last) * 3 + 1] += force;
  });
}

/**
 * What a chart shows, as plain data: one row of points with the band or the lines they are judged by, or several curves
 * with the published points that belong beside them.
 */

export interface ChartPoint {
  readonly x: number;
  /** Null where nothing was measured: marked at the foot of the chart. */
  readonly y: number | null;
  /** Told apart by shape: a filled dot, a cross. */
  readonly mark: 'dot' | 'cross';
  /** The point in words. */
  readonly words: string;
}

export interface ChartBand {
  readonly axis: 'x' | 'y';
  /** Null leaves that side open. */
  readonly from: number | null;
  readonly to: number | null;
}

export interface ChartLevel {
  readonly at: number;
  readonly label: string;
}

/** One of several curves. Its place in the list gives it its dash, its mark and its colour. */
export interface ChartLine {
  readonly name: string;
  /** Ascending. */
  readonly xs: readonly number[];
  /** As long as xs; null where there is no value: the curve has a gap there. */
  readonly ys: readonly (number | null)[];
}

/** What others measured, drawn beside the curves. */
export interface ChartPublished {
  /** Range of x that it stands for; twice the same for one value. */
  readonly x: readonly [number, number];
  readonly y: number;
  /** Half width of what was reported, null when none was. */
  readonly spread: number | null;
  readonly source: string;
}

export interface ChartSpec {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  /** x in seconds since 1970, printed as dates. */
  readonly xIsTime: boolean;
  /** Ascending in x. */
  readonly points: readonly ChartPoint[];
  /** Whether the points are joined by a line. */
  readonly joined: boolean;
  readonly band: ChartBand | null;
  readonly levels: readonly ChartLevel[];
  /** Names of the rows at y = 0, 1, 2, … from the top; null for an axis of numbers. */
  readonly rows: readonly string[] | null;
  readonly decimals: number;
  /** Up to four. Charts of curves have no `points`. */
  readonly lines?: readonly ChartLine[];
  /** Whether every value of the curves has its mark. */
  readonly marked?: boolean;
  readonly published?: readonly ChartPublished[];
  /** Values that are in sight whatever the data are. */
  readonly alwaysX?: readonly number[];
  readonly alwaysY?: readonly number[];
  readonly xDecimals?: number;
}

const finite = (values: readonly (number | null)[]): number[] =>
  values.filter((value): value is number => value !== null && Number.isFinite(value));

/** Lowest and highest value of an axis, with a margin; never empty, never without width. */
export function axisRange(values: readonly (number | null)[], margin = 0.08): readonly [number, number] {
  const all = finite(values);
  if (all.length === 0) return [0, 1];
  const low = all.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const high = all.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  const width = high - low;
  const room = width > 0 ? width * margin : Math.max(0.5, Math.abs(high) * 0.1);
  return [low - room, high + room];
}

/** Both ends of a published value with its spread. */
export const spreadOf = ({ y, spread }: ChartPublished): readonly [number, number] => [
  y - (spread ?? 0),
  y + (spread ?? 0),
];

/** Ranges of both axes: everything that is drawn is in sight. */
export function rangesOf(spec: ChartSpec): {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
} {
  const { points, lines = [], published = [], alwaysX = [], alwaysY = [] } = spec;
  const bandOn = (axis: 'x' | 'y') => (spec.band?.axis === axis ? [spec.band.from, spec.band.to] : []);
  const xs = [...points.map((point) => point.x), ...lines.flatMap((line) => line.xs)];
  const x = axisRange([...xs, ...published.flatMap((one) => one.x), ...bandOn('x'), ...alwaysX], 0.04);
  if (spec.rows !== null) return { x, y: [-(spec.rows.length - 1) - 0.6, 0.6] };
  const ys = [...points.map((point) => point.y), ...lines.flatMap((line) => line.ys)];
  const beside = [...published.flatMap(spreadOf), ...spec.levels.map(({ at }) => at), ...bandOn('y'), ...alwaysY];
  return { x, y: axisRange([...ys, ...beside]) };
}

/** Index of the last x that is not after the asked one, or the first; -1 for an empty list. */
export function indexAt(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (xs[middle]! <= x) low = middle;
    else high = middle - 1;
  }
  return high < 0 ? -1 : low;
}

/** Value of a curve at the nearest of its places, null where it has none within `within` of x. */
export function valueNear({ xs, ys }: ChartLine, x: number, within: number): number | null {
  const before = indexAt(xs, x);
  if (before < 0) return null;
  const after = Math.min(before + 1, xs.length - 1);
  const nearest = Math.abs(xs[after]! - x) < Math.abs(xs[before]! - x) ? after : before;
  return Math.abs(xs[nearest]! - x) <= within ? ys[nearest]! : null;
}

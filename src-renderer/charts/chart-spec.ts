/** What a chart shows, as plain data: one row of points, with the band or the lines they are judged by. */

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

/** Ranges of both axes: everything that is drawn is in sight. */
export function rangesOf(spec: ChartSpec): {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
} {
  const bandOn = (axis: 'x' | 'y') => (spec.band?.axis === axis ? [spec.band.from, spec.band.to] : []);
  const x = axisRange([...spec.points.map((point) => point.x), ...bandOn('x')], 0.04);
  if (spec.rows !== null) return { x, y: [-(spec.rows.length - 1) - 0.6, 0.6] };
  return {
    x,
    y: axisRange([...spec.points.map((point) => point.y), ...spec.levels.map(({ at }) => at), ...bandOn('y')]),
  };
}

import type { ChartSpec } from './chart-spec.ts';

/** The curves of a chart as a table: one row for each place that any of them has. */
export interface ChartRows {
  readonly head: readonly string[];
  /** x first, then the value of each curve there, null where it has none. */
  readonly rows: readonly (readonly [number, ...(number | null)[]])[];
}

export function chartRows({ xLabel, yLabel, lines = [] }: ChartSpec): ChartRows {
  const at = new Map<number, (number | null)[]>();
  for (const [column, { xs, ys }] of lines.entries())
    for (const [k, x] of xs.entries()) {
      const row = at.get(x) ?? lines.map(() => null);
      row[column] = ys[k] ?? null;
      at.set(x, row);
    }
  return {
    head: [xLabel, ...lines.map(({ name }) => `${name} (${yLabel})`)],
    rows: [...at].sort(([a], [b]) => a - b).map(([x, values]) => [x, ...values]),
  };
}

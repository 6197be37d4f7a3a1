/** Wall and processor seconds of some work. On a machine with other work the processor's are the steadier of the two. */
export interface Spent {
  readonly wall_s: number;
  readonly cpu_s: number;
}

export function spentOn(work: () => void): Spent {
  const cpu = process.cpuUsage();
  const started = performance.now();
  work();
  const wall_s = (performance.now() - started) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  return { wall_s, cpu_s: (user + system) / 1e6 };
}

/** The value below which a share of the list lies; 0.5 is the median. The list has at least one value. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

/** Slope of a straight line through the logarithms: the power with which y grows with x. */
export function growthExponent(points: readonly { readonly x: number; readonly y: number }[]): number {
  const logs = points.map(({ x, y }) => [Math.log(x), Math.log(y)] as const);
  const mean = (axis: 0 | 1) => logs.reduce((sum, log) => sum + log[axis] / logs.length, 0);
  const [mx, my] = [mean(0), mean(1)];
  const over = logs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  return over / logs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
}

/** What a case says instead of figures where it cannot be run. */
export interface LeftOut {
  readonly leftOut: string;
}

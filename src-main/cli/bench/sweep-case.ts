import { availableParallelism } from 'node:os';
import type { SweepCell } from '../../../physics/index.ts';
import { computeCells, hasSweepWorkers } from '../sweep-pool.ts';
import type { LeftOut } from './timing.ts';

export interface SweepCase {
  readonly cells: number;
  readonly cores: number;
  readonly oneCore_s: number;
  readonly allCores_s: number;
  /** How much faster on all cores, over their number; the goal is 0.85. */
  readonly efficiency: number;
}

/** Equal cells, so that no core waits long for the last. A worker is slow for its first seconds; a chart's twenty cells are past that. */
const CELLS_PER_CORE = { short: 3, long: 8 };

/** The fifth case: the same sweep in one worker and in one for each core. */
export async function sweepCase(short: boolean): Promise<SweepCase | LeftOut> {
  const cores = availableParallelism();
  if (!hasSweepWorkers()) return { leftOut: 'the workers of sweeps are in the built program only' };
  if (cores < 2) return { leftOut: 'this machine has one core' };
  const options = { preset: 'uniaxial', dyed: false } as const;
  const cells = Array.from({ length: CELLS_PER_CORE[short ? 'short' : 'long'] * cores }, (): SweepCell => {
    return { measure: 'hold-angle', age_years: 4, netPressure_mmHg: 2, options };
  });
  const timed = async (workers: number): Promise<number> => {
    const started = performance.now();
    await computeCells(cells, workers, () => {}, true);
    return (performance.now() - started) / 1000;
  };
  const oneCore_s = await timed(1);
  const allCores_s = await timed(cores);
  return { cells: cells.length, cores, oneCore_s, allCores_s, efficiency: oneCore_s / allCores_s / cores };
}

import type { Hand, Scenario } from '../../../physics/index.ts';
import { timeAttempt } from './attempt-timing.ts';
import { growthExponent } from './timing.ts';

export interface GrowthCase {
  /** Mean processor milliseconds of a step of the same few seconds on finer and finer meshes. */
  readonly points: readonly {
    readonly nodes: number;
    readonly step_ms: number;
    readonly realTimeFactorOfCpu: number;
  }[];
  /** Power of the node number with which the step's time grows; the goal is 1.15 at most. */
  readonly exponent: number;
}

/** Time of a step over the number of nodes: the whole mesh is made finer by each factor, tip and step of tearing too. */
export function growthCase(scenario: Scenario, hand: Hand, sizeFactors: readonly number[], most_s: number): GrowthCase {
  const points = sizeFactors.map((sizeFactor) => {
    const { nodes, cpu_s, steps, realTimeFactorOfCpu } = timeAttempt(scenario, hand, { sizeFactor, most_s });
    return { nodes, step_ms: (1000 * cpu_s) / steps, realTimeFactorOfCpu };
  });
  return { points, exponent: growthExponent(points.map(({ nodes, step_ms }) => ({ x: nodes, y: step_ms }))) };
}

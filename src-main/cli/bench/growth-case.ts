import { type Hand, type Scenario, scaledAwayFromTip, scaledSizes, type WorldOptions } from '../../../physics/index.ts';
import { timeAttempt } from './attempt-timing.ts';
import { growthExponent } from './timing.ts';

/** The same few seconds on finer and finer meshes. */
export interface Growth {
  /** Processor milliseconds of a step on average. */
  readonly points: readonly {
    readonly nodes: number;
    readonly step_ms: number;
    readonly realTimeFactorOfCpu: number;
  }[];
  /** Power of the node number with which the step's time grows. */
  readonly exponent: number;
}

export interface GrowthCase {
  /** Finer everywhere but at the tip, which tears in elements of the usual length; the goal of the exponent is 1.15 at most. */
  readonly awayFromTip: Growth;
  /** Finer at the tip too: a step then has also more elements to tear. Null in the short form. */
  readonly everywhere: Growth | null;
}

function growth(scenario: Scenario, hand: Hand, meshes: readonly WorldOptions['sizes'][], most_s: number): Growth {
  const points = meshes.map((sizes) => {
    const { nodes, cpu_s, steps, realTimeFactorOfCpu } = timeAttempt(scenario, hand, { sizes, most_s });
    return { nodes, step_ms: (1000 * cpu_s) / steps, realTimeFactorOfCpu };
  });
  return { points, exponent: growthExponent(points.map(({ nodes, step_ms }) => ({ x: nodes, y: step_ms }))) };
}

/** Factors on the mesh sizes that give about 500, 1,000, 2,000, 4,000 and 8,000 nodes of the adult, and 500 to 5,000. */
const AWAY_FROM_TIP = [1.4, 0.78, 0.475, 0.28, 0.185];
const EVERYWHERE = [1.28, 0.78, 0.475, 0.29];
/** Long enough for about twenty elements to be torn. */
const MOST_s = 4;

/** Time of a step over the number of nodes, tearing included. */
export function growthCase(scenario: Scenario, hand: Hand, short: boolean): GrowthCase {
  const away = short ? AWAY_FROM_TIP.slice(0, 4) : AWAY_FROM_TIP;
  return {
    awayFromTip: growth(scenario, hand, away.map(scaledAwayFromTip), MOST_s),
    everywhere: short ? null : growth(scenario, hand, EVERYWHERE.map(scaledSizes), MOST_s),
  };
}

import { type Hand, type Scenario, scaledSizes } from '../../../physics/index.ts';
import { timeAttempt } from './attempt-timing.ts';
import { createCloth } from './cloth.ts';
import { spentOn } from './timing.ts';

export interface ClothCase {
  readonly ourNodes: number;
  readonly ourStep_ms: number;
  readonly clothNodes: number;
  readonly clothStep_ms: number;
  /** Our step over the cloth's; the goal is 1. */
  readonly overCloth: number;
}

const CLOTH_STEPS = 120;

/** The third case: a step of ours, tearing and picture included, against one of a mass-spring cloth of as many nodes. */
export function clothCase(scenario: Scenario, hand: Hand, sizeFactor: number, most_s: number): ClothCase {
  const { nodes, cpu_s, steps } = timeAttempt(scenario, hand, { sizes: scaledSizes(sizeFactor), most_s });
  const cloth = createCloth(Math.round(Math.sqrt(nodes)));
  const times = Array.from({ length: CLOTH_STEPS }, () => spentOn(cloth.step).cpu_s);
  const [ourStep_ms, clothStep_ms] = [(1000 * cpu_s) / steps, 1000 * mean(times.slice(CLOTH_STEPS / 4))];
  return { ourNodes: nodes, ourStep_ms, clothNodes: cloth.nodes, clothStep_ms, overCloth: ourStep_ms / clothStep_ms };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value / values.length, 0);

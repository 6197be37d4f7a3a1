/** One attempt of the soak: a random hand at a shipped eye until the attempt ends or the time is over. */
import { createRandom } from '../../physics/core/random.ts';
import type { MeshSizes } from '../../physics/mesh/sizes.ts';
import type { Scenario } from '../../physics/scenario/scenario.ts';
import { digestWorld } from '../../physics/world/digest.ts';
import { createWorld } from '../../physics/world/world.ts';
import { randomHand, workWatched } from './random-hand.ts';

/** Three and a half times as coarse as for a person: what is looked at is soundness over hours, and it must fit into an hour. */
const SIZES: MeshSizes = { tip_mm: 0.21, face_mm: 0.42, far_mm: 1.2, levels: 2, growth: 0.4, rim_mm: 0.9 };
/** Longest attempt, steps of 1/60 s. */
const MOST_STEPS = 30 * 60;

export interface SoakedAttempt {
  readonly scenario: string;
  readonly seed: number;
  readonly steps: number;
  readonly torn_mm: number;
  readonly ended: string | null;
  readonly digest: string;
  /** Every breach in words; empty when all held. */
  readonly breaches: readonly string[];
}

/** @param seed of the hand and of the eye's attempt, unsigned 32-bit */
export function soakAttempt(scenario: Scenario, seed: number): SoakedAttempt {
  const world = createWorld(scenario, seed, { sizes: SIZES });
  const breaches = workWatched(world, randomHand(createRandom(seed)), MOST_STEPS);
  return {
    scenario: scenario.id,
    seed,
    steps: world.step,
    torn_mm: world.torn_mm,
    ended: world.ended,
    digest: digestWorld(world),
    breaches,
  };
}

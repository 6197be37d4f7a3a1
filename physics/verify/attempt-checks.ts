/** Checks of whole attempts: A16. */

import { handPlayer, runHand } from '../scenario/attempt.ts';
import { energyMismatch } from '../world/energy.ts';
import { viewWorld } from '../world/view.ts';
import { createWorld, stepWorld } from '../world/world.ts';
import type { Attempt, Check, CheckContext, Finding } from './check.ts';
import { absolute } from './compare.ts';

/** Share of the work put in that may be missing from the account. */
const ACCOUNT = absolute(0.02);

/** Steps of the short attempt: 4 s, in which the hand grasps, folds and begins to tear. */
const SHORT_STEPS = 240;

function firstAttempt({ attempts }: CheckContext): Attempt {
  if (attempts.length === 0) throw new Error('no attempt was given to play');
  return attempts[0];
}

const accountFinding = (quantity: string, computed: number, note: string): Finding => ({
  quantity,
  computed,
  reference: 0,
  unit: 'share of the work done',
  tolerance: ACCOUNT,
  note,
});

function wholeAttempt(context: CheckContext): readonly Finding[] {
  const { scenario, hand } = firstAttempt(context);
  const result = runHand(scenario, hand);
  if (result.ended !== 'complete') throw new Error(`the attempt ended ${result.ended}; a whole one is wanted`);
  const title = `${scenario.id} with ${hand.id}`;
  return [accountFinding(`what is missing in the account, ${title}`, result.energyMismatch, `${result.steps} steps`)];
}

function shortAttempt(context: CheckContext): readonly Finding[] {
  const { scenario, hand } = firstAttempt(context);
  const world = createWorld(scenario, scenario.seed);
  const next = handPlayer(world, hand);
  for (let step = 0; step < SHORT_STEPS && world.phase !== 'ended'; step++) {
    const command = next(viewWorld(world));
    if (command === null) break;
    stepWorld(world, command);
  }
  const { torn } = world.account;
  if (!(torn > 0)) throw new Error('nothing was torn in the short attempt');
  const note = `${world.step} steps, ${torn.toFixed(3)} mN mm torn`;
  const title = `${scenario.id} with ${hand.id}, its first seconds`;
  return [accountFinding(`what is missing in the account, ${title}`, energyMismatch(world), note)];
}

export const attemptChecks: readonly Check[] = [
  {
    name: 'A16',
    problem: 'work of hand and rim over a whole attempt = stored + dragged + torn',
    source: 'conservation of energy',
    first: true,
    quick: false,
    run: wholeAttempt,
  },
  {
    name: 'A16-short',
    problem: 'work of hand and rim over the first seconds of an attempt = stored + dragged + torn',
    source: 'conservation of energy',
    first: false,
    quick: true,
    run: shortAttempt,
  },
];

/** Random tip states to judge rules of direction by: taken from guided attempts, and from random pulls at random flaps. */
import { cos, sin } from '../core/elementary/circular.ts';
import { createRandom } from '../core/random.ts';
import { handPlayer } from '../scenario/attempt.ts';
import type { GuidedHand } from '../scenario/hand.ts';
import type { ScenarioStart } from '../scenario/scenario.ts';
import { sampleScenario, usualLine_mm } from '../sweep/sample-eye.ts';
import { drivingRatio } from '../world/advance.ts';
import type { HandCommand } from '../world/contract.ts';
import type { World } from '../world/state.ts';
import { updateTipForces } from '../world/tips.ts';
import { viewTips, viewWorld } from '../world/view.ts';
import { createWorld, settle, stepWorld } from '../world/world.ts';

export interface TipState {
  readonly from: 'attempt' | 'pull';
  readonly seed: number;
  /** At rest, with the jaws held where they were. */
  readonly world: World;
}

/** A tip counts from this share of the tear resistance: below it no direction is ever taken. */
const LEAST_RATIO = 0.3;
/** States from one eye, and steps between them. */
const EACH = 2;
const APART = 25;
const PATIENCE_steps = 420;

type Uniform = () => number;

function randomWorld(uniform: Uniform): World {
  const age = 0.3 + 70 * uniform() ** 2;
  const net_mmHg = 3 * uniform();
  const start: ScenarioStart = {
    kind: 'flap',
    clock_h: 12,
    radius_mm: (usualLine_mm(age) / 2) * (0.8 + 0.4 * uniform()),
    arc_deg: 50 + 200 * uniform(),
    innerRadius_mm: 0.2,
  };
  return createWorld(sampleScenario(age, net_mmHg, start, { preset: 'uniaxial', dyed: false }));
}

/** States of one eye whose tear a guided hand leads at a random angle. */
function* guidedStates(seed: number): Generator<TipState> {
  const { uniform } = createRandom(seed);
  const world = randomWorld(uniform);
  const { chamber } = world;
  const hand: GuidedHand = {
    rimwardHand: 1,
    kind: 'guided',
    id: 'random-pull',
    title: 'Pulls at a random angle',
    start: 'flap',
    pullAngle_deg: -20 + 120 * uniform(),
    speed_mm_per_s: 1,
    regraspEvery_deg: 720,
    graspBehind_mm: 0.3 + 0.6 * uniform(),
    graspInside_mm: 0.3 + 0.3 * uniform(),
    fold: uniform() < 0.6,
  };
  const next = handPlayer(world, hand);
  yield* watched('attempt', seed, world, () => {
    world.chamber = chamber;
    return next(viewWorld(world));
  });
}

/** States of one eye whose flap is grasped beside its tip and drawn about, in the plane and above it. */
function* pulledStates(seed: number): Generator<TipState> {
  const { uniform } = createRandom(seed);
  const world = randomWorld(uniform);
  const { chamber } = world;
  const [tip] = viewTips(world);
  const along = (tip.tangent_deg * Math.PI) / 180;
  const [x, y] = tip.position_mm;
  const inward = Math.sign(x * sin(along) - y * cos(along)) || 1;
  const behind = 0.3 + 0.8 * uniform();
  const inside = 0.25 + 0.5 * uniform();
  const at: [number, number] = [
    x - behind * cos(along) - inward * inside * sin(along),
    y - behind * sin(along) + inward * inside * cos(along),
  ];
  const pull = 2 * Math.PI * uniform();
  const lift = uniform() < 0.5 ? 0.05 : 1.2 * uniform();
  let step = 0;
  yield* watched('pull', seed, world, (): HandCommand => {
    world.chamber = chamber;
    step++;
    const closed = step > 40;
    const moved = closed ? Math.min(4, 0.02 * (step - 40)) : 0;
    return {
      x_mm: at[0] + moved * cos(pull),
      y_mm: at[1] + moved * sin(pull),
      lift_mm: closed ? Math.min(lift, 0.05 + 0.02 * (step - 40)) : 0.05,
      jaws: closed ? 1 : 0,
      instrument: 'forceps',
      incision: 0,
    };
  });
}

/** Plays a world and hands out a copy at rest whenever its tip is loaded enough. */
function* watched(
  from: TipState['from'],
  seed: number,
  world: World,
  next: () => HandCommand | null,
): Generator<TipState> {
  let last = -APART;
  let found = 0;
  while (world.phase === 'working' && world.step < PATIENCE_steps && found < EACH) {
    const command = next();
    if (command === null) return;
    stepWorld(world, command);
    const [tip] = world.tips;
    if (!(tip && world.grip) || world.step - last < APART || drivingRatio(world, tip) < LEAST_RATIO) continue;
    const rested = atRest(world);
    if (drivingRatio(rested, rested.tips[0]) < LEAST_RATIO) continue;
    last = world.step;
    found++;
    yield { from, seed, world: rested };
  }
}

/** A copy of a world, brought to rest with the jaws held; the world itself goes on as if nothing had been. */
function atRest(world: World): World {
  const rested: World = { ...world, x: world.x.slice(), tips: world.tips.map((tip) => ({ ...tip })) };
  settle(rested);
  // the solver's kept factor is the world's own
  world.solver.factored = false;
  updateTipForces(rested);
  return rested;
}

/**
 * Random tip states, half from attempts and half from pulls, as many as asked. Seeds count up from the given one; each state carries
 * its own. @param count even
 */
export function* randomTipStates(seed: number, count: number): Generator<TipState> {
  let made = 0;
  for (let k = 0; made < count; k++) {
    const of = made < count / 2 ? guidedStates(seed + k) : pulledStates(seed + k);
    const most = made < count / 2 ? count / 2 : count;
    for (const state of of) {
      yield state;
      if (++made >= most) break;
    }
  }
}

/** How a guided hand takes the flap, lays it over, pulls it and lets it go. */
import { hypot } from '../core/elementary/hypot.ts';
import { type HandCommand, STEP_S, type WorldView } from '../world/contract.ts';
import { APPROACH_mm_per_s, ask, moveTo } from './guided-motion.ts';
import { type GuidedState, go } from './guided-state.ts';
import type { Work } from './guided-work.ts';

/** Time for the jaws to close or open, steps. */
const JAW_STEPS = 12;
/** Height at which a held flap is carried over and at which it is pulled, mm. */
const CARRY_mm = 0.7;
const PULL_mm = 0.25;
/** A flap laid over lies this share of its distance behind the tip ahead of it: a fold takes the rest. Assumed. */
const CARRY_SHARE = 0.7;
/** Above this driving ratio the hand stops reaching farther and lets the tear follow. */
const ENOUGH_RATIO = 1.05;
/** A hand that has drawn the flap this far from the tip lets go and grasps again, mm. Assumed: half the opening. */
const LONGEST_REACH_mm = 3;

export function reach(state: GuidedState, view: WorldView, work: Work): HandCommand {
  const place = work.grasp();
  if (!place) return ask(state, view, 0);
  moveTo(state, [place[0], place[1], Math.max(0, place[2]) + 0.1], APPROACH_mm_per_s);
  const [x, y, z] = view.instrument.tip_mm;
  const off = hypot(place[0] - x, place[1] - y);
  if (off < 0.08 && Math.abs(place[2] + 0.1 - z) < 0.3) go(state, view, 'closing');
  return ask(state, view, 0);
}

export function close(state: GuidedState, view: WorldView, work: Work): HandCommand {
  const steps = view.step - state.since_step;
  if (steps >= JAW_STEPS) {
    if (!view.instrument.gripping) {
      go(state, view, 'opening');
      return ask(state, view, 0);
    }
    state.arcAtGrasp_deg = work.arc_deg;
    state.tornAtGrasp_mm = view.torn_mm;
    const [x, y] = view.instrument.tip_mm;
    state.reach_mm = CARRY_SHARE * hypot(x - work.position_mm[0], y - work.position_mm[1]);
    go(state, view, 'laying-over');
  }
  return ask(state, view, Math.min(1, steps / (JAW_STEPS / 2)));
}

/** Carries the held flap over the tip and lays it down ahead of it, along the direction of the pull. */
export function layOver(state: GuidedState, view: WorldView, work: Work): HandCommand {
  const { hand } = state;
  const aim = work.aim();
  const steps = view.step - state.since_step;
  if (!work.folds) {
    go(state, view, 'pulling');
    return ask(state, view, 1);
  }
  const goal: [number, number, number] = [
    work.position_mm[0] + state.reach_mm * aim[0],
    work.position_mm[1] + state.reach_mm * aim[1],
    CARRY_mm,
  ];
  moveTo(state, goal, 1.5 * hand.speed_mm_per_s);
  const left = hypot(goal[0] - state.asked[0], goal[1] - state.asked[1]);
  if (left < 0.05 || work.drivingRatio > ENOUGH_RATIO || steps > 240) {
    state.reach_mm = hypot(state.asked[0] - work.position_mm[0], state.asked[1] - work.position_mm[1]);
    go(state, view, 'pulling');
  }
  return ask(state, view, 1);
}

/** Pulls: the asked place lies ahead of the tip in the pull's direction, farther and farther until the tear follows. */
export function pull(state: GuidedState, view: WorldView, work: Work): HandCommand {
  const { hand } = state;
  const tooFar = view.instrument.reachLimited || state.reach_mm > LONGEST_REACH_mm;
  if (!view.instrument.gripping || tooFar || work.tornEnough()) {
    go(state, view, 'opening');
    return ask(state, view, 0);
  }
  const aim = work.aim();
  if (work.folds) {
    if (work.drivingRatio < ENOUGH_RATIO) state.reach_mm += hand.speed_mm_per_s * STEP_S;
    const goal: [number, number, number] = [
      work.position_mm[0] + state.reach_mm * aim[0],
      work.position_mm[1] + state.reach_mm * aim[1],
      PULL_mm,
    ];
    moveTo(state, goal, 2 * hand.speed_mm_per_s);
  } else if (work.drivingRatio < ENOUGH_RATIO) {
    const d = hand.speed_mm_per_s * STEP_S;
    state.asked = [state.asked[0] + d * aim[0], state.asked[1] + d * aim[1], PULL_mm];
  }
  return ask(state, view, 1);
}

/** Lets go, rises, and is ready to reach again. */
export function open(state: GuidedState, view: WorldView): HandCommand {
  const steps = view.step - state.since_step;
  state.asked[2] = Math.min(1, state.asked[2] + 0.02);
  if (steps >= JAW_STEPS) go(state, view, 'reaching');
  return ask(state, view, 0);
}

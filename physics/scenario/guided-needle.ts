/** How a guided hand begins with the needle. */
import { hypot } from '../core/elementary/hypot.ts';
import { type HandCommand, STEP_S, type WorldView } from '../world/contract.ts';
import { APPROACH_mm_per_s, ask, moveTo } from './guided-motion.ts';
import { type GuidedState, go } from './guided-state.ts';

/** Speed of the pressed needle, mm/s. Assumed: a short, slow cut. */
const CUT_mm_per_s = 0.8;

/** Presses the needle in at the first place and draws it along the rest, pressed, until the slit stands. */
export function cutSlit(state: GuidedState, view: WorldView): HandCommand {
  const first = view.tips.length === 0;
  const goal = state.cut[0];
  const command = (jaws: number): HandCommand => ({ ...ask(state, view, jaws), instrument: 'needle' });
  if (!goal) {
    if ((view.step - state.since_step) * STEP_S >= (state.hand.puncture?.wait_s ?? 0)) go(state, view, 'opening');
    return command(0);
  }
  moveTo(state, [goal[0], goal[1], first ? 0.15 : 0.1], first ? APPROACH_mm_per_s : CUT_mm_per_s);
  const [x, y, z] = view.instrument.tip_mm;
  const there = hypot(goal[0] - x, goal[1] - y) < 0.06;
  if (there && !first) {
    state.cut.shift();
    if (state.cut.length === 0) go(state, view, 'cutting');
  }
  return command(first && !(there && z < 0.25) ? 0 : 1);
}

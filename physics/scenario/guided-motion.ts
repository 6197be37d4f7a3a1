/** How a guided hand moves: toward a goal at a speed, with its tremor. */
import { hypot } from '../core/elementary/hypot.ts';
import { type HandCommand, STEP_S, type WorldView } from '../world/contract.ts';
import { type GuidedState, go } from './guided-state.ts';

/** Speed at which an empty hand moves, mm/s. Assumed: unhurried. */
export const APPROACH_mm_per_s = 4;

/** Moves the asked place toward a goal at a speed. */
export function moveTo(state: GuidedState, goal: readonly [number, number, number], speed_mm_per_s: number): void {
  const d = goal.map((v, k) => v - state.asked[k]);
  const length = hypot(d[0], d[1], d[2]);
  const step = speed_mm_per_s * STEP_S;
  const share = length > step ? step / length : 1;
  state.asked = state.asked.map((v, k) => v + share * d[k]) as [number, number, number];
}

/** The command, with tremor along and across the shaft added. */
export function ask(state: GuidedState, view: WorldView, jaws: number): HandCommand {
  let [x, y] = state.asked;
  if (state.shake) {
    const [fx, fy] = view.instrument.fulcrum_mm;
    const length = hypot(x - fx, y - fy) || 1;
    const [ux, uy] = [(x - fx) / length, (y - fy) / length];
    const along = state.shake.along.next();
    const across = state.shake.across.next();
    x += along * ux - across * uy;
    y += along * uy + across * ux;
  }
  return { x_mm: x, y_mm: y, lift_mm: state.asked[2], jaws, instrument: 'forceps', incision: 0 };
}

/** Fills the chamber with the cannula. */
export function refill(state: GuidedState, view: WorldView): HandCommand {
  if (state.doing !== 'refilling') go(state, view, 'refilling');
  const steps = view.step - state.since_step;
  moveTo(state, [state.centre_mm[0], state.centre_mm[1], 1.5], APPROACH_mm_per_s);
  if (steps > 90) go(state, view, state.cut.length > 0 ? 'cutting' : 'reaching');
  return { ...ask(state, view, steps < 75 ? 1 : 0), instrument: 'cannula' };
}

/** Does nothing more: what it holds is let go. */
export function rest(state: GuidedState, view: WorldView): HandCommand {
  if (state.doing !== 'resting') go(state, view, 'resting');
  return ask(state, view, view.step - state.since_step < 6 && view.instrument.gripping ? 1 : 0);
}

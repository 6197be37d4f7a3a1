/**
 * A guided hand: it looks at the view as a person does (tip, flap, line, force on the card) and asks the instrument to move.
 * It has no access that a hand does not have: what goes out is a HandCommand, and the tissue answers.
 */
import type { HandCommand, TipView, WorldView } from '../world/contract.ts';
import { refill, rest } from './guided-motion.ts';
import { cutSlit } from './guided-needle.ts';
import { close, layOver, open, pull, reach } from './guided-pull.ts';
import { fillsFirst } from './guided-rescue.ts';
import { chooseTip, watchTips } from './guided-sight.ts';
import type { GuidedState } from './guided-state.ts';

/** The next command. Call once per step with the present view. */
export function guide(state: GuidedState, view: WorldView): HandCommand {
  watchTips(state, view);
  const tip = chooseTip(state, view);
  if (view.phase === 'working' && state.doing === 'cutting') return cutSlit(state, view);
  if (view.phase !== 'working' || !tip || stops(state, tip)) return rest(state, view);
  if (state.doing === 'refilling' || (state.doing === 'reaching' && needsFluid(state, view, tip)))
    return refill(state, view);
  switch (state.doing) {
    case 'reaching':
      return reach(state, view, tip);
    case 'closing':
      return close(state, view, tip);
    case 'laying-over':
      return layOver(state, view, tip);
    case 'pulling':
      return pull(state, view, tip);
    default:
      return open(state, view);
  }
}

/** A hand may be told to let go and watch from some arc on. */
function stops({ hand, tracks }: GuidedState, tip: TipView): boolean {
  return hand.stopAfter_deg !== undefined && (tracks.get(tip.id)?.arc_deg ?? 0) >= hand.stopAfter_deg;
}

function needsFluid(state: GuidedState, view: WorldView, tip: TipView): boolean {
  const { refillBelow_mmHg } = state.hand;
  const low = refillBelow_mmHg !== undefined && view.chamber.chamberPressure_mmHg < refillBelow_mmHg;
  return (low && !view.instrument.gripping) || fillsFirst(state, view, tip);
}

/**
 * A guided hand: it looks at the view as a person does (tip, flap, line, force on the card) and asks the instrument to move.
 * It has no access that a hand does not have: what goes out is a HandCommand, and the tissue answers.
 */
import type { HandCommand, TipView, WorldView } from '../world/contract.ts';
import { refill, rest } from './guided-motion.ts';
import { cutSlit } from './guided-needle.ts';
import { chooseNick, nickWork, watchMeeting } from './guided-nicks.ts';
import { close, layOver, open, pull, reach } from './guided-pull.ts';
import { fillsFirst } from './guided-rescue.ts';
import { chooseTip, watchTips } from './guided-sight.ts';
import type { GuidedState } from './guided-state.ts';
import { tipWork } from './guided-work.ts';

/** The next command. Call once per step with the present view. */
export function guide(state: GuidedState, view: WorldView): HandCommand {
  watchTips(state, view);
  watchMeeting(state, view);
  const tip = chooseTip(state, view);
  if (view.phase !== 'working' || (tip && stops(state, tip))) return rest(state, view);
  if (state.doing === 'refilling' || (isFree(state, view) && needsFluid(state, view, tip))) return refill(state, view);
  if (state.doing === 'cutting') return cutSlit(state, view);
  if (!tip) return rest(state, view);
  const nick = chooseNick(state, view);
  const work = nick ? nickWork(state, view, nick) : tipWork(state, view, tip);
  switch (state.doing) {
    case 'reaching':
      return reach(state, view, work);
    case 'closing':
      return close(state, view, work);
    case 'laying-over':
      return layOver(state, view, work);
    case 'pulling':
      return pull(state, view, work);
    default:
      return open(state, view);
  }
}

/** A hand may be told to let go and watch from some arc on. */
function stops({ hand, tracks }: GuidedState, tip: TipView): boolean {
  return hand.stopAfter_deg !== undefined && (tracks.get(tip.id)?.arc_deg ?? 0) >= hand.stopAfter_deg;
}

/** The hand can leave what it is at: it is on its way to the flap, or the needle has not yet gone in. */
function isFree({ doing }: GuidedState, { tips, instrument }: WorldView): boolean {
  return !instrument.gripping && (doing === 'reaching' || (doing === 'cutting' && tips.length === 0));
}

function needsFluid(state: GuidedState, view: WorldView, tip: TipView | null): boolean {
  const { refillBelow_mmHg } = state.hand;
  const low = refillBelow_mmHg !== undefined && view.chamber.chamberPressure_mmHg < refillBelow_mmHg;
  return low || (tip !== null && fillsFirst(state, tip));
}

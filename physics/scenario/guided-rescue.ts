/** How a guided hand brings back a tear that runs outward: stop, refill, lay the flap flat, pull back along the tear. */
import type { TipView } from '../world/contract.ts';
import { trackOf } from './guided-sight.ts';
import type { GuidedState } from './guided-state.ts';

/** Whether the tip, as last seen at rest, lies so far outside of the line that it must be brought back first. */
export function rescuing(state: GuidedState, tip: TipView): boolean {
  const { rescue } = state.hand;
  return rescue !== undefined && trackOf(state, tip).restRadius_mm - state.line_mm > rescue.outside_mm;
}

/** Whether the chamber is to be filled before anything is touched. Says so once. */
export function fillsFirst(state: GuidedState, tip: TipView): boolean {
  if (state.filled || !state.hand.rescue?.refillFirst || !rescuing(state, tip)) return false;
  state.filled = true;
  return true;
}

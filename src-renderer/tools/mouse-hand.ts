import type { Vec2 } from '../../physics/index.ts';
import type { HandEvent } from './hand.ts';
import { FREE, type HeldWay, tipOf } from './held-way.ts';

/** A mouse: the button holds, the wheel raises. */
export interface MouseHand {
  readonly way: HeldWay;
}

export const RESTING_MOUSE: MouseHand = { way: FREE };

/** Height per unit of the wheel, mm. A notch is 100 units in most browsers; touch pads give many small ones. */
const RAISE_PER_UNIT_mm = 0.0008;

export type MouseDeed =
  | { readonly kind: 'down' | 'move'; readonly at_mm: Vec2 }
  | { readonly kind: 'up' }
  | { readonly kind: 'wheel'; readonly units: number };

/** The mouse after something it did, and what that asks of the hand. */
export function mouseAfter(
  mouse: MouseHand,
  deed: MouseDeed,
  { sensitivity }: { readonly sensitivity: number },
): readonly [MouseHand, readonly HandEvent[]] {
  switch (deed.kind) {
    case 'down':
      return [{ way: { taken_mm: deed.at_mm } }, [{ kind: 'point', at_mm: deed.at_mm }, { kind: 'press' }]];
    case 'move':
      return [mouse, [{ kind: 'point', at_mm: tipOf(mouse.way, deed.at_mm, sensitivity) }]];
    case 'up':
      return [RESTING_MOUSE, [{ kind: 'release' }]];
    case 'wheel':
      return [mouse, [{ kind: 'raise', by_mm: -deed.units * RAISE_PER_UNIT_mm }]];
  }
}

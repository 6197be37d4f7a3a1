import type { Vec2 } from '../../physics/index.ts';
import type { HandEvent } from './hand.ts';
import { FREE, type HeldWay, tipOf } from './held-way.ts';

/**
 * Two fingers. The first one moves the open jaws, with the tip a gap away so that it can be seen; resting closes the jaws,
 * lifting opens them. Meanwhile a second one that goes up or down raises or lowers, and one that only taps lays the
 * flap over. Every further touch is a palm and counts for nothing. A pinch would move the first finger, and with it the
 * tissue it holds, so height goes by the second finger alone.
 */
export interface TouchHand {
  readonly first: FirstFinger | null;
  readonly second: SecondFinger | null;
}

interface FirstFinger {
  readonly id: number;
  /** Where it is, and since when it has been resting about there; CSS pixels of the stage, s. */
  readonly at_px: Vec2;
  readonly resting_px: Vec2;
  readonly resting_s: number;
  readonly closed: boolean;
  readonly way: HeldWay;
}

interface SecondFinger {
  readonly id: number;
  readonly from_px: Vec2;
  readonly at_px: Vec2;
  readonly since_s: number;
  /** True once it has moved too far for a tap. */
  readonly raising: boolean;
}

export const NO_TOUCH: TouchHand = { first: null, second: null };

export interface TouchWays {
  readonly sensitivity: number;
  /** How far from the finger the tip stands, CSS pixels, and the hand whose finger it is. */
  readonly gap_px: number;
  readonly leftHanded: boolean;
  readonly rest_s: number;
  /** Stage pixels to the eye frame. */
  toMm(at_px: Vec2): Vec2;
}

export type TouchDeed =
  | { readonly kind: 'down' | 'move'; readonly id: number; readonly at_px: Vec2; readonly time_s: number }
  | { readonly kind: 'up' | 'taken-away'; readonly id: number; readonly time_s: number }
  /** Time passes while nothing else is told: a finger that rests says nothing. */
  | { readonly kind: 'pass'; readonly time_s: number };

type After = readonly [TouchHand, readonly HandEvent[]];

/** A resting finger stays within this, and a tapping one too, CSS pixels. Assumed, 4 to 15. */
const STILL_px = 8;
/** The longest tap, s. Assumed, 0.2 to 0.4. */
const TAP_s = 0.3;
/** Height per pixel that the second finger goes up, mm. Our choice: a finger's breadth is half a millimetre. */
const RAISE_PER_PX_mm = 0.01;

/** From the finger toward where it points: up, and away from the hand that it belongs to, as a unit vector of the page. */
const POINTS: Vec2 = [Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)];

/** Where the tip stands for a finger, CSS pixels of the stage. */
export const tipPx = ([x, y]: Vec2, { gap_px, leftHanded }: Pick<TouchWays, 'gap_px' | 'leftHanded'>): Vec2 => [
  x + (leftHanded ? 1 : -1) * POINTS[0] * gap_px,
  y - POINTS[1] * gap_px,
];

const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The fingers after something they did, and what that asks of the hand. */
export function touchAfter(hand: TouchHand, deed: TouchDeed, ways: TouchWays): After {
  const { first, second } = hand;
  if (deed.kind === 'pass') return first === null ? [hand, []] : rested(hand, first, deed.time_s, ways);
  if (deed.kind === 'down') {
    if (first === null) return landed(deed, ways);
    return second === null ? [{ first, second: secondOf(deed) }, []] : [hand, []];
  }
  if (deed.id === first?.id) {
    if (deed.kind === 'move') return moved(hand, first, deed, ways);
    return [NO_TOUCH, first.closed ? [{ kind: 'release' }] : []];
  }
  if (deed.id !== second?.id) return [hand, []];
  if (deed.kind === 'move') return raised(hand, second, deed.at_px);
  const tapped = deed.kind === 'up' && !second.raising && deed.time_s - second.since_s <= TAP_s;
  return [{ first, second: null }, tapped ? [{ kind: 'fold' }] : []];
}

type At = Extract<TouchDeed, { at_px: Vec2 }>;

const secondOf = ({ id, at_px, time_s }: At): SecondFinger => ({
  id,
  from_px: at_px,
  at_px,
  since_s: time_s,
  raising: false,
});

function landed({ id, at_px, time_s }: At, ways: TouchWays): After {
  const first: FirstFinger = { id, at_px, resting_px: at_px, resting_s: time_s, closed: false, way: FREE };
  const hand = { first, second: null };
  const [after, closing] = rested(hand, first, time_s, ways);
  return [after, [{ kind: 'point', at_mm: placeOf(first, ways) }, ...closing]];
}

const placeOf = (first: FirstFinger, ways: TouchWays): Vec2 =>
  tipOf(first.way, ways.toMm(tipPx(first.at_px, ways)), ways.sensitivity);

function moved(hand: TouchHand, before: FirstFinger, { at_px, time_s }: At, ways: TouchWays): After {
  const still = apart(at_px, before.resting_px) <= STILL_px;
  const first = { ...before, at_px, ...(still ? {} : { resting_px: at_px, resting_s: time_s }) };
  return [{ ...hand, first }, [{ kind: 'point', at_mm: placeOf(first, ways) }]];
}

/** A finger that has rested long enough closes the jaws. */
function rested(hand: TouchHand, first: FirstFinger, time_s: number, ways: TouchWays): After {
  if (first.closed || time_s - first.resting_s < ways.rest_s) return [hand, []];
  const taken_mm = ways.toMm(tipPx(first.at_px, ways));
  return [{ ...hand, first: { ...first, closed: true, way: { taken_mm } } }, [{ kind: 'press' }]];
}

function raised(hand: TouchHand, before: SecondFinger, at_px: Vec2): After {
  const raising = before.raising || apart(at_px, before.from_px) > STILL_px;
  // what it went while it might still have been a tap counts too
  const from = before.raising ? before.at_px : before.from_px;
  const by_mm = (from[1] - at_px[1]) * RAISE_PER_PX_mm;
  return [{ ...hand, second: { ...before, at_px, raising } }, raising ? [{ kind: 'raise', by_mm }] : []];
}

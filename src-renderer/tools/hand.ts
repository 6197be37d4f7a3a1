import type { HandCommand, InstrumentView, TipView, Vec2 } from '../../physics/index.ts';
import { FOLD_s, type FoldPath, foldAt, nearestTip, planFold } from './fold-path.ts';
import { type Steadied, type Steadying, steadiedAfter } from './steady.ts';

type InstrumentKind = HandCommand['instrument'];

/**
 * What the hand is doing. `hovering`: jaws open above the eye. `lowering`: going down to the tissue to take it.
 * `holding`: jaws closed, needle pressed or cannula injecting. `folding`: turning a held flap over by itself.
 */
export type Doing = 'hovering' | 'lowering' | 'holding' | 'folding';

export interface HandState {
  readonly doing: Doing;
  /** Seconds in the present doing. */
  readonly since_s: number;
  /** Where the pointer is, and how far from it the asked tip stands (after a fold), mm. */
  readonly pointer_mm: Vec2;
  readonly offset_mm: Vec2;
  /** Remembered heights, mm: while hovering and while holding. */
  readonly hoverLift_mm: number;
  readonly holdLift_mm: number;
  readonly instrument: InstrumentKind;
  readonly incision: number;
  readonly fold: FoldPath | null;
  /** Direction asked with the keys, each -1 to 1, and whether slowly. */
  readonly steer: Vec2;
  readonly steerSlowly: boolean;
  /** Height that a leaning pen adds while tissue is held, mm; gone when the jaws open. */
  readonly lean_mm: number;
  /** How far a trigger or a pen is pressed on its way to closing the jaws, 0 to 1. */
  readonly squeeze: number;
  /** The steadied hand; null while no tremor is filtered out. */
  readonly steady: Steadied | null;
  /** True while nobody has said where the pointer is since tissue was held: the hold stays where it is until then. */
  readonly adrift: boolean;
}

/** What a person sees and the hand goes by. */
export interface Seen {
  readonly instrument: Pick<InstrumentView, 'tip_mm' | 'gripping'>;
  readonly tips: readonly Pick<TipView, 'position_mm' | 'tangent_deg' | 'live'>[];
}

/** How the person's settings bear upon the hand. */
export interface HandWays {
  /** Null lets the hand tremble as it does. */
  readonly steadying: Steadying | null;
  /** Speed of the keys, mm/s. */
  readonly keys_mm_per_s: number;
}

export type HandEvent =
  | { readonly kind: 'point'; readonly at_mm: Vec2 }
  /** Goes on from where the hand is, as a stick moves it. */
  | { readonly kind: 'move'; readonly by_mm: Vec2 }
  | { readonly kind: 'squeeze'; readonly share: number }
  | { readonly kind: 'lean'; readonly lift_mm: number }
  | { readonly kind: 'press' }
  | { readonly kind: 'release' }
  | { readonly kind: 'toggle' }
  | { readonly kind: 'fold' }
  | { readonly kind: 'raise'; readonly by_mm: number }
  | { readonly kind: 'take'; readonly instrument: InstrumentKind }
  | { readonly kind: 'enter-through'; readonly incision: number }
  | { readonly kind: 'steer'; readonly direction: Vec2; readonly slowly: boolean }
  | { readonly kind: 'pass'; readonly dt_s: number; readonly ways?: HandWays };

/** Heights in mm: hovering clear of the tissue, and holding a little lifted so that the flap folds over. */
const HOVER_LIFT_mm = 0.5;
const HOLD_LIFT_mm = 0.3;
const HIGHEST_mm = 3;
/** Near enough to the asked place to close the jaws: across and above, mm; and the longest wait, seconds. */
const ARRIVED_mm = 0.12;
const LOW_ENOUGH_mm = 0.12;
const LONGEST_LOWERING_s = 0.7;
/** Speed of the keys, mm/s, where nothing else is set, and the share of it at which they go slowly. Our choice. */
export const STEER_mm_per_s = 1.4;
const SLOWLY = 2 / 7;
/** Jaws of a trigger that is about to close them: half of this they would grip. */
const NEARLY_CLOSED = 0.45;
/** The hand keeps inside this distance from the centre, mm; the world clamps at 20. */
const FARTHEST_mm = 12;

export function restingHand(at_mm: Vec2, instrument: InstrumentKind = 'forceps', incision = 0): HandState {
  return {
    doing: 'hovering',
    since_s: 0,
    pointer_mm: at_mm,
    offset_mm: [0, 0],
    hoverLift_mm: HOVER_LIFT_mm,
    holdLift_mm: HOLD_LIFT_mm,
    instrument,
    incision,
    fold: null,
    steer: [0, 0],
    steerSlowly: false,
    lean_mm: 0,
    squeeze: 0,
    steady: null,
    adrift: false,
  };
}

/** A hand that goes on from what another asked last: what was held stays held, where it is. */
export function takenOver(last: HandCommand): HandState {
  const hand = restingHand([last.x_mm, last.y_mm], last.instrument, last.incision);
  return last.jaws > 0.5
    ? { ...doing(hand, 'holding'), holdLift_mm: last.lift_mm, adrift: true }
    : { ...hand, hoverLift_mm: last.lift_mm };
}

/** After a rest the pointer may be anywhere: what is held does not leap to it. */
export const rested = (hand: HandState): HandState => ({ ...hand, steer: [0, 0], adrift: hand.doing !== 'hovering' });

const doing = (hand: HandState, next: Doing): HandState => ({ ...hand, doing: next, since_s: 0 });

/** The hand after something happened. Pure; `seen` is the last view. */
export function handAfter(hand: HandState, event: HandEvent, seen: Seen): HandState {
  switch (event.kind) {
    case 'point':
      return pointed(hand, kept(event.at_mm));
    case 'move':
      return moved(hand, event.by_mm);
    case 'squeeze':
      return { ...hand, squeeze: limitedTo(1, event.share) };
    case 'lean':
      return hand.doing === 'hovering' ? hand : { ...hand, lean_mm: event.lift_mm };
    case 'press':
      return hand.doing === 'hovering' ? doing(hand, hand.instrument === 'cannula' ? 'holding' : 'lowering') : hand;
    case 'release':
      return hand.doing === 'hovering' ? hand : opened(hand);
    case 'toggle':
      return handAfter(hand, { kind: hand.doing === 'hovering' ? 'press' : 'release' }, seen);
    case 'fold':
      return folding(hand, seen);
    case 'raise':
      return raised(hand, event.by_mm);
    case 'take':
      return { ...opened(hand), instrument: event.instrument };
    case 'enter-through':
      return { ...opened(hand), incision: event.incision };
    case 'steer':
      return { ...hand, steer: event.direction, steerSlowly: event.slowly };
    case 'pass':
      return passed(steered(hand, event.dt_s, event.ways), event.dt_s, seen, event.ways);
  }
}

/** What the hand asks of the instrument now. */
export function commandOf(hand: HandState, seen: Seen): HandCommand {
  const { at_mm, lift_mm } = asked(hand, seen);
  return {
    x_mm: at_mm[0],
    y_mm: at_mm[1],
    lift_mm,
    jaws: hand.doing === 'holding' || hand.doing === 'folding' ? 1 : NEARLY_CLOSED * hand.squeeze,
    instrument: hand.instrument,
    incision: hand.incision,
  };
}

/** Where the hand asks the tip to be, mm. */
export function askedTip(hand: HandState): Vec2 {
  if (hand.doing === 'folding' && hand.fold !== null) return foldAt(hand.fold, hand.since_s).at_mm;
  return hand.steady?.at_mm ?? unsteadied(hand);
}

const unsteadied = ({ pointer_mm, offset_mm }: HandState): Vec2 => [
  pointer_mm[0] + offset_mm[0],
  pointer_mm[1] + offset_mm[1],
];

/** A height within 0 and a limit, mm; what is not a number is no height. */
const limitedTo = (most: number, value: number): number =>
  Number.isFinite(value) ? Math.min(most, Math.max(0, value)) : 0;

function asked(hand: HandState, seen: Seen): { at_mm: Vec2; lift_mm: number } {
  if (hand.doing === 'folding' && hand.fold !== null) return foldAt(hand.fold, hand.since_s);
  const at_mm = askedTip(hand);
  if (hand.doing === 'hovering' || hand.instrument === 'cannula') return { at_mm, lift_mm: hand.hoverLift_mm };
  // nothing taken yet: stay on the tissue
  const low = hand.doing === 'lowering' || !seen.instrument.gripping;
  return { at_mm, lift_mm: low ? 0 : limitedTo(HIGHEST_mm, hand.holdLift_mm + hand.lean_mm) };
}

function pointed(hand: HandState, at_mm: Vec2): HandState {
  if (!hand.adrift || hand.doing === 'hovering') return { ...hand, pointer_mm: at_mm, adrift: false };
  const offset_mm: Vec2 = [
    hand.pointer_mm[0] + hand.offset_mm[0] - at_mm[0],
    hand.pointer_mm[1] + hand.offset_mm[1] - at_mm[1],
  ];
  return { ...hand, pointer_mm: at_mm, offset_mm, adrift: false };
}

const opened = (hand: HandState): HandState => ({
  ...doing(hand, 'hovering'),
  fold: null,
  offset_mm: [0, 0],
  lean_mm: 0,
});

function folding(hand: HandState, seen: Seen): HandState {
  if (hand.doing !== 'holding' || hand.instrument !== 'forceps' || !seen.instrument.gripping) return hand;
  const grip = askedTip(hand);
  const tip = nearestTip(grip, seen.tips);
  return tip === null ? hand : { ...doing(hand, 'folding'), fold: planFold(grip, tip, hand.holdLift_mm) };
}

function raised(hand: HandState, by_mm: number): HandState {
  const limited = (lift: number) => limitedTo(HIGHEST_mm, lift + by_mm);
  return hand.doing === 'hovering'
    ? { ...hand, hoverLift_mm: limited(hand.hoverLift_mm) }
    : { ...hand, holdLift_mm: limited(hand.holdLift_mm) };
}

function steered(hand: HandState, dt_s: number, ways: HandWays | undefined): HandState {
  const [dx, dy] = hand.steer;
  if (dx === 0 && dy === 0) return hand;
  const speed_mm_per_s = (ways?.keys_mm_per_s ?? STEER_mm_per_s) * (hand.steerSlowly ? SLOWLY : 1);
  const way_mm = (speed_mm_per_s * dt_s) / Math.hypot(dx, dy);
  return moved(hand, [dx * way_mm, dy * way_mm]);
}

function moved(hand: HandState, by_mm: Vec2): HandState {
  return { ...hand, pointer_mm: kept([hand.pointer_mm[0] + by_mm[0], hand.pointer_mm[1] + by_mm[1]]) };
}

/** The steadied place goes on from the asked one; a fold is steady by itself and goes unfiltered. */
function steadied(hand: HandState, dt_s: number, ways: HandWays | undefined): HandState {
  const steadying = ways?.steadying ?? null;
  if (steadying === null) return hand.steady === null ? hand : { ...hand, steady: null };
  const before = hand.doing === 'folding' ? null : hand.steady;
  return { ...hand, steady: steadiedAfter(before, unsteadied(hand), dt_s, steadying) };
}

function passed(before: HandState, dt_s: number, seen: Seen, ways: HandWays | undefined): HandState {
  const hand = steadied(before, dt_s, ways);
  const later = { ...hand, since_s: hand.since_s + dt_s };
  if (later.doing === 'lowering') {
    const [x, y, z] = seen.instrument.tip_mm;
    const [ax, ay] = askedTip(later);
    const there = Math.hypot(x - ax, y - ay) < ARRIVED_mm && z < LOW_ENOUGH_mm;
    return there || later.since_s > LONGEST_LOWERING_s ? doing(later, 'holding') : later;
  }
  if (later.doing === 'folding' && later.fold !== null && later.since_s >= FOLD_s) return folded(later, later.fold);
  return later;
}

/** The flap lies; the pointer goes on from wherever it is now. */
function folded(hand: HandState, fold: FoldPath): HandState {
  const laid = foldAt(fold, FOLD_s);
  return {
    ...doing(hand, 'holding'),
    fold: null,
    holdLift_mm: laid.lift_mm,
    offset_mm: [laid.at_mm[0] - hand.pointer_mm[0], laid.at_mm[1] - hand.pointer_mm[1]],
    lean_mm: 0,
    steady: hand.steady === null ? null : { ...hand.steady, at_mm: laid.at_mm, raw_mm: laid.at_mm },
  };
}

/** Finite and inside the reach of the stage; a pointer that is neither stays where it can. */
function kept([x, y]: Vec2): Vec2 {
  const distance = Math.hypot(x, y);
  if (!Number.isFinite(distance)) return [0, 0];
  return distance <= FARTHEST_mm ? [x, y] : [(x / distance) * FARTHEST_mm, (y / distance) * FARTHEST_mm];
}

import type { Vec2 } from '../../physics/index.ts';
import type { HandEvent } from './hand.ts';
import { FREE, type HeldWay, tipOf } from './held-way.ts';

/**
 * A pen: above the stage and lightly on it, it moves the open jaws; pressed, it closes them; its barrel button lays the flap over.
 * Standing it up more raises the tip, leaning it lowers it. The pen could turn the instrument instead, but the shaft passes an
 * incision, so its direction is given with the tip's place: there is nothing to turn, and height has no other finger.
 */
export interface PenHand {
  readonly way: HeldWay;
  readonly closed: boolean;
  /** How far the pen leaned from upright when it closed, degrees. */
  readonly closedLean_deg: number;
  readonly barrel: boolean;
}

export const RESTING_PEN: PenHand = { way: FREE, closed: false, closedLean_deg: 0, barrel: false };

/** What a pen says of itself. */
export interface PenSample {
  readonly at_mm: Vec2;
  /** 0 above the stage, to 1. A pen that feels no pressure says 0.5 on the stage. */
  readonly pressure: number;
  /** From upright, degrees, -90 to 90 each. */
  readonly tiltX_deg: number;
  readonly tiltY_deg: number;
  readonly barrel: boolean;
}

export interface PenWays {
  readonly sensitivity: number;
  /** Pressure that closes the jaws. */
  readonly closes: number;
  readonly tilt_mm_per_deg: number;
}

/** The jaws open where the pressure falls below this share of the one that closes them: a trembling hand holds on. Assumed, 0.3 to 0.8. */
export const OPENS_SHARE = 0.5;
/** Leaning less than this, more or less than at the grasp, is no wish to raise or lower, degrees. Assumed, 2 to 6. */
const STEADY_LEAN_deg = 3;

const RAD = Math.PI / 180;
/** A pen that says that it lies flat would have an endless slope. */
const tangent = (tilt_deg: number): number => Math.tan(Math.min(89, Math.max(-89, tilt_deg || 0)) * RAD);

/** How far a pen leans from upright, whichever way, degrees. */
export const lean_deg = ({ tiltX_deg, tiltY_deg }: Pick<PenSample, 'tiltX_deg' | 'tiltY_deg'>): number =>
  Math.atan(Math.hypot(tangent(tiltX_deg), tangent(tiltY_deg))) / RAD;

/** Height that leaning adds, mm: nothing close to how the pen stood at the grasp, from there in proportion. */
function leanLift_mm(now_deg: number, then_deg: number, mm_per_deg: number): number {
  const upright_deg = then_deg - now_deg;
  const meant_deg = Math.sign(upright_deg) * Math.max(0, Math.abs(upright_deg) - STEADY_LEAN_deg);
  return meant_deg * mm_per_deg;
}

/** The pen after it was seen again, and what that asks of the hand. */
export function penAfter(pen: PenHand, sample: PenSample, ways: PenWays): readonly [PenHand, readonly HandEvent[]] {
  const { at_mm, pressure, barrel } = sample;
  const closed = pressure >= (pen.closed ? OPENS_SHARE : 1) * ways.closes;
  const closing = closed && !pen.closed;
  const way = closing ? { taken_mm: at_mm } : closed ? pen.way : FREE;
  const closedLean_deg = closing ? lean_deg(sample) : pen.closedLean_deg;
  const events: HandEvent[] = [];
  if (pen.closed && !closed) events.push({ kind: 'release' });
  events.push({ kind: 'point', at_mm: tipOf(way, at_mm, ways.sensitivity) });
  if (!closed) events.push({ kind: 'squeeze', share: pressure / ways.closes });
  else if (closing) events.push({ kind: 'squeeze', share: 0 }, { kind: 'press' });
  else events.push({ kind: 'lean', lift_mm: leanLift_mm(lean_deg(sample), closedLean_deg, ways.tilt_mm_per_deg) });
  if (barrel && !pen.barrel) events.push({ kind: 'fold' });
  return [{ way, closed, closedLean_deg, barrel }, events];
}

/** The pen was lifted out of sight, or the system has taken it: what is held is let go. */
export const penGone = (pen: PenHand): readonly [PenHand, readonly HandEvent[]] => [
  RESTING_PEN,
  [...(pen.closed ? [{ kind: 'release' } as const] : []), { kind: 'squeeze', share: 0 }],
];

import type { Vec2 } from '../../physics/index.ts';

/** How a trembling hand is steadied: a low-pass filter whose cutoff rises with the speed of the hand. */
export interface Steadying {
  /** Cutoff of a resting hand, Hz. */
  readonly slowest_Hz: number;
  /** What each mm/s of speed adds to the cutoff, Hz. */
  readonly perSpeed_Hz_s_per_mm: number;
  /** Cutoff with which the speed itself is smoothed, Hz. */
  readonly speed_Hz: number;
}

/**
 * The filter of Casiez, Roussel and Vogel (CHI 2012, "1 euro filter"). The 1 Hz for the speed is theirs. The other two are tuned as
 * they advise, first at rest, then in motion, for a tremor of 8 to 12 Hz and pulls of 1 to 3 mm/s: assumed, 0.7 to 3 Hz
 * and 0.3 to 3 Hz per mm/s.
 */
export const STEADYING: Steadying = { slowest_Hz: 1.5, perSpeed_Hz_s_per_mm: 1, speed_Hz: 1 };

/** A hand that is being steadied. */
export interface Steadied {
  /** Where the steadied hand is, and where the hand itself was last, mm. */
  readonly at_mm: Vec2;
  readonly raw_mm: Vec2;
  /** Smoothed velocity of the hand itself, mm/s. */
  readonly velocity_mm_per_s: Vec2;
}

/** Share of the new value in a first-order filter, from its cutoff, Hz, and the time since the last value, s. */
const newShare = (cutoff_Hz: number, dt_s: number): number => 1 / (1 + 1 / (2 * Math.PI * cutoff_Hz * dt_s));

const cutoff_Hz = (speed_mm_per_s: number, by: Steadying): number =>
  by.slowest_Hz + by.perSpeed_Hz_s_per_mm * speed_mm_per_s;

/**
 * The steadied hand after a time. One cutoff serves both directions, from the speed along the way, so that how a
 * hand is steadied does not depend on where it goes; the authors filter each direction by itself.
 * @param before null begins at the place given
 * @param at_mm where the hand is now
 */
export function steadiedAfter(before: Steadied | null, at_mm: Vec2, dt_s: number, by: Steadying): Steadied {
  if (before === null) return { at_mm, raw_mm: at_mm, velocity_mm_per_s: [0, 0] };
  if (!(dt_s > 0)) return before;
  const mixed = (old: Vec2, fresh: Vec2, share: number): Vec2 => [
    old[0] + share * (fresh[0] - old[0]),
    old[1] + share * (fresh[1] - old[1]),
  ];
  const now: Vec2 = [(at_mm[0] - before.raw_mm[0]) / dt_s, (at_mm[1] - before.raw_mm[1]) / dt_s];
  const velocity_mm_per_s = mixed(before.velocity_mm_per_s, now, newShare(by.speed_Hz, dt_s));
  const share = newShare(cutoff_Hz(Math.hypot(...velocity_mm_per_s), by), dt_s);
  return { at_mm: mixed(before.at_mm, at_mm, share), raw_mm: at_mm, velocity_mm_per_s };
}

/** How far the steadied hand is behind one that moves at a constant speed, ms: the time constant of the filter. */
export const lag_ms = (speed_mm_per_s: number, by: Steadying): number =>
  1000 / (2 * Math.PI * cutoff_Hz(speed_mm_per_s, by));

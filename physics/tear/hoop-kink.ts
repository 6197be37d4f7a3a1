/**
 * Which way a tear in a taut sheet turns: across the largest hoop tension round its tip (Erdogan and Sih 1963). Angles from
 * the forward tangent, positive to the left; KI opens the tear, positive KII moves its left face forward and turns it right.
 * K in any one unit.
 */

import { cos, sin } from '../core/elementary/circular.ts';
import { atan } from '../core/elementary/inverse-circular.ts';

/** Hoop tension at the angle th over 1/sqrt(2 pi r): the opening intensity that a short kink that way would have. */
export function hoopIntensity(KI: number, KII: number, th_rad: number): number {
  const c = cos(th_rad / 2);
  return c * (KI * c * c - 1.5 * KII * sin(th_rad));
}

/** A kink of the hoop rule: where to, and the intensity there. */
export interface HoopKink {
  /** Within +-70.53 degrees of the tangent where the tear opens (KI of 0 or more), up to 180 where it is pressed shut. */
  readonly turn_deg: number;
  /** In the unit of K; 0 where no direction is under tension. */
  readonly intensity: number;
}

/**
 * The direction of largest hoop tension. Stationary where KI sin th + KII (3 cos th - 1) = 0; of the two roots the one under
 * tension is tan(th/2) = (KI - sqrt(KI^2 + 8 KII^2))/(4 KII).
 *
 * @returns a turn of 0 and no intensity where either K is not finite, or the tear is pressed shut without shear
 */
export function hoopKink(KI: number, KII: number): HoopKink {
  if (!(Number.isFinite(KI) && Number.isFinite(KII))) return { turn_deg: 0, intensity: 0 };
  if (KII === 0) return { turn_deg: 0, intensity: Math.max(0, KI) };
  const root = Math.sqrt(KI * KI + 8 * KII * KII);
  // the same root without the difference of near numbers, where the tear opens
  const half = KI > 0 ? (-2 * KII) / (KI + root) : (KI - root) / (4 * KII);
  const th = 2 * atan(half);
  return { turn_deg: (th * 180) / Math.PI, intensity: Math.max(0, hoopIntensity(KI, KII, th)) };
}

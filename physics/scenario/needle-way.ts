/** The way on which a guided hand takes the needle. */
import { cos, sin } from '../core/elementary/circular.ts';
import { exp } from '../core/elementary/exponential.ts';
import type { Vec2 } from '../world/contract.ts';
import type { GuidedHand } from './hand.ts';

const DEG = Math.PI / 180;

const polarFrom =
  (centre_mm: Vec2) =>
  (r: number, angle_deg: number): Vec2 => [
    centre_mm[0] + r * cos(angle_deg * DEG),
    centre_mm[1] + r * sin(angle_deg * DEG),
  ];

/**
 * Way of the needle: in at half the line's radius, out to the line, and a little along it; or the puncture alone where the hand
 * asks for no more.
 */
export function cutWay(hand: GuidedHand, centre_mm: Vec2, line_mm: number): Vec2[] {
  const at = polarFrom(centre_mm);
  if (hand.puncture) {
    const { drawnTo } = hand.puncture;
    return [hand.puncture, ...(drawnTo ? [drawnTo] : [])].map(({ radius_mm, clock_h }) =>
      at(radius_mm, 90 - 30 * clock_h),
    );
  }
  const way = [at(0.5 * line_mm, 90), at(0.86 * line_mm, 92)];
  for (let angle = 97; angle <= 125; angle += 4) way.push(at(line_mm * (1 - 0.14 * exp(-(angle - 92) / 10)), angle));
  return way;
}

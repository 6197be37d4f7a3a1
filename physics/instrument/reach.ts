import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { Vec2 } from '../world/contract.ts';
import { ASK_LIMIT_mm, INCISION_TURN_deg, LEAST_INSIDE_mm, PRESS_LIMIT_mm } from './shaft-values.ts';

/** What an incision makes of a tip position the hand asks for. */
export interface Reach {
  /** Nearest place the tip can be, mm. */
  readonly tip_mm: Vec2;
  /** Direction of the shaft from incision to that place, radians counter-clockwise from +x. */
  readonly shaft_rad: number;
  /** Distance from the incision to that place, mm. */
  readonly inside_mm: number;
  /** How far the asked place is from that one, mm. */
  readonly missed_mm: number;
  /** How far beyond the incision's turn the place lies, mm, signed as the turn is, limited to what a hand presses. */
  readonly turnPress_mm: number;
  /** How far beyond the far wall, mm, limited likewise. */
  readonly wallPress_mm: number;
}

const TURN_rad = (INCISION_TURN_deg * Math.PI) / 180;

/**
 * Nearest reach of an asked tip position through an incision: within the incision's turn of 60 degrees either way of its radius
 * and inside the wall of the chamber.
 *
 * @param asked_mm any finite position; beyond 20 mm from the centre it is brought back to that
 * @param fulcrum_mm the incision, not at the centre
 * @param wallRadius_mm radius, about the centre, that the tip cannot pass
 */
export function reachOf(asked_mm: Vec2, fulcrum_mm: Vec2, wallRadius_mm: number): Reach {
  const distance = hypot(asked_mm[0], asked_mm[1]);
  const scale = distance > ASK_LIMIT_mm ? ASK_LIMIT_mm / distance : 1;
  const asked: Vec2 = [asked_mm[0] * scale, asked_mm[1] * scale];
  const [dx, dy] = [asked[0] - fulcrum_mm[0], asked[1] - fulcrum_mm[1]];
  const radial = atan2(-fulcrum_mm[1], -fulcrum_mm[0]);
  // Off the radius by -pi..pi; a place behind the incision is beyond the turn on the side on which it lies.
  const off = atan2(cos(radial) * dy - sin(radial) * dx, cos(radial) * dx + sin(radial) * dy);
  const turn = Math.min(Math.max(off, -TURN_rad), TURN_rad);
  const shaft_rad = radial + turn;
  const along = hypot(dx, dy) * Math.max(cos(off - turn), 0);
  const wall = Math.max(distanceToWall(fulcrum_mm, shaft_rad, wallRadius_mm), LEAST_INSIDE_mm);
  const inside_mm = Math.min(Math.max(along, LEAST_INSIDE_mm), wall);
  const tip_mm: Vec2 = [fulcrum_mm[0] + inside_mm * cos(shaft_rad), fulcrum_mm[1] + inside_mm * sin(shaft_rad)];
  const beyondTurn = Math.min(hypot(dx, dy) * sin(Math.min(Math.abs(off - turn), Math.PI / 2)), PRESS_LIMIT_mm);
  return {
    tip_mm,
    shaft_rad,
    inside_mm,
    missed_mm: hypot(asked[0] - tip_mm[0], asked[1] - tip_mm[1]),
    turnPress_mm: Math.sign(off) * beyondTurn,
    wallPress_mm: Math.min(Math.max(along - wall, 0), PRESS_LIMIT_mm),
  };
}

/** From a place on or near the wall, along a direction, to where the direction leaves the chamber's circle, mm; 0 if it never does. */
function distanceToWall(from: Vec2, angle_rad: number, radius: number): number {
  const [c, s] = [cos(angle_rad), sin(angle_rad)];
  const along = -(from[0] * c + from[1] * s);
  const aside = from[0] * s - from[1] * c;
  const half = radius * radius - aside * aside;
  return half > 0 ? along + Math.sqrt(half) : 0;
}

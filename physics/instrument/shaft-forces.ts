import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { Vec2 } from '../world/contract.ts';
import type { InstrumentSite } from './contract.ts';
import { pushShaft, type Shaft, shaftPoint, shaftSpin, shaftVelocity, turnShaft } from './shaft.ts';
import * as value from './shaft-values.ts';

/** The hold: a spring and a damper between the hand's place and the handle, together no stronger than fingers push. */
export function handPush(shaft: Shaft, hand_mm: Vec2, handVelocity_mm_per_s: Vec2, dt_s: number): void {
  const at = shaftPoint(shaft, shaft.length_mm);
  const velocity = shaftVelocity(shaft, shaft.length_mm, dt_s);
  const pull = (axis: 0 | 1) =>
    value.HAND_STIFFNESS_mN_per_mm * (hand_mm[axis] - at[axis]) +
    value.HAND_DAMPING_mN_s_per_mm * (handVelocity_mm_per_s[axis] - velocity[axis]);
  const force: Vec2 = [pull(0), pull(1)];
  const size = hypot(force[0], force[1]);
  const scale = size > value.HAND_FORCE_LIMIT_mN ? value.HAND_FORCE_LIMIT_mN / size : 1;
  pushShaft(shaft, at, [force[0] * scale, force[1] * scale]);
}

/**
 * The incision: springy sides against a shaft that presses across its length, rubbing along it, and a stop where it is turned too far.
 *
 * @returns the force across the shaft on the sides, mN, never negative
 */
export function incisionPush(shaft: Shaft, fulcrum_mm: Vec2, dt_s: number): number {
  const { angle } = shaft.body;
  const [c, s] = [cos(angle), sin(angle)];
  const tip = shaftPoint(shaft, 0);
  const back = (tip[0] - fulcrum_mm[0]) * c + (tip[1] - fulcrum_mm[1]) * s;
  const at = shaftPoint(shaft, back);
  const velocity = shaftVelocity(shaft, back, dt_s);
  const aside = (fulcrum_mm[0] - at[0]) * -s + (fulcrum_mm[1] - at[1]) * c;
  const asideVelocity = velocity[0] * -s + velocity[1] * c;
  const across = value.INCISION_STIFFNESS_mN_per_mm * aside - value.INCISION_DAMPING_mN_s_per_mm * asideVelocity;
  const along = -value.INCISION_RUBBING_mN_s_per_mm * (velocity[0] * c + velocity[1] * s);
  pushShaft(shaft, at, [along * c - across * s, along * s + across * c]);
  turnStop(shaft, fulcrum_mm, dt_s);
  return Math.abs(across);
}

function turnStop(shaft: Shaft, fulcrum_mm: Vec2, dt_s: number): void {
  const radial = atan2(-fulcrum_mm[1], -fulcrum_mm[0]);
  const off = atan2(sin(shaft.body.angle - radial), cos(shaft.body.angle - radial));
  const over = Math.abs(off) - (value.INCISION_TURN_deg * Math.PI) / 180;
  if (over <= 0) return;
  const couple = value.TURN_STOP_mN_mm_per_rad * over * Math.sign(off);
  turnShaft(shaft, -couple - value.TURN_STOP_mN_mm_s_per_rad * shaftSpin(shaft, dt_s));
}

/** Drag of the fluid on the part inside, taken at its middle. */
export function fluidPush(shaft: Shaft, fulcrum_mm: Vec2, drag_mN_s_per_mm: number, dt_s: number): void {
  const tip = shaftPoint(shaft, 0);
  const inside = hypot(tip[0] - fulcrum_mm[0], tip[1] - fulcrum_mm[1]);
  const velocity = shaftVelocity(shaft, inside / 2, dt_s);
  pushShaft(shaft, shaftPoint(shaft, inside / 2), [-drag_mN_s_per_mm * velocity[0], -drag_mN_s_per_mm * velocity[1]]);
}

/** The iris margin on a low tip that leaves the pupil: soft, toward the pupil's centre. */
export function irisPush(shaft: Shaft, site: InstrumentSite, lift_mm: number): void {
  if (lift_mm > value.IRIS_HEIGHT_mm) return;
  const tip = shaftPoint(shaft, 0);
  const [dx, dy] = [tip[0] - site.pupilCentre_mm[0], tip[1] - site.pupilCentre_mm[1]];
  const distance = hypot(dx, dy);
  const over = distance - site.pupilDiameter_mm / 2;
  if (over <= 0) return;
  const push = Math.min(value.IRIS_STIFFNESS_mN_per_mm * over, value.IRIS_FORCE_LIMIT_mN) / distance;
  pushShaft(shaft, tip, [-push * dx, -push * dy]);
}

/** The wall at the incision, where the fixed blocks leave room for the shaft: the tip itself does not pass there either. */
export function wallPush(shaft: Shaft, wallRadius_mm: number, dt_s: number): void {
  const tip = shaftPoint(shaft, 0);
  const distance = hypot(tip[0], tip[1]);
  const over = distance - wallRadius_mm;
  if (over <= 0) return;
  const [outX, outY] = [tip[0] / distance, tip[1] / distance];
  const velocity = shaftVelocity(shaft, 0, dt_s);
  const outward = velocity[0] * outX + velocity[1] * outY;
  const push = Math.max(value.WALL_STIFFNESS_mN_per_mm * over + value.WALL_DAMPING_mN_s_per_mm * outward, 0);
  pushShaft(shaft, tip, [-push * outX, -push * outY]);
}

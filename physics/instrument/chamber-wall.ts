import { cos, sin, tan } from '../core/elementary/circular.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { Vec2 } from '../world/contract.ts';
import Matter from './matter.ts';

/** The tip's end is stopped this far inside the limbus, mm: the angle of the chamber. Assumed, 0.2-0.6. */
const ANGLE_DEPTH_mm = 0.3;
const SEGMENTS = 48;
const THICKNESS_mm = 2;
/** Half width of the part left open round the incision, degrees: a shaft turned 60 degrees crosses the wall well aside. */
const GAP_deg = 50;

/** Radius about the centre that a tip cannot pass, mm. */
export const wallRadius = (limbusDiameter_mm: number): number => limbusDiameter_mm / 2 - ANGLE_DEPTH_mm;

/**
 * Fixed blocks round the chamber, open where the shaft comes in. Inner faces touch the wall's circle. In the open part the tip is
 * held by a push of its own, see shaft-forces.ts.
 */
export function chamberWall(limbusDiameter_mm: number, fulcrum_mm: Vec2): Matter.Body[] {
  const radius = wallRadius(limbusDiameter_mm) + THICKNESS_mm / 2;
  const width = 2 * (radius + THICKNESS_mm / 2) * tan(Math.PI / SEGMENTS);
  const entry = atan2(fulcrum_mm[1], fulcrum_mm[0]);
  const blocks: Matter.Body[] = [];
  for (let k = 0; k < SEGMENTS; k++) {
    const angle = entry + (2 * Math.PI * (k + 0.5)) / SEGMENTS;
    const off = Math.abs(atan2(sin(angle - entry), cos(angle - entry)));
    if (off < (GAP_deg * Math.PI) / 180) continue;
    const block = Matter.Bodies.rectangle(radius * cos(angle), radius * sin(angle), THICKNESS_mm, width, {
      isStatic: true,
      angle,
      friction: 0,
      frictionStatic: 0,
      restitution: 0,
    });
    blocks.push(block);
  }
  return blocks;
}

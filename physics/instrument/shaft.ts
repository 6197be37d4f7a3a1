import { cos, sin } from '../core/elementary/circular.ts';
import type { Vec2 } from '../world/contract.ts';
import Matter from './matter.ts';

/*
 * A rigid body in matter-js, in our units. The library moves a body by velocity + force/mass * delta^2 with delta in
 * milliseconds; positions are mm and masses kg, so a force in mN (kg mm/s^2) enters times 1e-6 (s^2 per ms^2).
 * Velocities are taken from the last displacement, since the library's own are scaled to its usual frame.
 */
const PER_MS2 = 1e-6;

/** The library's last displacement, which its types leave out. */
interface Verlet {
  readonly positionPrev: Matter.Vector;
  readonly anglePrev: number;
}
const verlet = (body: Matter.Body) => body as unknown as Verlet;

/** A slender bar with its tip at the end that `angle` points to. Owns nothing global: ids do not enter the motion. */
export interface Shaft {
  readonly engine: Matter.Engine;
  readonly body: Matter.Body;
  readonly length_mm: number;
}

/**
 * Makes a uniform bar at rest and an engine of its own without gravity.
 *
 * @param tip_mm place of the tip; @param angle_rad direction from the other end to the tip
 * @param obstacles fixed bodies that it meets
 */
export function createShaft(
  tip_mm: Vec2,
  angle_rad: number,
  size: { readonly length_mm: number; readonly width_mm: number; readonly mass_kg: number },
  obstacles: readonly Matter.Body[],
): Shaft {
  const engine = Matter.Engine.create({ gravity: { x: 0, y: 0, scale: 0 } });
  const { length_mm, width_mm, mass_kg } = size;
  const x = tip_mm[0] - (length_mm / 2) * cos(angle_rad);
  const y = tip_mm[1] - (length_mm / 2) * sin(angle_rad);
  const body = Matter.Bodies.rectangle(x, y, length_mm, width_mm, {
    angle: angle_rad,
    frictionAir: 0,
    friction: 0,
    frictionStatic: 0,
    restitution: 0,
    slop: 0.01,
  });
  Matter.Body.setMass(body, mass_kg);
  Matter.Body.setInertia(body, (mass_kg * length_mm * length_mm) / 12);
  Matter.Composite.add(engine.world, [body, ...obstacles]);
  return { engine, body, length_mm };
}

/** Position of a place on the shaft, `back_mm` behind the tip. */
export function shaftPoint({ body, length_mm }: Shaft, back_mm: number): Vec2 {
  const reach = length_mm / 2 - back_mm;
  return [body.position.x + reach * cos(body.angle), body.position.y + reach * sin(body.angle)];
}

/** Velocity of a place on the shaft over the last sub-step, mm/s. */
export function shaftVelocity({ body, length_mm }: Shaft, back_mm: number, dt_s: number): Vec2 {
  const reach = length_mm / 2 - back_mm;
  const spin = (body.angle - verlet(body).anglePrev) / dt_s;
  const previous = verlet(body).positionPrev;
  return [
    (body.position.x - previous.x) / dt_s - spin * reach * sin(body.angle),
    (body.position.y - previous.y) / dt_s + spin * reach * cos(body.angle),
  ];
}

/** Turning rate over the last sub-step, rad/s. */
export const shaftSpin = ({ body }: Shaft, dt_s: number): number => (body.angle - verlet(body).anglePrev) / dt_s;

/** Adds a force, mN, at a place given in the plane. */
export function pushShaft({ body }: Shaft, at_mm: Vec2, force_mN: Vec2): void {
  const force = { x: force_mN[0] * PER_MS2, y: force_mN[1] * PER_MS2 };
  Matter.Body.applyForce(body, { x: at_mm[0], y: at_mm[1] }, force);
}

/** Adds a couple, mN mm, counter-clockwise. */
export function turnShaft({ body }: Shaft, couple_mN_mm: number): void {
  body.torque += couple_mN_mm * PER_MS2;
}

/** One sub-step; consumes the forces added before it. */
export function advanceShaft({ engine }: Shaft, dt_s: number): void {
  Matter.Engine.update(engine, dt_s * 1000);
}

import { cos, sin } from '../../core/elementary/circular.ts';
import { hypot } from '../../core/elementary/hypot.ts';
import { atan2 } from '../../core/elementary/inverse-circular.ts';
import { log } from '../../core/elementary/logarithm.ts';

/**
 * Answers for a folded flap: a sheet free to leave its plane, pulled by a force F in the plane at a grip. Angles in degrees
 * from the forward tangent of the tear, positive to the centre (the flap's side). T is the tear resistance, mN.
 */
const rad = (deg: number): number => (deg * Math.PI) / 180;
const deg = (radians: number): number => (radians * 180) / Math.PI;

export interface TipForce {
  /** Size over the pull F. */
  readonly sizeOverF: number;
  readonly direction_deg: number;
}

/**
 * Trousers: G = 2 l F/t - w W with legs of width w stretched by l, W their energy per volume. Rivlin and Thomas 1953.
 *
 * @param F_mN pull
 * @param t_um thickness
 * @returns J/m^2; mN over um is 1000 J/m^2 and kPa times mm is 1 J/m^2
 */
export const trousersG_J_per_m2 = (F_mN: number, t_um: number, l = 1, width_mm = 0, W_kPa = 0): number =>
  (2000 * l * F_mN) / t_um - width_mm * W_kPa;

/**
 * Tip force of a folded, hardly stretched flap: J = F (f - p), p the unit vector in the unloaded sheet from tip to grip, f
 * the unit pull. It runs along the bisector of f and -p, square to the fold. Derived in the framework of Roman 2013.
 */
export function foldedFlapForce(grip_deg: number, pull_deg: number): TipForce {
  const x = cos(rad(pull_deg)) - cos(rad(grip_deg));
  const y = sin(rad(pull_deg)) - sin(rad(grip_deg));
  return { sizeOverF: hypot(x, y), direction_deg: deg(atan2(y, x)) };
}

/** Pull at which a folded flap tears, over T: 1/(2 sin(d/2)), d the angle between p and f. */
export const foldedFlapPullOverT = (grip_deg: number, pull_deg: number): number =>
  1 / (2 * sin(rad(grip_deg - pull_deg) / 2));

/** Folded flap gripped on the torn edge at arc `arc_deg` behind the tip: heading of the tear from its tangent, degrees. */
export const edgeGripHeading_deg = (arc_deg: number, pull_deg: number): number => pull_deg / 2 - arc_deg / 4;

/** The same: pull at which it tears, over T. */
export const edgeGripPullOverT = (arc_deg: number, pull_deg: number): number =>
  1 / (2 * cos(rad(pull_deg / 2 + arc_deg / 4)));

/** The same: pull angle that holds the circle, degrees. */
export const edgeGripHoldAngle_deg = (arc_deg: number): number => arc_deg / 2;

/**
 * The same in a tense sheet whose own share of the tip force is Pi T (j1, -j2): the hold angle from
 * tan((ph - al/2)/2) = Pi j2/(1 - Pi j1). Derived.
 */
export const edgeGripHoldAngleTense_deg = (arc_deg: number, Pi: number, j1: number, j2: number): number =>
  arc_deg / 2 + 2 * deg(atan2(Pi * j2, 1 - Pi * j1));

/**
 * Path of a tear pulled at a fixed grip point in a fixed direction, folded flap: the parabola r (1 - cos th) = const with
 * the grip as focus, opening along the pull. Derived.
 *
 * @param r0 and th0_deg polar start about the grip, th from the pull
 * @param length arc length torn, in the unit of r0
 * @returns end point, x along the pull
 */
export function parabolaPathEnd(r0: number, th0_deg: number, length: number): readonly [number, number] {
  const constant = r0 * (1 - cos(rad(th0_deg)));
  // y as parameter: x = (y^2 - c^2)/(2 c), dl = sqrt(1 + y^2/c^2) dy, exact length by its antiderivative
  const lengthTo = (y: number) => {
    const secant = hypot(1, y / constant);
    return 0.5 * (y * secant + constant * log(y / constant + secant));
  };
  const y0 = r0 * sin(rad(th0_deg));
  const goal = lengthTo(y0) + length;
  let low = y0;
  let high = y0 + length;
  for (let i = 0; i < 100; i += 1) {
    const middle = 0.5 * (low + high);
    if (lengthTo(middle) < goal) low = middle;
    else high = middle;
  }
  return [(high * high - constant * constant) / (2 * constant), high];
}

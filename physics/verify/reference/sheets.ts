/**
 * Answers for sheets without a tear, against which the membrane is checked. Closed forms from the papers named; stresses
 * nominal, in the unit of the modulus given; nu is Poisson's ratio, S = E t in mN/mm, N0 line tension in mN/mm.
 */

import { cos } from '../../core/elementary/circular.ts';
import { exp } from '../../core/elementary/exponential.ts';

/** Neo-Hookean uniaxial stress over mu at stretch l. Treloar, The Physics of Rubber Elasticity. */
export const neoHookeanUniaxial = (l: number): number => l - l ** -2;

/** Neo-Hookean equibiaxial stress over mu at stretch l. Treloar. */
export const neoHookeanEquibiaxial = (l: number): number => l - l ** -5;

/** Neo-Hookean pure shear stress over mu at stretch l. Treloar. */
export const neoHookeanPureShear = (l: number): number => l - l ** -3;

/** Mooney-Rivlin uniaxial stress, W = c1 (I1 - 3) + c2 (I2 - 3). Rivlin 1948. */
export const mooneyUniaxial = (c1: number, c2: number, l: number): number => 2 * (c1 + c2 / l) * (l - l ** -2);

/** Mooney-Rivlin equibiaxial stress. Rivlin 1948. */
export const mooneyEquibiaxial = (c1: number, c2: number, l: number): number => 2 * (c1 + c2 * l * l) * (l - l ** -5);

/**
 * Planar Fung stress over c at stretch l, W = c/2 (exp(a (e1^2 + e2^2 + 2 nu e1 e2)) - 1), e Green-Lagrange strains.
 * Uniaxial: no stress across means e2 = -nu e1. Fung, Biomechanics.
 */
export function fungUniaxial(a: number, nu: number, l: number): number {
  const e = 0.5 * (l * l - 1);
  const slope = a * (1 - nu * nu) * e;
  return l * slope * exp(slope * e);
}

/** Planar Fung equibiaxial stress over c. */
export function fungEquibiaxial(a: number, nu: number, l: number): number {
  const e = 0.5 * (l * l - 1);
  return l * a * (1 + nu) * e * exp(2 * a * (1 + nu) * e * e);
}

/** Hoop tension at a free hole's margin in a wide sheet under even tension, over N0. Lame. */
export const LAME_HOOP_OVER_N0 = 2;

/** Outward displacement of the margin of a hole of radius a in a wide sheet, from the unstressed sheet, mm. Lame. */
export const lameDisplacementFromUnstressed_mm = (N0: number, S: number, a: number): number => (2 * N0 * a) / S;

/** The same when the hole is cut into the sheet while it is tense, from the tense sheet, mm. Lame. */
export const lameDisplacementFromTense_mm = (N0: number, S: number, a: number, nu: number): number =>
  ((1 + nu) * N0 * a) / S;

export interface SpringRimDisc {
  /** Line tension of the uncut disc, mN/mm. */
  readonly N0: number;
  /** E t, mN/mm. */
  readonly S: number;
  readonly nu: number;
  /** Radius of the hole and of the disc, mm. */
  readonly a: number;
  readonly b: number;
  /** Radial stiffness of the rim per mm of arc, mN/mm^2; 0 is a dead load, Infinity a rigid rim. */
  readonly k: number;
}

/** Ratio of the even to the hole part of the displacement u = q B r/a^2 + B/r. */
function springRimShare({ S, nu, a, b, k }: SpringRimDisc): number {
  if (k === Number.POSITIVE_INFINITY) return -(a * a) / (b * b);
  const s = (k * b * (1 - nu * nu)) / S;
  return ((a * a) / (b * b)) * ((1 - nu - s) / (1 + nu + s));
}

/** Hole cut into a tense disc on rim springs: outward displacement of the margin from the tense disc, mm. From Lame. */
export function springRimDisplacement_mm(disc: SpringRimDisc): number {
  const { N0, S, nu, a } = disc;
  const q = springRimShare(disc);
  const B = (N0 * a * a * (1 - nu * nu)) / (S * (1 - nu - (1 + nu) * q));
  return (B * (1 + q)) / a;
}

/** Hole cut into a tense disc on rim springs: hoop tension at the margin, mN/mm. From Lame. */
export function springRimHoop_mN_per_mm(disc: SpringRimDisc): number {
  const { N0, S, nu, a } = disc;
  const q = springRimShare(disc);
  const B = (N0 * a * a * (1 - nu * nu)) / (S * (1 - nu - (1 + nu) * q));
  return 2 * N0 + (2 * S * q * B) / (a * a * (1 - nu));
}

/** Stress at a hole's margin in a sheet pulled one way, at `angle_deg` from the pull, over the far stress. Kirsch 1898. */
export const kirschHoop = (angle_deg: number): number => 1 - 2 * cos((2 * angle_deg * Math.PI) / 180);

/** Laplace for a spherical cap, mN/mm: kPa times mm. */
export const laplace_mN_per_mm = (pressure_kPa: number, radius_mm: number): number => (pressure_kPa * radius_mm) / 2;

/**
 * Wrinkled annulus with tension Ti on its inner edge R and To on its outer edge b: outer radius of the wrinkled zone, from
 * Ti R (1 + L^2/b^2) = 2 L To; inside it the hoop tension is 0 and N = Ti R/r. Tension-field theory.
 *
 * @returns L in the unit of R; R when nothing wrinkles
 */
export function wrinkleRadius(Ti: number, To: number, R: number, b: number): number {
  const root = (b * b * To) / (Ti * R);
  const discriminant = root * root - b * b;
  if (discriminant < 0) throw new RangeError('wrinkled all the way to the outer edge');
  return Math.max(R, root - Math.sqrt(discriminant));
}

/**
 * Wrinkled share b/H of a strip of width H under tension P and in-plane bending M, from M/(P H). Stein and Hedgepeth 1961.
 * 0 up to 1/6, the whole strip at 1/2.
 */
export const wrinkledShareOfStrip = (momentOverTensionWidth: number): number =>
  Math.min(1, Math.max(0, 3 * momentOverTensionWidth - 0.5));

/** Shear flow of a wide clamped strip as a tension field over that of the same strip held taut. Wagner; Pipkin 1986. */
export const TENSION_FIELD_SHEAR_SHARE = 0.75;

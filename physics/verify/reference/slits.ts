import { cos, sin } from '../../core/elementary/circular.ts';
import { atan, atan2 } from '../../core/elementary/inverse-circular.ts';

/**
 * Answers for slits in a taut flat sheet. s is the far stress, E Young's modulus; K in stress times the root of length,
 * J = K^2/E in plane stress. Angles from the forward tangent of the slit, positive to the centre of an arc.
 */
export interface StressIntensity {
  readonly KI: number;
  readonly KII: number;
}

const rad = (deg: number): number => (deg * Math.PI) / 180;
const deg = (radians: number): number => (radians * 180) / Math.PI;

/** Energy release rate of plane stress. Irwin. */
export const releaseRate = ({ KI, KII }: StressIntensity, E: number): number => (KI * KI + KII * KII) / E;

/**
 * Configurational force vector of a tip: along the tangent (J1) and across it, positive to the side the tip would turn
 * to under negative KII (J2).
 */
export const tipForce = ({ KI, KII }: StressIntensity, E: number): { J1: number; J2: number } => ({
  J1: (KI * KI + KII * KII) / E,
  J2: (-2 * KI * KII) / E,
});

/** Correction for a centre slit of half-length a in a strip of half-width b, al = a/b. Feddersen; Tada. */
export const centreSlitFactor = (al: number): number =>
  Math.sqrt(1 / cos((Math.PI * al) / 2)) * (1 - 0.025 * al ** 2 + 0.06 * al ** 4);

/** Correction for one edge slit of length a in a strip of width b, al = a/b up to 0.6. Brown and Srawley; Tada. */
export const edgeSlitFactor = (al: number): number =>
  1.122 - 0.231 * al + 10.55 * al ** 2 - 21.71 * al ** 3 + 30.382 * al ** 4;

/** K of a slit of half-length (or edge length) a with a correction factor. */
export const slitK = (s: number, a: number, factor: number): StressIntensity => ({
  KI: factor * s * Math.sqrt(Math.PI * a),
  KII: 0,
});

/** Slanted slit of half-length a, `slant_deg` between slit and load, wide sheet pulled one way. Textbook. */
export function slantedSlitK(s: number, a: number, slant_deg: number): StressIntensity {
  const K = s * Math.sqrt(Math.PI * a);
  const be = rad(slant_deg);
  return { KI: K * sin(be) ** 2, KII: K * sin(be) * cos(be) };
}

/**
 * Slit along an arc of radius R and half-angle al in a wide sheet under even tension: a partly torn circle. The sign of
 * KII turns the tip outward. Cotterell and Rice 1980 and earlier, from memory; confirmed by a dislocation solution.
 */
export function arcSlitK(s: number, R: number, halfAngle_deg: number): StressIntensity {
  const al = rad(halfAngle_deg);
  const K0 = (s * Math.sqrt(Math.PI * R * sin(al))) / (1 + sin(al / 2) ** 2);
  return { KI: K0 * cos(al / 2), KII: K0 * sin(al / 2) };
}

/** One radial slit of length a at a free hole of radius R, even tension: a/R and factor F of K = F s sqrt(pi a). Bowie 1956. */
export const HOLE_SLIT_FACTOR: readonly (readonly [number, number])[] = [
  [0.1, 1.986],
  [0.2, 1.803],
  [0.5, 1.479],
  [1, 1.225],
];

/**
 * Force F on one face of a long slit at distance c behind the tip, at `pull_deg` from the forward tangent, sheet of
 * thickness t. Tada, from memory.
 */
export function facePullK(F: number, c: number, t: number, pull_deg: number): StressIntensity {
  const K = F / (t * Math.sqrt(2 * Math.PI * c));
  return { KI: K * sin(rad(pull_deg)), KII: K * cos(rad(pull_deg)) };
}

/**
 * Kink by the largest hoop tension: tan(th/2) = (1 - sqrt(1 + 8 m^2))/(4 m), m = KII/KI. Negative for positive KII.
 * Erdogan and Sih 1963.
 *
 * @returns degrees, within +-70.53
 */
export function kinkAngle_deg({ KI, KII }: StressIntensity): number {
  if (KII === 0) return 0;
  // the same root, written so that KI may be 0
  return 2 * deg(atan((KI - Math.sqrt(KI * KI + 8 * KII * KII)) / (4 * KII)));
}

/**
 * Flat flap in a tense sheet, pulled at one face: pull angle that holds the circle, 90 deg + atan(k2 sqrt(Pi)/(1 -
 * k1 sqrt(Pi))), Pi = N0^2 R/(S T), k1 and k2 those of the arc slit for s = R = 1. Derived.
 */
export function flatFlapHoldAngle_deg(halfAngle_deg: number, Pi: number): number {
  const { KI, KII } = arcSlitK(1, 1, halfAngle_deg);
  const root = Math.sqrt(Pi);
  return 90 + deg(atan2(KII * root, 1 - KI * root));
}

/**
 * Greensmith's k in G = 2 k W a for a short slit in a neo-Hookean sheet, about pi/sqrt(l): stretch, centre slit, edge slit.
 * Greensmith 1963 for the form; the numbers are computed ones.
 */
export const SHORT_SLIT_FACTOR: readonly (readonly [number, number, number])[] = [
  [1.2, 2.74, 3.07],
  [2, 2.13, 2.19],
];

/** Neo-Hookean energy per volume at uniaxial stretch l, in the unit of mu. */
export const neoHookeanEnergyUniaxial = (mu: number, l: number): number => 0.5 * mu * (l * l + 2 / l - 3);

/** Pure-shear strip of unloaded height H0, neo-Hookean: G = W H0. Rivlin and Thomas 1953. kPa times mm is J/m^2. */
export const pureShearG_J_per_m2 = (mu_kPa: number, l: number, H0_mm: number): number =>
  0.5 * mu_kPa * (l * l + 1 / (l * l) - 2) * H0_mm;

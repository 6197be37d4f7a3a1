/**
 * Intensities at the end of a short straight kink of a long slit in a taut sheet, from those at the slit's tip before it. Series in
 * m = turn/180 degrees of Amestoy and Leblond 1992, from memory; checked by their printed angles: in pure shear the opening's
 * own shear is gone at 77.3 degrees, and the energy set free is largest at 75.6.
 */
import type { StressIntensity } from './slits.ts';

const PI = Math.PI;

/** Coefficients of even powers of m from 0, or of odd powers from 1. */
const F11 = [
  1,
  (-3 * PI ** 2) / 8,
  PI ** 2 - (5 * PI ** 4) / 128,
  PI ** 2 / 9 - (11 * PI ** 4) / 72 + (119 * PI ** 6) / 15360,
  5.0779,
  -2.88312,
  -0.0925,
  2.996,
  -4.059,
  1.63,
  4.1,
];
const F12 = [
  (-3 * PI) / 2,
  (10 * PI) / 3 + PI ** 3 / 16,
  -2 * PI - (133 * PI ** 3) / 180 + (59 * PI ** 5) / 1280,
  12.313906,
  -7.32433,
  1.5793,
  4.0216,
  -6.915,
  4.21,
  4.56,
];
const F21 = [
  PI / 2,
  (-4 * PI) / 3 - PI ** 3 / 48,
  (-2 * PI) / 3 + (13 * PI ** 3) / 30 - (59 * PI ** 5) / 3840,
  -6.176023,
  4.44112,
  -1.534,
  -2.07,
  4.684,
  -3.95,
  -1.32,
];
const F22 = [
  1,
  -4 - (3 * PI ** 2) / 8,
  8 / 3 + (29 * PI ** 2) / 18 - (5 * PI ** 4) / 128,
  -32 / 15 - (4 * PI ** 2) / 9 - (1159 * PI ** 4) / 7200 + (119 * PI ** 6) / 15360,
  10.58254,
  -4.78511,
  -1.8804,
  7.28,
  -7.591,
  0.25,
  12.5,
];

const series = (coefficients: readonly number[], m: number, first: 0 | 1): number =>
  coefficients.reduceRight((sum, c) => sum * m * m + c, 0) * (first === 1 ? m : 1);

/** Intensities at the end of a kink; turn positive to the left, and positive KII moves the left face forward. */
export function kinkedK({ KI, KII }: StressIntensity, turn_deg: number): StressIntensity {
  const m = turn_deg / 180;
  return {
    KI: series(F11, m, 0) * KI + series(F12, m, 1) * KII,
    KII: series(F21, m, 1) * KI + series(F22, m, 0) * KII,
  };
}

/** Energy set free by the kink over that of going straight on: 1 at no turn; 0 where it would be pressed shut. */
export function kinkRelease(K: StressIntensity, turn_deg: number): number {
  const kinked = kinkedK(K, turn_deg);
  if (kinked.KI < 0) return 0;
  return (kinked.KI ** 2 + kinked.KII ** 2) / (K.KI ** 2 + K.KII ** 2);
}

/** Turn that sets most energy free, degrees. */
export function largestReleaseTurn_deg(K: StressIntensity): number {
  let best = 0;
  for (let step = 16, around = 0; step > 1e-4; step /= 4, around = best)
    for (let k = -8; k <= 8; k++) {
      const turn = around + k * step;
      if (Math.abs(turn) <= 110 && kinkRelease(K, turn) > kinkRelease(K, best)) best = turn;
    }
  return best;
}

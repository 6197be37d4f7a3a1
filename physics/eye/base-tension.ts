import type { StiffnessPreset } from '../scenario/scenario.ts';
import { type Knot, monotoneCurve } from './monotone.ts';
import { type CapsuleDisc, openingEnlargement } from './radial.ts';

/**
 * How much a finished opening is larger than the line it was cut along, by age. Laser-cut openings in children of
 * 4 months to 8 years: 1.27 - 0.014 age (13 eyes, preprint 202502.1108); 1.211 +- 0.039 at 2 to 6 years (28 eyes, BMC
 * Ophthalmol 2021); 1.06 in adults (47 eyes, Tan and Yuan 2025), used from 40 years on. Between 8 and 40: no data,
 * a monotone join.
 */
const ENLARGEMENT: readonly Knot[] = [
  // the knot before birth only keeps the line straight down to age 0
  ...[-1, 0, 1, 2, 3, 4, 5, 6, 7, 8].map((age): Knot => [age, 1.27 - 0.014 * age]),
  [40, 1.06],
  [95, 1.06],
];

/** Published enlargement of a finished opening at an age of 0 to 95 years, dimensionless. */
export const publishedEnlargement = monotoneCurve(ENLARGEMENT);

/** Diameter the fitted opening ends at: 4.5 mm below 10 years, 5.0 mm from there (usual targets). */
export const fittedOpeningDiameter_mm = (age_years: number): number => (age_years < 10 ? 4.5 : 5);

const FIT_BISECTIONS = 40;

/**
 * Base tension at which the model's opening enlarges as published, at no net pressure: found by bisection over the
 * whole large-stretch answer, line drawn at (4.5 or 5.0 mm)/enlargement.
 *
 * @param age_years 0 to 95, chooses the published enlargement and the line
 * @param disc capsule at that age; its own base tension is not used
 * @returns mN/mm
 */
export function fitBaseTension_mN_per_mm(age_years: number, disc: Omit<CapsuleDisc, 'baseTension_mN_per_mm'>): number {
  const wanted = publishedEnlargement(age_years);
  const line_mm = fittedOpeningDiameter_mm(age_years) / wanted;
  let low = 1e-4;
  let high = disc.thickness_um * disc.youngModulus_MPa;
  for (let i = 0; i < FIT_BISECTIONS; i += 1) {
    const middle = 0.5 * (low + high);
    const got = openingEnlargement({ ...disc, baseTension_mN_per_mm: middle }, line_mm, middle);
    if (got < wanted) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

/** Ages at which the fit was carried out. */
export const FITTED_AGES_years: readonly number[] = [0.5, 2, 4, 6, 20, 40, 60, 75];

/**
 * Results of fitBaseTension_mN_per_mm at those ages, mN/mm; a unit test computes them again. They are kept as numbers
 * because the fit takes some hundred marches and an eye is made often.
 */
const FITTED: Readonly<Record<StiffnessPreset, readonly number[]>> = {
  uniaxial: [0.97835, 0.965724, 0.962363, 0.925326, 0.86132, 0.810789, 0.883438, 0.909826],
  inflation: [8.87318, 9.13526, 8.18485, 7.02467, 3.51636, 1.87583, 1.57822, 1.26072],
};

const fittedCurve = (preset: StiffnessPreset) =>
  monotoneCurve(FITTED_AGES_years.map((age, i): Knot => [age, FITTED[preset][i]]));
const fittedCurves = { uniaxial: fittedCurve('uniaxial'), inflation: fittedCurve('inflation') };

/** Tension of the uncut capsule at no net pressure, mN/mm, at an age of 0 to 95 years; held outside 0.5 to 75. */
export const baseTension_mN_per_mm = (age_years: number, preset: StiffnessPreset): number =>
  fittedCurves[preset](age_years);

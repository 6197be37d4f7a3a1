/**
 * Isotropic membrane materials in plane stress. A material gives the energy per reference volume (kPa = mN/mm^2)
 * as a function of the two principal stretches, with first and second derivatives. Equations: model.md, "Material".
 */

import { exp, expm1 } from '../core/elementary/exponential.ts';

/** Slots of the array that an evaluation fills: W, dW/dl1, dW/dl2, d2W/dl1^2, d2W/dl1dl2, d2W/dl2^2. */
export const W = 0;
export const W1 = 1;
export const W2 = 2;
export const W11 = 3;
export const W12 = 4;
export const W22 = 5;
export const ENERGY_SLOTS = 6;

export interface Material {
  readonly name: string;
  /** Slope of uniaxial stress at no stretch, kPa. */
  readonly youngModulus_kPa: number;
  /** The two constants of the product's material, for those that compute with it directly. */
  readonly exponential?: { readonly shearModulus_kPa: number; readonly stiffening: number };
  /** Fills `out` (6 slots) at principal stretches l1 >= l2 > 0. */
  evaluate(l1: number, l2: number, out: Float64Array): void;
  /** Width stretch at which a strip of length stretch l carries no force across. */
  naturalWidth(l1: number): number;
  /** Derivative of naturalWidth. */
  naturalWidthSlope(l1: number): number;
}

/**
 * Exponent above which the exponential goes on as its own second-order expansion. It is far beyond rupture
 * (exp 12 is 160,000 times the stiffness at rest) and exists only so that a wild hand cannot overflow the energy.
 */
const EXPONENT_CAP = 12;

/** The product's material: W = mu/(2b) (exp(b (I1 - 3)) - 1), I1 = l1^2 + l2^2 + 1/(l1 l2)^2; b = 0 gives neo-Hookean. */
export function exponentialMaterial(shearModulus_kPa: number, stiffening: number): Material {
  const mu = shearModulus_kPa;
  const b = stiffening;
  return {
    name: b > 0 ? 'exponential' : 'neo-Hookean',
    youngModulus_kPa: 3 * mu,
    exponential: { shearModulus_kPa, stiffening },
    evaluate(l1, l2, out) {
      const r1 = 1 / l1;
      const r2 = 1 / l2;
      const l3sq = r1 * r1 * r2 * r2;
      const invariant = l1 * l1 + l2 * l2 + l3sq - 3;
      const i1 = 2 * (l1 - l3sq * r1);
      const i2 = 2 * (l2 - l3sq * r2);
      const i11 = 2 + 6 * l3sq * r1 * r1;
      const i22 = 2 + 6 * l3sq * r2 * r2;
      const i12 = 4 * l3sq * r1 * r2;
      // g is dW/dI1 and h its derivative
      let g = 0.5 * mu;
      let h = 0;
      if (b > 0) {
        const exponent = b * invariant;
        if (exponent <= EXPONENT_CAP) {
          const e = exp(exponent);
          out[W] = (0.5 * mu * expm1(exponent)) / b;
          g *= e;
          h = g * b;
        } else {
          const e = exp(EXPONENT_CAP);
          const past = exponent - EXPONENT_CAP;
          out[W] = ((0.5 * mu) / b) * (e * (1 + past + 0.5 * past * past) - 1);
          g *= e * (1 + past);
          h = 0.5 * mu * b * e;
        }
      } else out[W] = g * invariant;
      out[W1] = g * i1;
      out[W2] = g * i2;
      out[W11] = g * i11 + h * i1 * i1;
      out[W12] = g * i12 + h * i1 * i2;
      out[W22] = g * i22 + h * i2 * i2;
    },
    naturalWidth: (l1) => 1 / Math.sqrt(l1),
    naturalWidthSlope: (l1) => -0.5 / (l1 * Math.sqrt(l1)),
  };
}

/** Neo-Hookean, mu in kPa. Treloar, The Physics of Rubber Elasticity. */
export const neoHookean = (shearModulus_kPa: number): Material => exponentialMaterial(shearModulus_kPa, 0);

/** Mooney-Rivlin, W = c1 (I1 - 3) + c2 (I2 - 3), constants in kPa. Rivlin 1948. */
export function mooneyRivlin(c1_kPa: number, c2_kPa: number): Material {
  return {
    name: 'Mooney-Rivlin',
    youngModulus_kPa: 6 * (c1_kPa + c2_kPa),
    evaluate(l1, l2, out) {
      const a = l1 * l1;
      const b = l2 * l2;
      const p = 1 / (a * b);
      out[W] = c1_kPa * (a + b + p - 3) + c2_kPa * (a * b + 1 / a + 1 / b - 3);
      out[W1] = c1_kPa * 2 * (l1 - p / l1) + c2_kPa * 2 * (l1 * b - 1 / (a * l1));
      out[W2] = c1_kPa * 2 * (l2 - p / l2) + c2_kPa * 2 * (l2 * a - 1 / (b * l2));
      out[W11] = c1_kPa * (2 + (6 * p) / a) + c2_kPa * (2 * b + 6 / (a * a));
      out[W22] = c1_kPa * (2 + (6 * p) / b) + c2_kPa * (2 * a + 6 / (b * b));
      out[W12] = c1_kPa * ((4 * p) / (l1 * l2)) + c2_kPa * 4 * l1 * l2;
    },
    naturalWidth: (l1) => 1 / Math.sqrt(l1),
    naturalWidthSlope: (l1) => -0.5 / (l1 * Math.sqrt(l1)),
  };
}

/**
 * Planar Fung, W = c/2 (exp(Q) - 1) with Q = a (e1^2 + e2^2 + 2 nu e1 e2), e the Green-Lagrange strains;
 * c in kPa. Fung, Biomechanics.
 */
export function planarFung(c_kPa: number, a: number, poisson: number): Material {
  const nu = poisson;
  const width = (l1: number) => Math.sqrt(Math.max(1e-12, 1 - nu * (l1 * l1 - 1)));
  return {
    name: 'planar Fung',
    youngModulus_kPa: c_kPa * a * (1 - nu * nu),
    evaluate(l1, l2, out) {
      const e1 = 0.5 * (l1 * l1 - 1);
      const e2 = 0.5 * (l2 * l2 - 1);
      const q1 = 2 * a * (e1 + nu * e2);
      const q2 = 2 * a * (e2 + nu * e1);
      const half = 0.5 * c_kPa * exp(a * (e1 * e1 + e2 * e2 + 2 * nu * e1 * e2));
      out[W] = half - 0.5 * c_kPa;
      out[W1] = half * q1 * l1;
      out[W2] = half * q2 * l2;
      out[W11] = half * (q1 * q1 * l1 * l1 + 2 * a * l1 * l1 + q1);
      out[W22] = half * (q2 * q2 * l2 * l2 + 2 * a * l2 * l2 + q2);
      out[W12] = half * (q1 * q2 + 2 * a * nu) * l1 * l2;
    },
    naturalWidth: width,
    naturalWidthSlope: (l1) => (-nu * l1) / width(l1),
  };
}

/** Linear plane stress in the principal Biot strains l - 1: the small-strain limit used by the fracture checks. */
export function linearPlaneStress(youngModulus_kPa: number, poisson: number): Material {
  const k = youngModulus_kPa / (1 - poisson * poisson);
  return {
    name: 'linear',
    youngModulus_kPa,
    evaluate(l1, l2, out) {
      const a = l1 - 1;
      const b = l2 - 1;
      out[W] = 0.5 * k * (a * a + b * b + 2 * poisson * a * b);
      out[W1] = k * (a + poisson * b);
      out[W2] = k * (b + poisson * a);
      out[W11] = k;
      out[W12] = k * poisson;
      out[W22] = k;
    },
    naturalWidth: (l1) => 1 - poisson * (l1 - 1),
    naturalWidthSlope: () => -poisson,
  };
}

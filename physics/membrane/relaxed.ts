/**
 * Tension-field relaxation: a limp membrane takes no compression (Wagner 1929; Pipkin 1986).
 * Where the second stretch is below the natural width of a strip, the energy is that of the strip;
 * where nothing is stretched, there is none. A small residual keeps the equations regular.
 */
import { type Material, W, W1, W2, W11, W12, W22 } from './material.ts';

/** Residual stiffness of a slack direction as a share of Young's modulus. Assumed, 5e-4 to 5e-3. */
export const SLACK_RESIDUAL = 2e-3;

export type Regime = 0 | 1 | 2;
export const TAUT: Regime = 2;
export const WRINKLED: Regime = 1;
export const SLACK: Regime = 0;

/**
 * Fills `out` like Material.evaluate, with the relaxed energy and a residual stiffness `residual_kPa`
 * (0 gives pure tension-field theory). Stretches l1 >= l2 >= 0. Returns the regime.
 */
export function evaluateRelaxed(
  material: Material,
  residual_kPa: number,
  l1: number,
  l2: number,
  out: Float64Array,
): Regime {
  if (l1 < 1) {
    const a = l1 - 1;
    const b = l2 - 1;
    out[W] = 0.5 * residual_kPa * (a * a + b * b);
    out[W1] = residual_kPa * a;
    out[W2] = residual_kPa * b;
    out[W11] = residual_kPa;
    out[W12] = 0;
    out[W22] = residual_kPa;
    return SLACK;
  }
  const width = material.naturalWidth(l1);
  if (l2 >= width) {
    material.evaluate(l1, l2, out);
    return TAUT;
  }
  material.evaluate(l1, width, out);
  const slope = material.naturalWidthSlope(l1);
  const gap = l2 - width;
  out[W11] += slope * (2 * out[W12] + slope * out[W22]) + residual_kPa * slope * slope;
  out[W1] += slope * out[W2] - residual_kPa * gap * slope;
  out[W12] = -residual_kPa * slope;
  out[W22] = residual_kPa;
  out[W2] = residual_kPa * gap;
  out[W] += 0.5 * residual_kPa * gap * gap;
  return WRINKLED;
}

import { exp } from '../core/elementary/exponential.ts';
import { log } from '../core/elementary/logarithm.ts';
import { wholePower } from '../core/elementary/whole-power.ts';

/** What the line tension of an evenly stretched capsule depends on. */
export interface CapsuleStiffness {
  readonly thickness_um: number;
  readonly youngModulus_MPa: number;
  /** b of the material W = mu/(2b) (exp(b (I1 - 3)) - 1); 0 is allowed and gives neo-Hookean. */
  readonly stiffening: number;
}

/** Smallest stiffening a capsule gets when its rupture point lies below the neo-Hookean curve. */
export const SMALLEST_STIFFENING = 1e-3;

/**
 * Stiffening b that carries the uniaxial curve P = mu exp(b (I1 - 3)) (l - l^-2), I1 = l^2 + 2/l, through the rupture
 * point. The published stress is read as nominal (force over the unloaded section), the usual way of ring tests.
 *
 * @param youngModulus_MPa positive, mu is a third of it
 * @param ruptureStrain positive, l = 1 + strain
 * @param ruptureStress_MPa positive
 * @returns b, at least SMALLEST_STIFFENING
 */
export function stiffeningFromRupture(
  youngModulus_MPa: number,
  ruptureStrain: number,
  ruptureStress_MPa: number,
): number {
  const l = 1 + ruptureStrain;
  const neoHookean_MPa = (youngModulus_MPa / 3) * (l - 1 / (l * l));
  const invariant = l * l + 2 / l - 3;
  return Math.max(SMALLEST_STIFFENING, log(ruptureStress_MPa / neoHookean_MPa) / invariant);
}

/**
 * Line tension of a capsule stretched evenly in its plane, per unloaded length:
 * N = t mu exp(b (I1 - 3)) (l - l^-5), I1 = 2 l^2 + l^-4.
 *
 * @param stretch above 0
 * @returns mN/mm; um times MPa is mN/mm
 */
export function unitLineTension_mN_per_mm(stretch: number, capsule: CapsuleStiffness): number {
  const l = stretch;
  const invariant = 2 * l * l + 1 / wholePower(l, 4) - 3;
  const mu_MPa = capsule.youngModulus_MPa / 3;
  return capsule.thickness_um * mu_MPa * exp(capsule.stiffening * invariant) * (l - 1 / wholePower(l, 5));
}

const BISECTIONS = 60;

/**
 * Inverse of unitLineTension_mN_per_mm.
 *
 * @param tension_mN_per_mm 0 or more, finite
 * @returns even stretch, 1 or more
 * @throws RangeError when the tension is negative or not finite
 */
export function stretchAtTension(tension_mN_per_mm: number, capsule: CapsuleStiffness): number {
  if (!(tension_mN_per_mm >= 0 && Number.isFinite(tension_mN_per_mm))) {
    throw new RangeError(`tension must be finite and not negative, found ${tension_mN_per_mm}`);
  }
  let low = 1;
  let high = 1.01;
  while (unitLineTension_mN_per_mm(high, capsule) < tension_mN_per_mm) {
    low = high;
    high = 1 + 2 * (high - 1);
  }
  for (let i = 0; i < BISECTIONS; i += 1) {
    const middle = 0.5 * (low + high);
    if (unitLineTension_mN_per_mm(middle, capsule) < tension_mN_per_mm) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

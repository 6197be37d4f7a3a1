/** Comparison of a computed number with its reference, by one stated measure. */

export type Tolerance =
  /** Share of the reference's size; the reference may not be 0. */
  | { readonly kind: 'relative'; readonly allowed: number }
  /** In the unit of the quantity. */
  | { readonly kind: 'absolute'; readonly allowed: number }
  /** Degrees, counted round the circle. */
  | { readonly kind: 'angle'; readonly allowed: number };

export const relative = (allowed: number): Tolerance => ({ kind: 'relative', allowed });
export const absolute = (allowed: number): Tolerance => ({ kind: 'absolute', allowed });
export const angle = (allowed: number): Tolerance => ({ kind: 'angle', allowed });

/** For what is judged by its sign only: anything of the reference's sign up to twice its size, but not 0. */
export const OF_ITS_SIGN = /* @__PURE__ */ relative(1 - 1e-9);

/**
 * How far apart two numbers are, 0 or more, in the tolerance's own measure. Infinity when either is not finite, or when a
 * relative measure is asked against a reference of 0: neither ever agrees with anything.
 */
export function deviation(computed: number, reference: number, tolerance: Tolerance): number {
  if (!(Number.isFinite(computed) && Number.isFinite(reference))) return Infinity;
  const difference = Math.abs(computed - reference);
  switch (tolerance.kind) {
    case 'absolute':
      return difference;
    case 'relative':
      return reference === 0 ? Infinity : difference / Math.abs(reference);
    case 'angle':
      return Math.abs(((difference + 180) % 360) - 180);
  }
}

/** True when the deviation is at most what is allowed; a tolerance that is not positive and finite allows nothing. */
export function agrees(computed: number, reference: number, tolerance: Tolerance): boolean {
  const { allowed } = tolerance;
  return allowed > 0 && Number.isFinite(allowed) && deviation(computed, reference, tolerance) <= allowed;
}

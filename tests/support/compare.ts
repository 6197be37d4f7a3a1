/**
 * Comparison of a computed number with a reference. Each function throws with a message that names the quantity, both
 * numbers, the difference and the tolerance; it returns nothing when they agree. Tolerances must be given, positive and
 * finite, so a comparison cannot be passed by leaving one out. A number that is not finite never agrees with anything.
 */
export interface Tolerance {
  /** Share of the reference's magnitude. */
  readonly relative?: number;
  /** In the unit of the quantity. */
  readonly absolute?: number;
}

/** Throws unless |computed - reference| is within the larger of the two tolerances given. */
export function expectWithin(name: string, computed: number, reference: number, tolerance: Tolerance): void {
  requireFinite(name, 'computed', computed);
  requireFinite(name, 'reference', reference);
  const allowed = allowedDifference(name, reference, tolerance);
  const difference = Math.abs(computed - reference);
  if (!(difference <= allowed)) {
    throw new Error(`${name}: computed ${computed}, reference ${reference}, off by ${difference}, allowed ${allowed}`);
  }
}

/** Throws unless two directions differ by at most `allowed_deg`, counted round the circle. */
export function expectAngleWithin(
  name: string,
  computed_deg: number,
  reference_deg: number,
  allowed_deg: number,
): void {
  requireFinite(name, 'computed', computed_deg);
  requireFinite(name, 'reference', reference_deg);
  requireTolerance(name, allowed_deg);
  const turn = (((computed_deg - reference_deg) % 360) + 540) % 360;
  const difference = Math.abs(turn - 180);
  if (!(difference <= allowed_deg)) {
    throw new Error(
      `${name}: computed ${computed_deg} deg, reference ${reference_deg} deg, off by ${difference} deg, allowed ${allowed_deg} deg`,
    );
  }
}

/**
 * Throws unless two vectors have the same length and their difference is, by Euclidean length, within the larger of
 * relative tolerance times the reference's length and the absolute tolerance.
 */
export function expectVectorWithin(
  name: string,
  computed: ArrayLike<number>,
  reference: ArrayLike<number>,
  tolerance: Tolerance,
): void {
  if (computed.length !== reference.length || reference.length === 0) {
    throw new Error(`${name}: computed has ${computed.length} components, reference ${reference.length}`);
  }
  let squares = 0;
  let size = 0;
  for (let i = 0; i < reference.length; i += 1) {
    requireFinite(name, `computed[${i}]`, computed[i]);
    requireFinite(name, `reference[${i}]`, reference[i]);
    squares += (computed[i] - reference[i]) ** 2;
    size += reference[i] ** 2;
  }
  const difference = Math.sqrt(squares);
  const allowed = allowedDifference(name, Math.sqrt(size), tolerance);
  if (!(difference <= allowed)) {
    const shown = `computed [${Array.from(computed)}], reference [${Array.from(reference)}]`;
    throw new Error(`${name}: ${shown}, off by ${difference}, allowed ${allowed}`);
  }
}

/** Throws unless low <= computed <= high. */
export function expectInRange(name: string, computed: number, low: number, high: number): void {
  requireFinite(name, 'computed', computed);
  if (!(Number.isFinite(low) && Number.isFinite(high) && low < high)) {
    throw new Error(`${name}: a range needs two finite ends in order, found ${low} to ${high}`);
  }
  if (!(computed >= low && computed <= high)) {
    throw new Error(`${name}: computed ${computed}, allowed ${low} to ${high}`);
  }
}

function allowedDifference(name: string, reference: number, { relative, absolute }: Tolerance): number {
  if (relative === undefined && absolute === undefined) throw new Error(`${name}: no tolerance given`);
  if (relative !== undefined) requireTolerance(name, relative);
  if (absolute !== undefined) requireTolerance(name, absolute);
  if (absolute === undefined && reference === 0) {
    throw new Error(`${name}: a relative tolerance means nothing against a reference of zero`);
  }
  return Math.max((relative ?? 0) * Math.abs(reference), absolute ?? 0);
}

function requireTolerance(name: string, tolerance: number): void {
  if (!(tolerance > 0 && Number.isFinite(tolerance))) {
    throw new Error(`${name}: a tolerance must be positive and finite, found ${tolerance}`);
  }
}

function requireFinite(name: string, which: string, value: number): void {
  if (!Number.isFinite(value)) throw new Error(`${name}: ${which} is ${value}`);
}

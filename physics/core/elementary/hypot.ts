/**
 * Length of (x, y) or (x, y, z) without overflow: the root of the squared ratios to the largest, summed with Kahan's correction, times
 * the largest. Infinite if one of them is, else not a number if one is not.
 */
export function hypot(x: number, y: number, z?: number): number {
  const a = Math.abs(x);
  const b = Math.abs(y);
  const c = z === undefined ? 0 : Math.abs(z);
  const largest = Math.max(a, b, c);
  if (!(largest > 0 && largest < Number.POSITIVE_INFINITY)) return limit(a, b, c);
  const p = a / largest;
  const q = b / largest;
  const two = p * p + q * q;
  if (z === undefined) return Math.sqrt(two) * largest;
  const r = c / largest;
  return Math.sqrt(two + (r * r - (two - p * p - q * q))) * largest;
}

function limit(a: number, b: number, c: number): number {
  if (a === Number.POSITIVE_INFINITY || b === Number.POSITIVE_INFINITY || c === Number.POSITIVE_INFINITY) {
    return Number.POSITIVE_INFINITY;
  }
  return a + b + c;
}

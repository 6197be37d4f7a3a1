/** Where a nearly straight, costly function crosses zero: a bracket narrowed along the chord. */

/** A place and the value there. */
export type Sample = readonly [at: number, value: number];

export interface Crossing {
  readonly at: number;
  readonly between: readonly [number, number];
}

/** No nearer to an end of the bracket than this share of it, so that both ends come in. */
const LEAST_SHARE = 0.2;

/**
 * @param low, high ends of a bracket whose values differ in sign (zero counts as positive)
 * @param narrow width at which the search ends; within it the function is taken as straight
 * @returns null when the function gives NaN inside
 */
export function crossingOf(f: (at: number) => number, low: Sample, high: Sample, narrow: number): Crossing | null {
  let [a, atLow] = low;
  let [b, atHigh] = high;
  const positive = atLow >= 0;
  while (b - a > narrow) {
    const share = Math.min(1 - LEAST_SHARE, Math.max(LEAST_SHARE, atLow / (atLow - atHigh)));
    const middle = a + share * (b - a);
    const there = f(middle);
    if (Number.isNaN(there)) return null;
    if (there >= 0 === positive) [a, atLow] = [middle, there];
    else [b, atHigh] = [middle, there];
  }
  return { at: a + (atLow / (atLow - atHigh || 1)) * (b - a), between: [a, b] };
}

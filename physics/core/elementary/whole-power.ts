/** 2^27 + 1 cuts a double into two halves whose products are exact (Dekker 1971, after Veltkamp). */
const CUT = 134217729;

/** What the product of x and y rounds off. */
function roundedOff(x: number, y: number, product: number): number {
  const cutX = CUT * x;
  const cutY = CUT * y;
  const highX = cutX - (cutX - x);
  const highY = cutY - (cutY - y);
  const lowX = x - highX;
  const lowY = y - highY;
  return lowX * lowY - (product - highX * highY - lowX * highY - highX * lowY);
}

/**
 * x^n by n - 1 products, with what each rounds off carried along, so that the double nearest to the power comes out.
 *
 * @param x between 1e-290 and 1e290 in size, as its powers up to the nth; @param n whole, 0 to 100
 */
export function wholePower(x: number, n: number): number {
  let high = 1;
  let low = 0;
  for (let k = 0; k < n; k++) {
    const product = high * x;
    const rest = low * x + roundedOff(high, x, product);
    high = product + rest;
    low = rest - (high - product);
  }
  return high;
}

/** A knot of a table: abscissa and value. */
export type Knot = readonly [number, number];

/**
 * Curve through a table that is smooth and never overshoots: piecewise cubic Hermite with the slopes of
 * Fritsch and Butland (1984), so a column that only rises stays rising between its rows.
 * Values are held at the first and last knot outside the table.
 *
 * @param knots at least two, abscissae strictly increasing
 * @returns value at any finite abscissa, in the unit of the table
 */
export function monotoneCurve(knots: readonly Knot[]): (x: number) => number {
  const slopes = knotSlopes(knots);
  const last = knots.length - 1;
  return (x) => {
    if (x <= knots[0][0]) return knots[0][1];
    if (x >= knots[last][0]) return knots[last][1];
    let i = 0;
    while (x > knots[i + 1][0]) i += 1;
    const h = knots[i + 1][0] - knots[i][0];
    const s = (x - knots[i][0]) / h;
    const blend = s * s * (3 - 2 * s);
    const rise = knots[i + 1][1] - knots[i][1];
    return knots[i][1] + blend * rise + h * s * (1 - s) * ((1 - s) * slopes[i] - s * slopes[i + 1]);
  };
}

function knotSlopes(knots: readonly Knot[]): number[] {
  const last = knots.length - 1;
  const width = (i: number) => knots[i + 1][0] - knots[i][0];
  const secant = (i: number) => (knots[i + 1][1] - knots[i][1]) / width(i);
  return knots.map((_, i) => {
    // flat ends join the held values without a corner
    if (i === 0 || i === last) return 0;
    const before = secant(i - 1);
    const after = secant(i);
    if (before * after <= 0) return 0;
    const w1 = 2 * width(i) + width(i - 1);
    const w2 = width(i) + 2 * width(i - 1);
    return (w1 + w2) / (w1 / before + w2 / after);
  });
}

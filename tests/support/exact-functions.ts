/**
 * Elementary functions in whole numbers, 2^-PLACES each, by their series and by Newton's method on them: a reference that owes nothing to
 * what it judges, good to some 2^-290 for arguments of ordinary size.
 */

const PLACES = 320n;
const ONE = 1n << PLACES;

const double = new Float64Array(1);
const whole = new BigUint64Array(double.buffer);

const times = (a: bigint, b: bigint): bigint => (a * b) >> PLACES;
const over = (a: bigint, b: bigint): bigint => (a << PLACES) / b;

/** A double, exactly; what lies below 2^-PLACES is cut. */
export function exactly(x: number): bigint {
  double[0] = x;
  const bits = whole[0] ?? 0n;
  const exponent = (bits >> 52n) & 0x7ffn;
  const digits = (bits & 0xfffffffffffffn) | (exponent === 0n ? 0n : 1n << 52n);
  const up = (exponent === 0n ? 1n : exponent) - 1075n + PLACES;
  const size = up >= 0n ? digits << up : digits >> -up;
  return bits >> 63n ? -size : size;
}

/** Sum of terms that `next` makes of one another until they vanish. */
function series(first: bigint, next: (term: bigint, k: bigint) => bigint): bigint {
  let sum = 0n;
  let term = first;
  for (let k = 1n; term !== 0n && term !== -1n; k++) {
    sum += term;
    term = next(term, k);
  }
  return sum;
}

export function exactExp(x: bigint): bigint {
  // e^x = (e^(x / 1024))^1024
  let power = series(ONE, (term, k) => times(term, x >> 10n) / k);
  for (let k = 0; k < 10; k++) power = times(power, power);
  return power;
}

export const exactSin = (x: bigint): bigint =>
  series(x, (term, k) => -times(times(term, x), x) / (2n * k * (2n * k + 1n)));
export const exactCos = (x: bigint): bigint =>
  series(ONE, (term, k) => -times(times(term, x), x) / ((2n * k - 1n) * 2n * k));

/** The zero of a function by Newton's method from a near guess; each round doubles the places. */
function zero(guess: number, step: (at: bigint) => bigint): bigint {
  let at = exactly(guess);
  for (let round = 0; round < 5; round++) at -= step(at);
  return at;
}

export function exactLog(x: bigint, guess: number): bigint {
  return zero(guess, (at) => {
    const e = exactExp(at);
    return over(e - x, e);
  });
}

/** The angle of sine y and cosine x, up to a common factor above zero. */
export function exactAngle(y: bigint, x: bigint, guess: number): bigint {
  return zero(guess, (at) => {
    const [s, c] = [exactSin(at), exactCos(at)];
    return over(times(x, s) - times(y, c), times(x, c) + times(y, s));
  });
}

export function exactRoot(square: bigint): bigint {
  const wide = square << PLACES;
  let root = 1n << BigInt((wide.toString(2).length / 2 + 1) | 0);
  for (;;) {
    const next = (root + wide / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

export const exactProduct = times;
export const exactQuotient = over;
export const EXACT_ONE = ONE;

/** How far a double is from the reference, in units of the last place of a double of the reference's size. */
export function unitsOff(value: number, reference: bigint): number {
  const size = reference < 0n ? -reference : reference;
  const unit = BigInt(size.toString(2).length) - 53n;
  const off = exactly(value) - reference;
  return Math.abs(Number((off << 20n) >> unit)) / 2 ** 20;
}

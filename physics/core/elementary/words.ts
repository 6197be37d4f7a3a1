/*
 * The two 32-bit words of a double: bits are what the elementary functions branch on, and what makes them the same everywhere. The high
 * word holds sign, exponent and the first 20 bits of the fraction.
 */

const double = new Float64Array(1);
const words = new Int32Array(double.buffer);
/** Where the high word lies on this machine. */
const HIGH = new Uint8Array(Uint32Array.of(1).buffer)[0];
const LOW = 1 - HIGH;

export function highWord(x: number): number {
  double[0] = x;
  return words[HIGH];
}

export function lowWord(x: number): number {
  double[0] = x;
  return words[LOW];
}

export function fromWords(high: number, low: number): number {
  words[HIGH] = high;
  words[LOW] = low;
  return double[0];
}

/** x with its low word emptied: the products of two such are exact but for the last few bits. */
export function headOf(x: number): number {
  double[0] = x;
  words[LOW] = 0;
  return double[0];
}

/** 2^k for a normal number, k from -1022 to 1023. */
export const powerOfTwo = (k: number): number => fromWords((k + 1023) << 20, 0);

/** x times 2^k by adding to its exponent, while the result is a normal number. */
export function raised(x: number, k: number): number {
  double[0] = x;
  words[HIGH] += k << 20;
  return double[0];
}

import { cos } from './elementary/circular.ts';
import { log } from './elementary/logarithm.ts';

/** State of a generator: four unsigned 32-bit words. Plain data, can be stored and given back. */
export type RandomState = readonly [number, number, number, number];

/**
 * Seeded generator sfc32 (small fast counting, by C. Doty-Humphrey; from memory, as it stands in PractRand): integer arithmetic
 * only, so the same on every machine.
 */
export interface Random {
  /** Even over 0 (in) to 1 (out), 32 bits. */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1 (Box-Muller, two draws each). */
  normal(): number;
  state(): RandomState;
}

/** Rounds that mix a seed in before the first number is given. */
const MIXING_ROUNDS = 20;

/**
 * @param seed unsigned 32-bit integer, or a stored state to go on from
 */
export function createRandom(seed: number | RandomState): Random {
  let [a, b, c, count] = typeof seed === 'number' ? [0, 0, seed >>> 0, 1] : seed;

  function next(): number {
    const sum = (((a + b) | 0) + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return sum >>> 0;
  }

  if (typeof seed === 'number') for (let round = 0; round < MIXING_ROUNDS; round++) next();
  const uniform = () => next() / 4294967296;
  return {
    uniform,
    // 1 - u lies above 0, so that its logarithm is finite.
    normal: () => Math.sqrt(-2 * log(1 - uniform())) * cos(2 * Math.PI * uniform()),
    state: () => [a >>> 0, b >>> 0, c >>> 0, count >>> 0],
  };
}

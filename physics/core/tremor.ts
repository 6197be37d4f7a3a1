import { exp } from './elementary/exponential.ts';
import { createRandom, type RandomState } from './random.ts';

/** Band of the hand's tremor, Hz. Common in tremor studies of microsurgeons as 1-10 Hz and above; from memory. */
export const TREMOR_BAND_Hz: readonly [number, number] = [1, 10];

/** Everything a tremor needs to go on: generator and the memory of its filters. Plain data. */
export interface TremorState {
  readonly random: RandomState;
  readonly fast: number;
  readonly slow: number;
  readonly inner: number;
}

export interface Tremor {
  /** Next value, in the unit of the given RMS, one per step. */
  next(): number;
  state(): TremorState;
}

/**
 * Noise whose power lies mostly between 1 and 10 Hz: white normal noise through two equal low-pass filters at the upper edge
 * less its part below the lower edge. Scaled so that its long-run RMS is the one asked for.
 *
 * @param from unsigned 32-bit seed, or a stored state
 * @param rms long-run root mean square, 0 or more
 * @param step_s time between values, at most 0.02 s
 */
export function createTremor(from: number | TremorState, rms: number, step_s: number): Tremor {
  const random = createRandom(typeof from === 'number' ? from : from.random);
  const low = exp(-2 * Math.PI * TREMOR_BAND_Hz[1] * step_s);
  const high = exp(-2 * Math.PI * TREMOR_BAND_Hz[0] * step_s);
  const scale = rms / filteredRms(low, high);
  let { inner, fast, slow } = typeof from === 'number' ? { inner: 0, fast: 0, slow: 0 } : from;
  return {
    next() {
      inner = low * inner + (1 - low) * random.normal();
      fast = low * fast + (1 - low) * inner;
      slow = high * slow + (1 - high) * fast;
      return scale * (fast - slow);
    },
    state: () => ({ random: random.state(), fast, slow, inner }),
  };
}

/** RMS that the filters leave of unit white noise: root of the sum of squares of their answer to one impulse. */
function filteredRms(low: number, high: number): number {
  let [inner, fast, slow, squares] = [0, 0, 0, 0];
  const length = Math.ceil(30 / (1 - high));
  for (let k = 0; k < length; k++) {
    inner = low * inner + (k === 0 ? 1 - low : 0);
    fast = low * fast + (1 - low) * inner;
    slow = high * slow + (1 - high) * fast;
    squares += (fast - slow) * (fast - slow);
  }
  return Math.sqrt(squares);
}

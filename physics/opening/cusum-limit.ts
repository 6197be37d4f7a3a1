/** The limit h of the learning-curve chart, by simulation: there is no closed form for a chart that is held at zero. */
import { createRandom } from '../core/random.ts';
import { type FailureRates, learningWeights } from './cusum.ts';

export interface LimitWanted {
  readonly rates: FailureRates;
  /** Most cases that a trainee gets before the chart is judged, 1 to 2000. */
  readonly cases: number;
  /** Share of people who are not there yet whom the chart may call ready within those cases; above 0 and below 1. */
  readonly falseSignalRate: number;
}

export interface SimulatedLimit {
  /** h; half way between two levels that a curve can have, so that rounding cannot decide. */
  readonly limit: number;
  /** Share of simulated people at the unacceptable rate that reach it within the cases; at most the rate asked for. */
  readonly falseSignalRate: number;
  /** Share of simulated people at the acceptable rate that reach it within the cases. */
  readonly trueSignalRate: number;
  readonly runs: number;
}

/** Standard error of a rate of 5 % from so many people: 0.15 percentage points. */
export const LIMIT_RUNS = 20_000;
/** Any would do; fixed, so that the same course limits give the same line on every machine. */
const LIMIT_SEED = 20_040;
/** Curves whose highest points are closer than this have the same height. */
const SAME_LEVEL = 1e-9;

/** Highest point of each simulated curve, ascending. */
function highestPoints(failureRate: number, { rates, cases }: LimitWanted, runs: number, seed: number): Float64Array {
  const { pass, miss } = learningWeights(rates);
  const { uniform } = createRandom(seed);
  const highest = new Float64Array(runs);
  for (let run = 0; run < runs; run++) {
    let sum = 0;
    for (let n = 0; n < cases; n++) {
      sum = Math.max(0, sum + (uniform() < failureRate ? miss : pass));
      if (sum > highest[run]) highest[run] = sum;
    }
  }
  return highest.sort();
}

/** Share of an ascending list that lies at or above a level. */
function shareFrom(highest: Float64Array, level: number): number {
  let low = 0;
  let high = highest.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (highest[middle] < level) low = middle + 1;
    else high = middle;
  }
  return (highest.length - low) / highest.length;
}

/** The lowest level between two heights that no more than the wanted share reaches. */
function lowestLimit(highest: Float64Array, falseSignalRate: number, step: number): number {
  let below = highest[highest.length - 1];
  let limit = below + step / 2;
  for (let k = highest.length - 2; k >= 0; k--) {
    if (below - highest[k] < SAME_LEVEL) continue;
    const between = (below + highest[k]) / 2;
    if ((highest.length - 1 - k) / highest.length > falseSignalRate) break;
    limit = between;
    below = highest[k];
  }
  return limit;
}

/**
 * The smallest limit h with which at most `falseSignalRate` of people who miss at the unacceptable rate are called ready within
 * `cases` attempts. Simulates `runs` such people, each attempt a pass or a miss independently, and takes the level that no more
 * than the wanted share of their curves reach. The same arguments give the same limit, to the bit.
 *
 * Throws RangeError on arguments out of their ranges.
 *
 * @param runs simulated people, 100 to 200,000
 * @param seed of the seeded generator
 */
export function simulateLimit(wanted: LimitWanted, runs = LIMIT_RUNS, seed = LIMIT_SEED): SimulatedLimit {
  const { rates, cases, falseSignalRate } = wanted;
  const whole = (value: number, from: number, to: number) => Number.isInteger(value) && value >= from && value <= to;
  if (!whole(cases, 1, 2000)) throw new RangeError(`cases is ${cases}: a whole number from 1 to 2000`);
  if (!whole(runs, 100, 200_000)) throw new RangeError(`runs is ${runs}: a whole number from 100 to 200000`);
  if (!(falseSignalRate > 0 && falseSignalRate < 1)) {
    throw new RangeError(`falseSignalRate is ${falseSignalRate}: above 0 and below 1`);
  }
  const notYet = highestPoints(rates.unacceptable, wanted, runs, seed);
  const ready = highestPoints(rates.acceptable, wanted, runs, seed + 1);
  const limit = lowestLimit(notYet, falseSignalRate, learningWeights(rates).pass);
  return {
    limit,
    falseSignalRate: shareFrom(notYet, limit),
    trueSignalRate: shareFrom(ready, limit),
    runs,
  };
}

/**
 * Cumulative-sum charts of a row of attempts, as they are used in surgical education. Each takes the attempts of one person in one
 * scenario, oldest first, and gives a curve and the attempt at which it says something. Formulas in the docstrings.
 */
import { log } from '../core/elementary/logarithm.ts';
import type { Problem } from '../core/result.ts';

/** Failure rates that the course sets, each between 0 and 1. */
export interface FailureRates {
  /** Rate that is good enough. */
  readonly acceptable: number;
  /** Rate that is not; larger than the acceptable one. */
  readonly unacceptable: number;
}

/** Risks of a wrong word from the two-boundary chart, each above 0 and below one half. */
export interface BoundaryRisks {
  /** Alpha: calling good work not good enough. */
  readonly falseAlarm: number;
  /** Beta: calling work that is not good enough good. */
  readonly falseAcceptance: number;
}

/** 5 and 10 %: used for surgical trainees (Vedana et al. 2017, Indian Journal of Ophthalmology). A course may set others. */
export const USUAL_RATES: FailureRates = { acceptable: 0.05, unacceptable: 0.1 };
/** Common practice: both risks alike, one in ten. */
export const USUAL_RISKS: BoundaryRisks = { falseAlarm: 0.1, falseAcceptance: 0.1 };

/** What each chart says, in one sentence for a person. */
export const CUSUM_EXPLAINED = {
  tabular:
    'The curve adds up how far each attempt was off beyond what is allowed and starts again at zero after good ones; ' +
    'reaching the line means that the work has drifted off.',
  twoBoundary:
    'The curve falls a little with each pass and rises a lot with each miss; below the lower line the share of misses ' +
    'is good enough, above the upper line it is not, and in between there is not enough evidence yet.',
  learningCurve:
    'The curve starts from "not there yet", rises with each pass, falls with each miss and never below zero; reaching ' +
    'the line is evidence that the share of misses has become good enough.',
} as const;

/** What is wrong with rates that a course wants to set; empty when they are sound. `file` names them for the person. */
export function rateProblems({ acceptable, unacceptable }: FailureRates, file = 'limits'): readonly Problem[] {
  const problems: Problem[] = [];
  const share = (value: number) => value > 0 && value < 1;
  if (!share(acceptable)) {
    problems.push({ file, path: 'acceptable', found: String(acceptable), allowed: 'a rate above 0 and below 1' });
  }
  if (!share(unacceptable) || unacceptable <= acceptable) {
    const allowed = 'a rate above the acceptable one and below 1';
    problems.push({ file, path: 'unacceptable', found: String(unacceptable), allowed });
  }
  return problems;
}

/** What is wrong with risks; empty when they are sound. */
export function riskProblems(risks: BoundaryRisks, file = 'limits'): readonly Problem[] {
  return (['falseAlarm', 'falseAcceptance'] as const).flatMap((path) => {
    const value = risks[path];
    if (value > 0 && value < 0.5) return [];
    return [{ file, path, found: String(value), allowed: 'a risk above 0 and below 0.5' }];
  });
}

function assertSound(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new RangeError(`${problems[0].path} is ${problems[0].found}: ${problems[0].allowed}`);
}

/** Place in the row, counted from 0, at which the curve first reaches a line; null when it never does. */
export type FirstAt = number | null;

const firstAt = (curve: readonly number[], reached: (value: number) => boolean): FirstAt => {
  const at = curve.findIndex(reached);
  return at < 0 ? null : at;
};

/** Sums of equal weights in another order differ in the last bits: what is this close has reached a line. */
const ROUNDING = 1e-9;

export interface TabularCusum {
  /** One value per attempt, not below 0. */
  readonly curve: readonly number[];
  readonly signalAt: FirstAt;
}

/**
 * One-sided tabular chart of a measured deviation: C_n = max(0, C_{n-1} + X_n - k), C_0 = 0.
 *
 * @param values X_n, deviation of each attempt in the unit of the metric; finite
 * @param allowance k, what each attempt may be off without counting; same unit
 * @param limit h, above 0, at which the chart signals; same unit
 */
export function tabularCusum(values: readonly number[], allowance: number, limit: number): TabularCusum {
  if (![...values, allowance].every(Number.isFinite) || !(limit > 0)) {
    throw new RangeError('a tabular chart needs finite values and a limit above 0');
  }
  let sum = 0;
  const curve = values.map((value) => {
    sum = Math.max(0, sum + value - allowance);
    return sum;
  });
  return { curve, signalAt: firstAt(curve, (value) => value >= limit - ROUNDING) };
}

export interface TwoBoundaryWeights {
  /** Added for a pass; below 0. */
  readonly pass: number;
  /** Added for a miss; above 0. */
  readonly miss: number;
  /** Line below which the rate is acceptable; below 0. */
  readonly lower: number;
  /** Line above which it is not. */
  readonly upper: number;
}

/**
 * Weights and lines of the two-boundary chart (Rogers et al. 2004; formulas from memory, checked by hand values):
 * P = ln(p1/p0), Q = ln((1-p0)/(1-p1)), s = Q/(P+Q); a pass adds -s, a miss 1-s. Upper line ln((1-beta)/alpha)/(P+Q),
 * lower line -ln((1-alpha)/beta)/(P+Q), equal in size when the risks are.
 *
 * Throws RangeError on rates or risks that are not sound; see `rateProblems`, `riskProblems`.
 */
export function twoBoundaryWeights(rates: FailureRates, risks: BoundaryRisks): TwoBoundaryWeights {
  assertSound([...rateProblems(rates), ...riskProblems(risks)]);
  const P = log(rates.unacceptable / rates.acceptable);
  const Q = log((1 - rates.acceptable) / (1 - rates.unacceptable));
  const s = Q / (P + Q);
  const { falseAlarm: alpha, falseAcceptance: beta } = risks;
  return {
    pass: -s,
    miss: 1 - s,
    lower: -log((1 - alpha) / beta) / (P + Q),
    upper: log((1 - beta) / alpha) / (P + Q),
  };
}

export interface TwoBoundaryCusum extends TwoBoundaryWeights {
  readonly curve: readonly number[];
  readonly acceptableAt: FirstAt;
  readonly unacceptableAt: FirstAt;
}

/**
 * The two-boundary chart of a row of attempts. The curve goes on after a line is reached, so that later attempts can be seen.
 *
 * @param passed one per attempt, oldest first
 */
export function twoBoundaryCusum(
  passed: readonly boolean[],
  rates: FailureRates = USUAL_RATES,
  risks: BoundaryRisks = USUAL_RISKS,
): TwoBoundaryCusum {
  const weights = twoBoundaryWeights(rates, risks);
  let sum = 0;
  const curve = passed.map((pass) => {
    sum += pass ? weights.pass : weights.miss;
    return sum;
  });
  return {
    ...weights,
    curve,
    acceptableAt: firstAt(curve, (value) => value <= weights.lower + ROUNDING),
    unacceptableAt: firstAt(curve, (value) => value >= weights.upper - ROUNDING),
  };
}

export interface LearningWeights {
  /** Added for a pass; above 0. */
  readonly pass: number;
  /** Added for a miss; below 0. */
  readonly miss: number;
}

/**
 * Weights of the learning-curve chart (Biau et al. 2008, Br J Surg 95:925; Biau and Porcher 2010, Stat Med, 10.1002/sim.3947;
 * binary weights from memory, checked by hand values): a pass adds ln((1-p0)/(1-p1)), a miss ln(p0/p1).
 */
export function learningWeights(rates: FailureRates): LearningWeights {
  assertSound(rateProblems(rates));
  const { acceptable: p0, unacceptable: p1 } = rates;
  return { pass: log((1 - p0) / (1 - p1)), miss: log(p0 / p1) };
}

export interface LearningCusum extends LearningWeights {
  readonly limit: number;
  /** One value per attempt, not below 0. */
  readonly curve: readonly number[];
  readonly competentAt: FirstAt;
}

/**
 * The learning-curve chart: S_n = max(0, S_{n-1} + W_n), S_0 = 0. It starts from "not there yet" and signals at S_n >= h.
 *
 * @param passed one per attempt, oldest first
 * @param limit h, above 0, from `simulateLimit`
 */
export function learningCusum(passed: readonly boolean[], rates: FailureRates, limit: number): LearningCusum {
  if (!(limit > 0)) throw new RangeError('a learning-curve chart needs a limit above 0');
  const weights = learningWeights(rates);
  let sum = 0;
  const curve = passed.map((pass) => {
    sum = Math.max(0, sum + (pass ? weights.pass : weights.miss));
    return sum;
  });
  return { ...weights, limit, curve, competentAt: firstAt(curve, (value) => value >= limit - ROUNDING) };
}

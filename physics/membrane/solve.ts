/**
 * Minimises the incremental potential: Newton with projected stiffness and line search. Linear systems are solved by
 * conjugate gradients with a factor as preconditioner that is kept from earlier iterations and steps while it serves.
 */
import { type Body, gradient, type Increment } from './body.ts';
import { dot, largest, type Vectors } from './conjugate-gradients.ts';
import type { Engine } from './engine.ts';
import { bestEngine } from './kernel/best-engine.ts';

export interface SolveOptions {
  /** Largest nodal residual accepted, mN. */
  readonly tolerance_mN: number;
  readonly maxIterations: number;
}

export interface SolveReport {
  converged: boolean;
  iterations: number;
  linearIterations: number;
  factorisations: number;
  residual_mN: number;
  potential: number;
}

/** Buffers of one body, what does its heavy sums, and whether its factor is usable. */
export interface SolverState extends Vectors {
  factored: boolean;
  readonly engine: Engine;
  readonly trial: Float64Array;
}

export function createSolverState(nodeCount: number, engine = bestEngine()): SolverState {
  const vector = () => new Float64Array(nodeCount * 3);
  return {
    factored: false,
    engine,
    force: vector(),
    direction: vector(),
    residual: vector(),
    preconditioned: vector(),
    search: vector(),
    product: vector(),
    trial: vector(),
  };
}

/** Linear iterations after which the kept factor is too old to serve. Affects speed only. */
const STALE_AFTER = 6;
/** Most linear iterations with a fresh factor. */
const MOST_LINEAR = 60;
/** Smallest pivot of the preconditioner, mN/mm. */
const PIVOT_FLOOR = 1e-9;
/** Armijo's constant. Common practice. */
const SUFFICIENT = 1e-4;

/** Minimises from `x` in place; never leaves a state of higher potential than it found. */
export function solve(
  body: Body,
  state: SolverState,
  increment: Increment,
  x: Float64Array,
  options: SolveOptions,
): SolveReport {
  const report: SolveReport = {
    converged: false,
    iterations: 0,
    linearIterations: 0,
    factorisations: 0,
    residual_mN: Infinity,
    potential: gradient(body, increment, x, state.force),
  };
  for (;;) {
    report.residual_mN = largest(state.force);
    if (!(report.residual_mN < Infinity)) return report;
    if (report.residual_mN <= options.tolerance_mN) {
      report.converged = true;
      return report;
    }
    if (report.iterations >= options.maxIterations) return report;
    report.iterations++;
    state.engine.stiffness(body, increment, x);
    if (!state.factored) refactor(body, state, report);
    const slope = newtonDirection(body, state, options.tolerance_mN, report);
    if (!lineSearch(body, state, increment, x, report, slope)) return report;
  }
}

function refactor(body: Body, state: SolverState, report: SolveReport): void {
  state.engine.factorise(body.factor, PIVOT_FLOOR);
  state.factored = true;
  report.factorisations++;
}

/** direction = -K^-1 force by conjugate gradients; a kept factor that no longer serves is made anew. @returns force . direction (negative). */
function newtonDirection(body: Body, state: SolverState, tolerance_mN: number, report: SolveReport): number {
  const goal = Math.max(0.3 * tolerance_mN, Math.min(0.05, report.residual_mN) * report.residual_mN);
  for (let fresh = report.factorisations > 0 && report.iterations === 1; ; fresh = true) {
    const { iterations, reached } = state.engine.solve(body.factor, state, fresh ? MOST_LINEAR : STALE_AFTER, goal);
    report.linearIterations += iterations;
    if (fresh || reached) break;
    refactor(body, state, report);
  }
  return dot(state.force, state.direction);
}

/** Backtracks until the potential falls enough; x, its force and its potential move along. @returns false when no step lowers it. */
function lineSearch(
  body: Body,
  state: SolverState,
  increment: Increment,
  x: Float64Array,
  report: SolveReport,
  slope: number,
): boolean {
  const { direction, trial, force } = state;
  if (!(slope < 0)) return false;
  const value = report.potential;
  // below this a fall cannot be told from the sum's rounding
  const rounding = 1e-12 * Math.abs(value);
  for (let step = 1; step > 1e-7; step *= 0.5) {
    for (let i = 0; i < x.length; i++) trial[i] = x[i] + step * direction[i];
    const next = gradient(body, increment, trial, force);
    if (next <= value + SUFFICIENT * step * slope || (-slope < 10 * rounding && next <= value + rounding)) {
      x.set(trial);
      report.potential = next;
      return true;
    }
  }
  report.potential = gradient(body, increment, x, force);
  return false;
}

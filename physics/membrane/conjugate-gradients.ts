/** Preconditioned conjugate gradients (Hestenes & Stiefel 1952) with a sparse factor as preconditioner. */
import { type BlockCholesky, solveFactored } from './block-cholesky.ts';
import { multiply } from './block-matrix.ts';

/** Buffers, 3 per node. */
export interface Vectors {
  readonly force: Float64Array;
  readonly direction: Float64Array;
  readonly residual: Float64Array;
  readonly preconditioned: Float64Array;
  readonly search: Float64Array;
  readonly product: Float64Array;
}

/** What a linear solution took, and whether its largest residual came under the goal. */
export interface LinearOutcome {
  readonly iterations: number;
  readonly reached: boolean;
}

/**
 * direction = -K^-1 force with K the factor's matrix, until the residual's largest component (mN) is at the goal or under it, or
 * `limit` iterations are done.
 */
export function conjugateGradients(
  factor: BlockCholesky,
  vectors: Vectors,
  limit: number,
  goal: number,
): LinearOutcome {
  const { force, direction, residual, preconditioned, search, product } = vectors;
  const n = force.length;
  direction.fill(0);
  for (let i = 0; i < n; i++) residual[i] = -force[i];
  solveFactored(factor, residual, preconditioned);
  search.set(preconditioned);
  let rz = dot(residual, preconditioned);
  let iterations = 0;
  while (iterations < limit && largest(residual) > goal) {
    multiply(factor.matrix, search, product);
    const curvature = dot(search, product);
    if (!(curvature > 0)) break;
    const alpha = rz / curvature;
    for (let i = 0; i < n; i++) {
      direction[i] += alpha * search[i];
      residual[i] -= alpha * product[i];
    }
    solveFactored(factor, residual, preconditioned);
    const next = dot(residual, preconditioned);
    const beta = next / rz;
    rz = next;
    for (let i = 0; i < n; i++) search[i] = preconditioned[i] + beta * search[i];
    iterations++;
  }
  return { iterations, reached: largest(residual) <= goal };
}

/** Largest size of a component; NaN when any is not a number. */
export function largest(v: Float64Array): number {
  let most = 0;
  for (let i = 0; i < v.length; i++) {
    const size = Math.abs(v[i]);
    if (size > most) most = size;
    else if (Number.isNaN(size)) return size;
  }
  return most;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

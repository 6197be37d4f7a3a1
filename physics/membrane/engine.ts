/** What does the heavy sums of a solve. Two engines offer it and give the same bits: the plain one here, and the one in kernel/. */
import { type BlockCholesky, factorise } from './block-cholesky.ts';
import { type Body, type Increment, stiffness } from './body.ts';
import { conjugateGradients, type LinearOutcome, type Vectors } from './conjugate-gradients.ts';

export interface Engine {
  /** Makes the body's projected stiffness at `x`, for the calls that follow. */
  stiffness(body: Body, increment: Increment, x: Float64Array): void;
  /** Factors the stiffness; see `factorise` in block-cholesky.ts. @returns number of lifted pivots */
  factorise(factor: BlockCholesky, floor: number): number;
  /** See `conjugateGradients`. */
  solve(factor: BlockCholesky, vectors: Vectors, limit: number, goal: number): LinearOutcome;
}

/** Plain TypeScript: the reference of the other, and its stand-in where there is no WebAssembly. */
export const plainEngine: Engine = { stiffness, factorise, solve: conjugateGradients };

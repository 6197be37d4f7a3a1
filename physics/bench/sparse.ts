/** The sparse sums of an eye by themselves: how much memory they go through, and a way to do them again and again. */
import { sin } from '../core/elementary/circular.ts';
import type { World } from '../world/state.ts';

export interface SparseSample {
  readonly nodes: number;
  /** Bytes that `iterations` linear iterations go through: the matrix once each, the factor twice and once more, the vectors. */
  readonly bytes: (iterations: number) => number;
  /** Does this many linear iterations, up to about ten, for a fixed load with the present factor. */
  readonly iterate: (iterations: number) => void;
}

/** Bytes of an index, a number of a factor and any other number. */
const INDEX = 4;
const FACTOR = 4;
const NUMBER = 8;
/** Vectors that an iteration reads or writes: two for the product, three for the solution, and nine in the sums between. */
const VECTORS = 14;

/** Of the membrane as it stands in `world`, which is not changed. */
export function sparseSample(world: World): SparseSample {
  const { body, x } = world;
  const { engine } = world.solver;
  const { factor, matrix } = body;
  const vector = () => new Float64Array(x.length);
  const vectors = {
    force: x.map((_, i) => sin(1.7 * i)),
    direction: vector(),
    residual: vector(),
    preconditioned: vector(),
    search: vector(),
    product: vector(),
  };
  engine.stiffness(body, { from: x, dt_s: 1 / 60 }, x);
  engine.factorise(factor, 1e-9);
  const ofMatrix = matrix.values.length * NUMBER + matrix.column.length * INDEX;
  const ofFactor = factor.lower.length * FACTOR + factor.row.length * INDEX + factor.pivot.length * NUMBER;
  return {
    nodes: matrix.nodeCount,
    bytes: (iterations) => iterations * (ofMatrix + VECTORS * x.length * NUMBER) + (iterations + 1) * 2 * ofFactor,
    // no residual comes to this goal
    iterate: (iterations) => void engine.solve(factor, vectors, iterations, 0),
  };
}

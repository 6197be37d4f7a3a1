/**
 * The engine on WebAssembly memory, compiled from linear.as.ts and stiffness.as.ts. Bodies and factors stay in their typed arrays; what a call needs is
 * copied in unless the memory still holds it. So bodies come and go without the engine being told, any number may take turns, and
 * the memory is as large as the largest of them. Only the stiffness stays here, from its making to the solution with it.
 */
import type { BlockCholesky } from '../block-cholesky.ts';
import { BLOCK, type BlockMatrix } from '../block-matrix.ts';
import { type Body, floorStiffness, type Increment, planeStiffness, triangleValues } from '../body.ts';
import type { LinearOutcome, Vectors } from '../conjugate-gradients.ts';
import type { Engine } from '../engine.ts';
import type { Membrane } from '../membrane.ts';
import { VALUES } from '../principal.ts';
import { BASE, createRoom, doubles, floats, growTo, integers, kernelInstance, type Memory } from './memory.ts';

interface Exports {
  assemble(...numbers: number[]): void;
  factorise(...numbers: number[]): number;
  conjugateGradients(...numbers: number[]): number;
}

/** The engine, or null where the platform has no WebAssembly or does not let it be made. */
export function createKernelEngine(): Engine | null {
  const kernel = kernelInstance<Exports>();
  return kernel && engineOn(kernel.memory, kernel.run);
}

function engineOn(memory: Memory, run: Exports): Engine {
  let held: Held | null = null;
  /** Brings the pattern of a factor in, and its matrix's values unless they were made here. */
  const bring = (factor: BlockCholesky): Held => {
    const { matrix } = factor;
    if (held?.row === factor.row && held.made === matrix && matrix.elsewhere) return held;
    if (matrix.elsewhere) throw new Error('the stiffness was made for another body since');
    if (held?.row !== factor.row) held = layOut(memory, factor);
    doubles(memory, held.values, matrix.values.length).set(matrix.values);
    held.made = null;
    return held;
  };
  return {
    stiffness(body, increment, x) {
      if (held?.row !== body.factor.row) held = layOut(memory, body.factor);
      assemble(memory, run, held, body, increment, x);
    },
    factorise(factor, floor) {
      const at = bring(factor);
      const pattern = [at.order, at.rank, at.columnStart, at.rowOfBlock, at.lower, at.pivot];
      const scratch = [at.firstInRow, at.nextInRow, at.cursor, at.slot];
      const { nodeCount } = factor.matrix;
      const lifted = run.factorise(nodeCount, at.rowStart, at.column, at.values, ...pattern, ...scratch, floor);
      factor.lower.set(floats(memory, at.lower, factor.lower.length));
      factor.pivot.set(doubles(memory, at.pivot, factor.pivot.length));
      factor.version++;
      at.factor = factor;
      at.version = factor.version;
      return lifted;
    },
    solve(factor, vectors, limit, goal) {
      const at = bring(factor);
      if (at.factor !== factor || at.version !== factor.version) {
        floats(memory, at.lower, factor.lower.length).set(factor.lower);
        doubles(memory, at.pivot, factor.pivot.length).set(factor.pivot);
        at.factor = factor;
        at.version = factor.version;
      }
      return solveHeld(memory, run, at, factor, vectors, limit, goal);
    },
  };
}

function assemble(memory: Memory, run: Exports, at: Held, body: Body, increment: Increment, x: Float64Array): void {
  const { membrane, matrix } = body;
  const triangles = membrane.triangleCount;
  if (at.shape?.of !== membrane) at.shape = layOutShape(memory, at.top, body);
  const { shape } = at;
  doubles(memory, shape.state, triangles * VALUES).set(triangleValues(body, x));
  const plane = doubles(memory, shape.plane, matrix.nodeCount);
  const across = doubles(memory, shape.across, matrix.nodeCount);
  for (let node = 0; node < matrix.nodeCount; node++) {
    plane[node] = planeStiffness(body, increment, node);
    across[node] = plane[node] + floorStiffness(body, x, node);
  }
  const sizes = [matrix.nodeCount, matrix.column.length, triangles, membrane.thickness_mm];
  const { gradient, area, diagonal, state } = shape;
  const from = [shape.constant, state, gradient, area, shape.places, diagonal, shape.plane, shape.across];
  run.assemble(...sizes, ...from, at.values);
  at.made = matrix;
  matrix.elsewhere = true;
}

function solveHeld(
  memory: Memory,
  run: Exports,
  at: Held,
  factor: BlockCholesky,
  vectors: Vectors,
  limit: number,
  goal: number,
): LinearOutcome {
  const { force, direction } = vectors;
  doubles(memory, at.force, force.length).set(force);
  const pattern = [at.rowStart, at.column, at.values, at.order, at.columnStart, at.rowOfBlock, at.lower, at.pivot];
  const buffers = [at.permuted, at.force, at.direction, at.residual, at.preconditioned, at.search, at.product];
  const answer = run.conjugateGradients(factor.matrix.nodeCount, ...pattern, ...buffers, limit, goal);
  direction.set(doubles(memory, at.direction, direction.length));
  return answer >= 0 ? { iterations: answer, reached: true } : { iterations: -1 - answer, reached: false };
}

/** Where things are in the memory, bytes, and whose they are. */
interface Held {
  /** The pattern held, known by its array of rows; and the factor whose values are there, with its version. */
  readonly row: Int32Array;
  factor: BlockCholesky | null;
  version: number;
  /** The matrix whose values were made here last; null when they were copied in. */
  made: BlockMatrix | null;
  /** End of what is laid out, and the parts of a body that stiffness needs, laid out behind it when it is first asked for. */
  readonly top: number;
  shape: Shape | null;
  readonly rowStart: number;
  readonly column: number;
  readonly order: number;
  readonly rank: number;
  readonly columnStart: number;
  readonly rowOfBlock: number;
  readonly firstInRow: number;
  readonly nextInRow: number;
  readonly cursor: number;
  readonly slot: number;
  readonly values: number;
  readonly lower: number;
  readonly pivot: number;
  readonly permuted: number;
  readonly force: number;
  readonly direction: number;
  readonly residual: number;
  readonly preconditioned: number;
  readonly search: number;
  readonly product: number;
}

/** Gives everything of one factor's pattern its place, grows the memory to it and copies the pattern in. */
function layOut(memory: Memory, factor: BlockCholesky): Held {
  const { matrix, order, rank, columnStart, row } = factor;
  const n = matrix.nodeCount;
  const room = createRoom(BASE);
  const vector = () => room(n * 24);
  const places = {
    rowStart: room((n + 1) * 4),
    column: room(matrix.column.length * 4),
    order: room(n * 4),
    rank: room(n * 4),
    columnStart: room((n + 1) * 4),
    rowOfBlock: room(row.length * 4),
    firstInRow: room(n * 4),
    nextInRow: room(n * 4),
    cursor: room(n * 4),
    slot: room(n * 4),
    values: room(matrix.column.length * BLOCK * 8),
    lower: room(row.length * BLOCK * 4),
    pivot: room(n * BLOCK * 8),
    permuted: vector(),
    force: vector(),
    direction: vector(),
    residual: vector(),
    preconditioned: vector(),
    search: vector(),
    product: vector(),
  };
  const held: Held = { row, factor: null, version: 0, made: null, shape: null, top: room.end(), ...places };
  growTo(memory, held.top);
  const put = (at: number, from: Int32Array) => integers(memory, at, from.length).set(from);
  put(held.rowStart, matrix.rowStart);
  put(held.column, matrix.column);
  put(held.order, order);
  put(held.rank, rank);
  put(held.columnStart, columnStart);
  put(held.rowOfBlock, row);
  return held;
}

/** Where the unchanging parts of a body are that stiffness needs, and its inputs. */
interface Shape {
  readonly of: Membrane;
  readonly constant: number;
  readonly gradient: number;
  readonly area: number;
  readonly places: number;
  readonly diagonal: number;
  readonly state: number;
  readonly plane: number;
  readonly across: number;
}

function layOutShape(memory: Memory, from: number, body: Body): Shape {
  const { membrane, matrix, places, constant } = body;
  const room = createRoom(from);
  const shape: Shape = {
    of: membrane,
    constant: room(constant.length * 8),
    gradient: room(membrane.gradient.length * 8),
    area: room(membrane.triangleCount * 8),
    places: room(places.length * 4),
    diagonal: room(matrix.nodeCount * 4),
    state: room(membrane.triangleCount * VALUES * 8),
    plane: room(matrix.nodeCount * 8),
    across: room(matrix.nodeCount * 8),
  };
  growTo(memory, room.end());
  doubles(memory, shape.constant, constant.length).set(constant);
  doubles(memory, shape.gradient, membrane.gradient.length).set(membrane.gradient);
  doubles(memory, shape.area, membrane.triangleCount).set(membrane.area_mm2);
  integers(memory, shape.places, places.length).set(places);
  integers(memory, shape.diagonal, matrix.nodeCount).set(matrix.diagonal);
  return shape;
}

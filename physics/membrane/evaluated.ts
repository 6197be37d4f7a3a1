/**
 * States whose triangles have been evaluated, kept while they may be asked for again: the state a step starts from, the trial of a
 * line search and the state at rest are each needed by the energy, the forces, the stiffness, the tip force and the picture, and
 * frames cost more than all else but the linear solution. A kept state is known by its places to the bit, so nothing can go stale.
 */
import { addHingeForces, type Hinges } from './hinges.ts';
import { bestEvaluator } from './kernel/kernel-evaluator.ts';
import { addForcesOf, energyOf, evaluateMembrane, type Membrane } from './membrane.ts';
import { VALUES } from './principal.ts';

/** One evaluated state. */
export interface Evaluated {
  /** 3 per node, mm: the state; and the same bits as integers, by which it is known again. */
  readonly x: Float64Array;
  readonly bits: Int32Array;
  /** VALUES per triangle, see membrane.ts. */
  readonly values: Float64Array;
  /** 3 per node, mN: gradient of membrane and folds. */
  readonly force: Float64Array;
  /** The membrane's energy, mN mm, summed by area and (as the gradient has it) by volume: their last bits differ. */
  byArea: number;
  byVolume: number;
  hinge: number;
}

/** The two states of a body evaluated last; made when the first is asked for. */
export interface EvaluatedPair {
  latest: Evaluated | null;
  other: Evaluated | null;
}

export const noneEvaluated = (): EvaluatedPair => ({ latest: null, other: null });

/** Membrane and folds at `x` (3 per node, mm). What is returned stands until two other states have been asked for. */
export function evaluatedAt(pair: EvaluatedPair, membrane: Membrane, hinges: Hinges, x: Float64Array): Evaluated {
  const { latest, other } = pair;
  const bits = new Int32Array(x.buffer, x.byteOffset, x.length * 2);
  if (latest && sameBits(latest.bits, bits)) return latest;
  const found = other && sameBits(other.bits, bits);
  const next = found ? other : evaluate(other ?? createEvaluated(membrane), membrane, hinges, x);
  pair.other = latest;
  pair.latest = next;
  return next;
}

function evaluate(state: Evaluated, membrane: Membrane, hinges: Hinges, x: Float64Array): Evaluated {
  state.x.set(x);
  const fast = bestEvaluator();
  if (!fast?.(membrane, hinges, x, state.values, state.force, state)) evaluatePlain(state, membrane, hinges, x);
  return state;
}

/** The reference of the kernel's evaluator, and its stand-in for other materials and where there is no WebAssembly. */
export function evaluatePlain(
  state: Omit<Evaluated, 'x' | 'bits'>,
  membrane: Membrane,
  hinges: Hinges,
  x: Float64Array,
): void {
  evaluateMembrane(membrane, x, state.values);
  state.force.fill(0);
  state.byArea = energyOf(membrane, state.values);
  state.byVolume = addForcesOf(membrane, state.values, state.force);
  state.hinge = addHingeForces(hinges, x, state.force);
}

function createEvaluated(membrane: Membrane): Evaluated {
  const x = new Float64Array(membrane.nodeCount * 3);
  return {
    x,
    bits: new Int32Array(x.buffer),
    values: new Float64Array(membrane.triangleCount * VALUES),
    force: new Float64Array(membrane.nodeCount * 3),
    byArea: 0,
    byVolume: 0,
    hinge: 0,
  };
}

function sameBits(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}

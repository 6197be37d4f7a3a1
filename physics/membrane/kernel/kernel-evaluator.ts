/**
 * Membrane and folds at a state on WebAssembly memory, compiled from evaluate.as.ts: for the product's material with its tension
 * field. What does not change of a body is copied in once, while that body is asked for.
 */
import type { Hinges } from '../hinges.ts';
import type { Membrane } from '../membrane.ts';
import { VALUES } from '../principal.ts';
import { BASE, createRoom, doubles, growTo, integers, kernelInstance, type Memory } from './memory.ts';

/** Energies of a state, mN mm: of the membrane summed by area and by volume, and of the folds. */
export interface Energies {
  byArea: number;
  byVolume: number;
  hinge: number;
}

/**
 * Writes what every triangle carries at `x` to `values` and the gradient of membrane and folds to `force`, both to the bits of the plain
 * path, and the energies to `sums`. @returns false, nothing written, for another material
 */
export type Evaluator = (
  membrane: Membrane,
  hinges: Hinges,
  x: Float64Array,
  values: Float64Array,
  force: Float64Array,
  sums: Energies,
) => boolean;

interface Exports {
  evaluate(...numbers: number[]): void;
}

/** Where things are in the memory, bytes, and whose they are. */
interface Held {
  readonly membrane: Membrane;
  readonly hinges: Hinges;
  readonly triangle: number;
  readonly gradient: number;
  readonly area: number;
  readonly hinge: number;
  readonly weight: number;
  readonly x: number;
  readonly values: number;
  readonly force: number;
  readonly sums: number;
}

function layOut(memory: Memory, membrane: Membrane, hinges: Hinges): Held {
  const { triangle, gradient, area_mm2, triangleCount, nodeCount } = membrane;
  const room = createRoom(BASE);
  const held = {
    membrane,
    hinges,
    triangle: room(triangle.length * 4),
    gradient: room(gradient.length * 8),
    area: room(area_mm2.length * 8),
    hinge: room(hinges.nodes.length * 4),
    weight: room(hinges.weight.length * 8),
    x: room(nodeCount * 24),
    values: room(triangleCount * VALUES * 8),
    force: room(nodeCount * 24),
    sums: room(24),
  };
  growTo(memory, room.end());
  integers(memory, held.triangle, triangle.length).set(triangle);
  doubles(memory, held.gradient, gradient.length).set(gradient);
  doubles(memory, held.area, area_mm2.length).set(area_mm2);
  integers(memory, held.hinge, hinges.nodes.length).set(hinges.nodes);
  doubles(memory, held.weight, hinges.weight.length).set(hinges.weight);
  return held;
}

/** The evaluator, or null where the platform has no WebAssembly or does not let it be made. */
export function createKernelEvaluator(): Evaluator | null {
  const kernel = kernelInstance<Exports>();
  if (!kernel) return null;
  const { memory, run } = kernel;
  let held: Held | null = null;
  return (membrane, hinges, x, values, force, sums) => {
    const { exponential } = membrane.material;
    if (!exponential || !membrane.tensionField) return false;
    if (held?.membrane !== membrane || held.hinges !== hinges) held = layOut(memory, membrane, hinges);
    const { triangle, gradient, area, hinge, weight } = held;
    doubles(memory, held.x, x.length).set(x);
    const forceThere = doubles(memory, held.force, force.length).fill(0);
    const counts = [membrane.triangleCount, hinges.nodes.length / 4];
    const places = [triangle, gradient, area, hinge, weight, held.x, held.values, held.force, held.sums];
    const { shearModulus_kPa, stiffening } = exponential;
    run.evaluate(...counts, ...places, shearModulus_kPa, stiffening, membrane.residual_kPa, membrane.thickness_mm);
    values.set(doubles(memory, held.values, values.length));
    force.set(forceThere);
    const [byArea, byVolume, bends] = doubles(memory, held.sums, 3);
    sums.byArea = byArea * membrane.thickness_mm;
    sums.byVolume = byVolume;
    sums.hinge = 0.5 * bends;
    return true;
  };
}

let best: Evaluator | null | undefined;

/** Made when first asked for; one for all bodies. */
export function bestEvaluator(): Evaluator | null {
  if (best === undefined) best = createKernelEvaluator();
  return best;
}

/**
 * The driving force at a tear's tip: the configurational (Eshelby) force, as a domain integral over the rings round the tip.
 * Sigma = W I - F^T P in the reference disc, per thickness; J = -sum q_a G_a, G_a = sum over triangles of A Sigma grad N_a
 * (model.md, "Driving force"; Eshelby 1951; nodal form after Mueller & Maugin 2002, from memory). The result is a vector in the
 * reference disc, mN: its part along the tear is the energy released per length torn.
 */
import { hypot } from '../core/elementary/hypot.ts';
import { createTriangleState, GRADIENTS, type Membrane, triangleState } from '../membrane/membrane.ts';

/** Where a tip sits in a mesh. */
export interface TipPatch {
  /** Node of the tip. */
  readonly node: number;
  readonly x: number;
  readonly y: number;
  /** Triangles with at least one node inside the outer radius, hanging together with the tip. */
  readonly triangles: Int32Array;
  /** Weight q of each node of `nodes`, 1 near the tip and 0 beyond. */
  readonly nodes: Int32Array;
  readonly weight: Float64Array;
}

/**
 * Inner and outer radius of the patch in lengths of the first ring. Chosen on the arc slit of the checks: in a taut sheet the
 * second component grows with the patch (the faces' own load W n is inside) and is low in the tip elements; at this size both
 * components are within 3 % (implementation-notes.md).
 */
export const PATCH_RADII: readonly [number, number] = [1.1, 4.6];

/** Triangles and node weights of one tip; radii in mm. */
export function createTipPatch(membrane: Membrane, tipNode: number, inner_mm: number, outer_mm: number): TipPatch {
  const { reference_mm, triangle, triangleCount } = membrane;
  const x = reference_mm[tipNode * 2];
  const y = reference_mm[tipNode * 2 + 1];
  const distance = (node: number) => hypot(reference_mm[node * 2] - x, reference_mm[node * 2 + 1] - y);
  const near: number[] = [];
  for (let t = 0; t < triangleCount; t++)
    if (
      distance(triangle[t * 3]) < outer_mm ||
      distance(triangle[t * 3 + 1]) < outer_mm ||
      distance(triangle[t * 3 + 2]) < outer_mm
    )
      near.push(t);
  const connected = connectedTo(tipNode, near, triangle);
  const index = new Map<number, number>();
  const nodes: number[] = [];
  const weight: number[] = [];
  for (const t of connected)
    for (let k = 0; k < 3; k++) {
      const node = triangle[t * 3 + k];
      if (index.has(node)) continue;
      const d = distance(node);
      const q = d <= inner_mm ? 1 : Math.max(0, (outer_mm - d) / (outer_mm - inner_mm));
      index.set(node, nodes.length);
      nodes.push(node);
      weight.push(q);
    }
  return {
    node: tipNode,
    x,
    y,
    triangles: Int32Array.from(connected),
    nodes: Int32Array.from(nodes),
    weight: Float64Array.from(weight),
  };
}

/** Those of `near` that hang together with the tip across shared nodes, so that a neighbouring face is not counted. */
function connectedTo(tipNode: number, near: number[], triangle: Int32Array): number[] {
  const byNode = new Map<number, number[]>();
  for (const t of near)
    for (let k = 0; k < 3; k++) {
      const node = triangle[t * 3 + k];
      const list = byNode.get(node);
      if (list) list.push(t);
      else byNode.set(node, [t]);
    }
  const seen = new Set<number>();
  const queue = [tipNode];
  const visited = new Set<number>(queue);
  for (let k = 0; k < queue.length; k++)
    for (const t of byNode.get(queue[k]) ?? []) {
      seen.add(t);
      for (let c = 0; c < 3; c++) {
        const node = triangle[t * 3 + c];
        if (!visited.has(node)) {
          visited.add(node);
          queue.push(node);
        }
      }
    }
  return near.filter((t) => seen.has(t));
}

const state = createTriangleState();

/** Configurational force vector at the tip, mN, reference axes. `x` has 3 per node, mm. */
export function tipForce(membrane: Membrane, patch: TipPatch, x: Float64Array): [number, number] {
  const { nodes, weight, triangles } = patch;
  const slot = new Map<number, number>();
  for (let k = 0; k < nodes.length; k++) slot.set(nodes[k], k);
  const force = new Float64Array(nodes.length * 2);
  const { triangle, gradient, area_mm2 } = membrane;
  for (const t of triangles) {
    triangleState(membrane, x, t, state);
    const s1 = (state.energy_mN_per_mm - state.l1 * state.tension1_mN_per_mm) * area_mm2[t];
    const s2 = (state.energy_mN_per_mm - state.l2 * state.tension2_mN_per_mm) * area_mm2[t];
    const { cos, sin } = state;
    const xx = s1 * cos * cos + s2 * sin * sin;
    const yy = s1 * sin * sin + s2 * cos * cos;
    const xy = (s1 - s2) * cos * sin;
    for (let k = 0; k < 3; k++) {
      const at = slot.get(triangle[t * 3 + k])!;
      const g = t * GRADIENTS + k * 2;
      force[at * 2] += xx * gradient[g] + xy * gradient[g + 1];
      force[at * 2 + 1] += xy * gradient[g] + yy * gradient[g + 1];
    }
  }
  let jx = 0;
  let jy = 0;
  for (let k = 0; k < nodes.length; k++) {
    jx -= weight[k] * force[k * 2];
    jy -= weight[k] * force[k * 2 + 1];
  }
  return [jx, jy];
}

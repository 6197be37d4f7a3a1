/**
 * Bending as a quadratic hinge energy: for each inner edge, B/(A0 + A1) |k . x|^2 / 2 with the cotangent weights k of Bergou et
 * al. 2006 (from memory), scaled so that a gentle cylinder on an even lattice costs B c^2 / 2 per area. It only keeps
 * folds from being sharper than the mesh.
 */
import { BLOCK, type BlockMatrix, findBlock } from './block-matrix.ts';

export interface Hinges {
  /** 4 per hinge: the edge's ends, then the two opposite nodes. */
  readonly nodes: Int32Array;
  /** 4 per hinge: weights, scaled so that the energy is |w . x|^2 / 2, sqrt(mN/mm). */
  readonly weight: Float64Array;
}

export const noHinges = (): Hinges => ({ nodes: new Int32Array(0), weight: new Float64Array(0) });

/** Cotangent of the angle at p between q and r. */
function cotangent(place: Float64Array, p: number, q: number, r: number): number {
  const ax = place[q * 2] - place[p * 2];
  const ay = place[q * 2 + 1] - place[p * 2 + 1];
  const bx = place[r * 2] - place[p * 2];
  const by = place[r * 2 + 1] - place[p * 2 + 1];
  return (ax * bx + ay * by) / Math.abs(ax * by - ay * bx);
}

/**
 * Hinges over all inner edges of a split mesh.
 * @param stiffness_mN_mm bending stiffness B = E t^3 / (12 (1 - nu^2)) or its floor
 */
export function createHinges(
  reference_mm: Float64Array,
  triangle: Int32Array,
  area_mm2: Float64Array,
  stiffness_mN_mm: number,
): Hinges {
  if (!(stiffness_mN_mm > 0)) return noHinges();
  const nodeCount = reference_mm.length / 2;
  const open = new Map<number, number>();
  const nodes: number[] = [];
  const weight: number[] = [];
  for (let t = 0; t < triangle.length / 3; t++)
    for (let k = 0; k < 3; k++) {
      const a = triangle[t * 3 + k];
      const b = triangle[t * 3 + ((k + 1) % 3)];
      const c = triangle[t * 3 + ((k + 2) % 3)];
      const key = Math.min(a, b) * nodeCount + Math.max(a, b);
      const other = open.get(key);
      if (other === undefined) {
        open.set(key, t * 3 + ((k + 2) % 3));
        continue;
      }
      const d = triangle[other];
      const areas = area_mm2[t] + area_mm2[Math.floor(other / 3)];
      const ca = cotangent(reference_mm, a, b, c);
      const cb = cotangent(reference_mm, b, a, c);
      const da = cotangent(reference_mm, a, b, d);
      const db = cotangent(reference_mm, b, a, d);
      const scale = Math.sqrt(stiffness_mN_mm / areas);
      nodes.push(a, b, c, d);
      weight.push((cb + db) * scale, (ca + da) * scale, -(ca + cb) * scale, -(da + db) * scale);
    }
  return { nodes: Int32Array.from(nodes), weight: Float64Array.from(weight) };
}

export function hingeEnergy(hinges: Hinges, x: Float64Array): number {
  return addHingeForces(hinges, x, null);
}

/** Adds the gradient when `out` is given. @returns the energy, mN mm. */
export function addHingeForces(hinges: Hinges, x: Float64Array, out: Float64Array | null): number {
  const { nodes, weight } = hinges;
  let sum = 0;
  for (let h = 0; h < nodes.length; h += 4) {
    const a = nodes[h] * 3;
    const b = nodes[h + 1] * 3;
    const c = nodes[h + 2] * 3;
    const d = nodes[h + 3] * 3;
    const wa = weight[h];
    const wb = weight[h + 1];
    const wc = weight[h + 2];
    const wd = weight[h + 3];
    for (let axis = 0; axis < 3; axis++) {
      const bend = wa * x[a + axis] + wb * x[b + axis] + wc * x[c + axis] + wd * x[d + axis];
      sum += bend * bend;
      if (out) {
        out[a + axis] += wa * bend;
        out[b + axis] += wb * bend;
        out[c + axis] += wc * bend;
        out[d + axis] += wd * bend;
      }
    }
  }
  return 0.5 * sum;
}

/**
 * Adds a majorant of the hinge stiffness that stays in the triangles' pattern: the two opposite nodes do not
 * share an edge, so their coupling is moved to the diagonals, which keeps the sum positive and never too soft.
 */
export function addHingeStiffness(hinges: Hinges, matrix: BlockMatrix): void {
  const { nodes, weight } = hinges;
  const { values } = matrix;
  for (let h = 0; h < nodes.length; h += 4)
    for (let p = 0; p < 4; p++)
      for (let q = 0; q < 4; q++) {
        const found = p === q ? matrix.diagonal[nodes[h + p]] : findBlock(matrix, nodes[h + p], nodes[h + q]);
        const product = weight[h + p] * weight[h + q];
        const at = (found < 0 ? matrix.diagonal[nodes[h + p]] : found) * BLOCK;
        const k = found < 0 ? Math.abs(product) : product;
        values[at] += k;
        values[at + 4] += k;
        values[at + 8] += k;
      }
}

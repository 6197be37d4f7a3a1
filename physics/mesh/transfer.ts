/**
 * Carries nodal state from one mesh to the next. Nodes that both meshes share (rim, lattice, tear vertices on their side)
 * are copied; the others are interpolated in the old triangle that holds them.
 */
import { Unmeshable } from '../core/unmeshable.ts';
import { barycentric, cornersAt } from './barycentric.ts';
import type { DiscMesh } from './disc-mesh.ts';
import type { TearLine } from './tear-line.ts';

/** For each new node up to three old nodes and their weights, so that any number of fields can be carried. */
export interface Transfer {
  /** 3 per new node. */
  readonly from: Int32Array;
  readonly weight: Float64Array;
}

/** Whether a new node has the state of one old node as it was. */
export const isCopied = ({ weight }: Transfer, node: number): boolean => weight[node * 3] === 1;

/** Side of triangles on a uniform grid for point location, mm. */
const BIN_MM = 0.3;

export function createTransfer(
  old: DiscMesh,
  oldTears: readonly TearLine[],
  next: DiscMesh,
  nextTears: readonly TearLine[],
): Transfer {
  const from = new Int32Array(next.nodeCount * 3);
  const weight = new Float64Array(next.nodeCount * 3);
  const done = new Uint8Array(next.nodeCount);
  const take = (node: number, source: number) => {
    from[node * 3] = source;
    from[node * 3 + 1] = source;
    from[node * 3 + 2] = source;
    weight[node * 3] = 1;
    done[node] = 1;
  };
  takeFaces(old, oldTears, next, nextTears, take);
  takeShared(old, next, done, take);
  const locate = createLocator(old);
  const inside = oneTriangleOf(next);
  for (let node = 0; node < next.nodeCount; node++) {
    if (done[node]) continue;
    const [x, y] = next.stem[node] === 'tear' ? inward(next, node, inside) : place(next, node);
    const { nodes, weights } = locate(x, y);
    for (let k = 0; k < 3; k++) {
      from[node * 3 + k] = nodes[k];
      weight[node * 3 + k] = weights[k];
    }
  }
  return { from, weight };
}

const place = (mesh: DiscMesh, node: number): [number, number] => [
  mesh.reference_mm[node * 2],
  mesh.reference_mm[node * 2 + 1],
];

function oneTriangleOf(mesh: DiscMesh): Int32Array {
  const inside = new Int32Array(mesh.nodeCount);
  mesh.triangle.forEach((node, corner) => {
    inside[node] = Math.floor(corner / 3);
  });
  return inside;
}

/** How far a node on a face is drawn into its own side before it is located, as a share of its triangle. */
const INWARD = 1e-4;

/** A place just inside the node's own side of the tear, so that it is not found across an old face. */
function inward(mesh: DiscMesh, node: number, inside: Int32Array): [number, number] {
  const [x, y] = place(mesh, node);
  let cx = 0;
  let cy = 0;
  for (let k = 0; k < 3; k++) {
    const [px, py] = place(mesh, mesh.triangle[inside[node] * 3 + k]);
    cx += px / 3;
    cy += py / 3;
  }
  return [x + INWARD * (cx - x), y + INWARD * (cy - y)];
}

/** Tear vertices that both meshes have keep their side's state. */
function takeFaces(
  old: DiscMesh,
  oldTears: readonly TearLine[],
  next: DiscMesh,
  nextTears: readonly TearLine[],
  take: (node: number, source: number) => void,
): void {
  // a vertex where a tear meets itself stands twice under one name and has more than two sides: it is located instead
  const known = new Map<string, { left: number; right: number } | null>();
  const name = (tear: TearLine, k: number) => `${tear.id}:${tear.points[k * 2]},${tear.points[k * 2 + 1]}`;
  const sideNode = (faces: Int32Array, k: number) => (2 * k < faces.length ? faces[2 * k] : faces[2 * k - 1]);
  oldTears.forEach((tear, index) => {
    for (let k = 0; k < tear.points.length / 2; k++) {
      const twice = known.has(name(tear, k));
      const sides = { left: sideNode(old.left[index], k), right: sideNode(old.right[index], k) };
      known.set(name(tear, k), twice ? null : sides);
    }
  });
  const met = new Set<string>();
  nextTears.forEach((tear) => {
    const names = new Set<string>();
    for (let k = 0; k < tear.points.length / 2; k++) (names.has(name(tear, k)) ? met : names).add(name(tear, k));
  });
  nextTears.forEach((tear, index) => {
    for (let k = 0; k < tear.points.length / 2; k++) {
      if (met.has(name(tear, k))) continue;
      const source = known.get(name(tear, k));
      if (!source) continue;
      take(sideNode(next.left[index], k), source.left);
      take(sideNode(next.right[index], k), source.right);
    }
  });
}

function takeShared(
  old: DiscMesh,
  next: DiscMesh,
  done: Uint8Array,
  take: (node: number, source: number) => void,
): void {
  const known = new Map<number, number>();
  const keyOf = (mesh: DiscMesh, node: number): number => {
    if (mesh.stem[node] === 'rim') return mesh.key[node];
    return mesh.stem[node] === 'lattice' ? 1e6 + mesh.key[node] : -1;
  };
  for (let node = 0; node < old.nodeCount; node++) {
    const key = keyOf(old, node);
    if (key >= 0) known.set(key, known.has(key) ? -1 : node);
  }
  for (let node = 0; node < next.nodeCount; node++) {
    const key = keyOf(next, node);
    if (done[node] || key < 0) continue;
    const source = known.get(key);
    // a rim node that a tear has split stands twice; then the place decides
    if (source !== undefined && source >= 0) take(node, source);
  }
}

export interface Located {
  readonly triangle: number;
  readonly nodes: [number, number, number];
  readonly weights: [number, number, number];
}

/** Point location in a split mesh: the triangle that holds a reference place, or the nearest one, weights clamped. */
export function createLocator(mesh: DiscMesh): (x: number, y: number) => Located {
  const { reference_mm, triangle } = mesh;
  const bins = new Map<number, number[]>();
  const bin = (v: number) => Math.floor(v / BIN_MM) + 512;
  for (let t = 0; t < triangle.length / 3; t++) {
    let x0 = Infinity;
    let x1 = -Infinity;
    let y0 = Infinity;
    let y1 = -Infinity;
    for (let k = 0; k < 3; k++) {
      const x = reference_mm[triangle[t * 3 + k] * 2];
      const y = reference_mm[triangle[t * 3 + k] * 2 + 1];
      x0 = Math.min(x0, x);
      x1 = Math.max(x1, x);
      y0 = Math.min(y0, y);
      y1 = Math.max(y1, y);
    }
    for (let j = bin(y0); j <= bin(y1); j++)
      for (let i = bin(x0); i <= bin(x1); i++) {
        const list = bins.get(j * 1024 + i);
        if (list) list.push(t);
        else bins.set(j * 1024 + i, [t]);
      }
  }
  return (x, y) => {
    let best: Located | null = null;
    let bestLow = -Infinity;
    for (let ring = 0; ring < 6 && bestLow < -0.2; ring++)
      for (let j = bin(y) - ring; j <= bin(y) + ring; j++)
        for (let i = bin(x) - ring; i <= bin(x) + ring; i++) {
          if (ring > 0 && Math.abs(j - bin(y)) < ring && Math.abs(i - bin(x)) < ring) continue;
          for (const t of bins.get(j * 1024 + i) ?? []) {
            const nodes = cornersAt(triangle, t * 3);
            const { weights } = barycentric(reference_mm, 2, nodes, x, y);
            const low = Math.min(weights[0], weights[1], weights[2]);
            if (low <= bestLow) continue;
            bestLow = low;
            best = { triangle: t, nodes, weights };
            if (low >= -1e-12) return clampWeights(best);
          }
        }
    if (!best) throw new Unmeshable(`no triangle near ${x}, ${y}`);
    return clampWeights(best);
  };
}

function clampWeights(found: Located): Located {
  const weights = found.weights.map((w) => Math.max(0, w)) as [number, number, number];
  const sum = weights[0] + weights[1] + weights[2];
  return { ...found, weights: [weights[0] / sum, weights[1] / sum, weights[2] / sum] };
}

/** New field with `stride` numbers per node from an old one. */
export function carry(transfer: Transfer, old: Float64Array, stride: number): Float64Array {
  const { from, weight } = transfer;
  const count = from.length / 3;
  const next = new Float64Array(count * stride);
  for (let node = 0; node < count; node++)
    for (let k = 0; k < 3; k++) {
      const w = weight[node * 3 + k];
      if (w === 0) continue;
      const source = from[node * 3 + k] * stride;
      for (let axis = 0; axis < stride; axis++) next[node * stride + axis] += w * old[source + axis];
    }
  return next;
}

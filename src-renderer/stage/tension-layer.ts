import { BufferAttribute, type BufferGeometry, DynamicDrawUsage, type Mesh, type MeshBasicMaterial } from 'three';
import type { WorldView } from '../../physics/index.ts';
import { LAYER } from './layers.ts';
import { paintedMesh } from './strokes.ts';
import { tensionColour } from './teaching-look.ts';

/** How much of the map covers the eye where the capsule is slack and where it is taut. */
const SLACK_COVER = 0.3;
const TAUT_COVER = 0.78;

/** Larger principal line tension of the capsule as a colour, on what lies flat. */
export class TensionLayer {
  readonly mesh: Mesh<BufferGeometry, MeshBasicMaterial>;
  #topology = -1;
  #view: WorldView | null = null;
  #full = 0;
  #nodes = 0;

  constructor() {
    this.mesh = paintedMesh(LAYER.tension);
    this.mesh.visible = false;
  }

  /**
   * @param positions 3 per node, mm
   * @param isHigh 1 for nodes of lifted or folded tissue, which is left out
   * @param full_mN_per_mm tension of the last colour
   */
  draw(view: WorldView, positions: Float32Array, isHigh: Uint8Array, full_mN_per_mm: number): void {
    this.mesh.visible = true;
    const nodes = positions.length / 3;
    const geometry = this.mesh.geometry;
    if (view.topology !== this.#topology || nodes !== this.#nodes) {
      this.#topology = view.topology;
      this.#nodes = nodes;
      geometry.dispose();
      geometry.setAttribute('position', new BufferAttribute(new Float32Array(3 * nodes), 3).setUsage(DynamicDrawUsage));
      geometry.setAttribute('color', new BufferAttribute(new Float32Array(4 * nodes), 4).setUsage(DynamicDrawUsage));
      geometry.setIndex(new BufferAttribute(new Uint32Array(view.triangle.length), 1).setUsage(DynamicDrawUsage));
      this.#view = null;
    }
    const place = geometry.getAttribute('position') as BufferAttribute;
    (place.array as Float32Array).set(positions);
    place.needsUpdate = true;
    if (view === this.#view && full_mN_per_mm === this.#full) return;
    this.#view = view;
    this.#full = full_mN_per_mm;
    const colour = geometry.getAttribute('color') as BufferAttribute;
    fillColours(view, nodes, full_mN_per_mm, colour.array as Float32Array);
    colour.needsUpdate = true;
    const index = geometry.index!;
    geometry.setDrawRange(0, fillFlat(view.triangle, isHigh, index.array as Uint32Array));
    index.needsUpdate = true;
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}

/** Each node has the mean of the triangles round it, by their size in the unloaded disc. */
function fillColours(view: WorldView, nodes: number, full_mN_per_mm: number, out: Float32Array): void {
  const { triangle, reference_mm: r, tension_mN_per_mm: tension } = view;
  const sum = new Float32Array(nodes);
  const size = new Float32Array(nodes);
  for (let t = 0; t < tension.length; t++) {
    const [a, b, c] = [triangle[3 * t]!, triangle[3 * t + 1]!, triangle[3 * t + 2]!];
    const area = Math.abs(
      (r[2 * b]! - r[2 * a]!) * (r[2 * c + 1]! - r[2 * a + 1]!) -
        (r[2 * c]! - r[2 * a]!) * (r[2 * b + 1]! - r[2 * a + 1]!),
    );
    for (const node of [a, b, c]) {
      sum[node]! += area * tension[t]!;
      size[node]! += area;
    }
  }
  for (let node = 0; node < nodes; node++) {
    const share = size[node]! > 0 ? Math.min(1, sum[node]! / size[node]! / full_mN_per_mm) : 0;
    const [red, green, blue] = tensionColour(share);
    out.set([red, green, blue, SLACK_COVER + (TAUT_COVER - SLACK_COVER) * share], 4 * node);
  }
}

/** Triangles with a corner that lies flat. @returns how many indices */
function fillFlat(triangle: Uint32Array, isHigh: Uint8Array, out: Uint32Array): number {
  let count = 0;
  for (let t = 0; t < triangle.length; t += 3) {
    const [a, b, c] = [triangle[t]!, triangle[t + 1]!, triangle[t + 2]!];
    if (isHigh[a] === 1 && isHigh[b] === 1 && isHigh[c] === 1) continue;
    out[count++] = a;
    out[count++] = b;
    out[count++] = c;
  }
  return count;
}

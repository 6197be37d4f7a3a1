import type { WorldView } from '../../physics/index.ts';
import type { SheetOrder } from './sheet-order.ts';
import { tensionColour } from './teaching-look.ts';

/** How much of the map covers the eye where the capsule is slack and where it is taut. */
const SLACK_COVER = 0.3;
const TAUT_COVER = 0.78;

/** Room for one sum per node, kept from view to view and grown where a mesh has more nodes. Each sheet has its own. */
export class TensionRoom {
  #sum = new Float32Array(0);
  #size = new Float32Array(0);

  /** Zeros for so many nodes. */
  cleared(nodes: number): { readonly sum: Float32Array; readonly size: Float32Array } {
    if (this.#sum.length < nodes) {
      this.#sum = new Float32Array(Math.ceil(1.25 * nodes));
      this.#size = new Float32Array(this.#sum.length);
    }
    this.#sum.fill(0, 0, nodes);
    this.#size.fill(0, 0, nodes);
    return { sum: this.#sum, size: this.#size };
  }
}

/**
 * Larger principal line tension of the capsule as a colour of each node: the mean of the triangles round it, by their size in
 * the unloaded disc. Nodes of lifted or folded tissue alone are left out, so that the map fades where the sheet rises.
 *
 * @param order the sheet's triangles as they were sorted last
 * @param full_mN_per_mm tension of the last colour
 * @param out receives red, green, blue and cover of each node, 0 to 255
 * @param room scratch; what it holds afterwards means nothing
 */
export function fillTension(
  view: WorldView,
  order: SheetOrder,
  full_mN_per_mm: number,
  out: Uint8Array,
  room = new TensionRoom(),
): void {
  const { triangle, reference_mm: r, tension_mN_per_mm: tension } = view;
  const nodes = r.length / 2;
  const { sum, size } = room.cleared(nodes);
  for (let t = 0; t < tension.length; t++) {
    const a = 2 * triangle[3 * t]!;
    const b = 2 * triangle[3 * t + 1]!;
    const c = 2 * triangle[3 * t + 2]!;
    const area = Math.abs((r[b]! - r[a]!) * (r[c + 1]! - r[a + 1]!) - (r[b + 1]! - r[a + 1]!) * (r[c]! - r[a]!));
    for (let k = 0; k < 3; k++) {
      const node = triangle[3 * t + k]!;
      sum[node]! += area * tension[t]!;
      size[node]! += area;
    }
  }
  out.fill(0);
  // what the iris hides lies flat too, and reaches in with a side
  for (const [from, to] of [
    [0, order.lowCount],
    [order.seenCount, order.sorted.length / 3],
  ] as const) {
    for (let k = 3 * from; k < 3 * to; k++) {
      const node = order.sorted[k]!;
      // painted already, as the corner of another triangle
      if (out[4 * node + 3] !== 0) continue;
      const share = size[node]! > 0 ? Math.min(1, sum[node]! / size[node]! / full_mN_per_mm) : 0;
      const colour = tensionColour(share);
      for (let part = 0; part < 3; part++) out[4 * node + part] = 255 * colour[part]!;
      out[4 * node + 3] = 255 * (SLACK_COVER + (TAUT_COVER - SLACK_COVER) * share);
    }
  }
}

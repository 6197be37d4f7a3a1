/**
 * Elimination order by nested dissection: the nodes are halved along their longer side, the border between the
 * halves is eliminated last, and each half is treated the same way. For a planar mesh this keeps the factor small
 * (George 1973).
 */
import type { BlockMatrix } from './block-matrix.ts';

/** Parts this small are eliminated in the order they come. Affects speed only. */
const LEAF_NODES = 8;

/** @returns order[k] = node eliminated as k-th */
export function dissectionOrder(matrix: BlockMatrix, place_mm: Float64Array, stride: number): Int32Array {
  const { nodeCount, rowStart, column } = matrix;
  const order = new Int32Array(nodeCount);
  const side = new Int8Array(nodeCount);
  let next = nodeCount;

  const dissect = (nodes: Int32Array): void => {
    if (nodes.length <= LEAF_NODES) {
      for (let k = nodes.length - 1; k >= 0; k--) order[--next] = nodes[k];
      return;
    }
    const axis = longerAxis(nodes, place_mm, stride);
    nodes.sort((p, q) => place_mm[p * stride + axis] - place_mm[q * stride + axis] || p - q);
    const half = nodes.length >> 1;
    for (let k = 0; k < nodes.length; k++) side[nodes[k]] = k < half ? 1 : 2;
    const border: number[] = [];
    const left: number[] = [];
    for (let k = 0; k < half; k++) {
      const node = nodes[k];
      let touches = false;
      for (let e = rowStart[node]; e < rowStart[node + 1] && !touches; e++) touches = side[column[e]] === 2;
      (touches ? border : left).push(node);
    }
    const right = nodes.slice(half);
    for (let k = 0; k < nodes.length; k++) side[nodes[k]] = 0;
    for (let k = border.length - 1; k >= 0; k--) order[--next] = border[k];
    dissect(right);
    dissect(Int32Array.from(left));
  };
  dissect(Int32Array.from({ length: nodeCount }, (_, k) => k));
  return order;
}

function longerAxis(nodes: Int32Array, place_mm: Float64Array, stride: number): 0 | 1 {
  let x0 = Infinity;
  let x1 = -Infinity;
  let y0 = Infinity;
  let y1 = -Infinity;
  for (const node of nodes) {
    const x = place_mm[node * stride];
    const y = place_mm[node * stride + 1];
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  return x1 - x0 >= y1 - y0 ? 0 : 1;
}

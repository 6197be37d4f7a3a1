/** Symmetric sparse matrix of 3x3 blocks over the nodes, all rows stored, and its product with a vector. */

/** Entries of one 3x3 block, row by row. */
export const BLOCK = 9;

export interface BlockMatrix {
  readonly nodeCount: number;
  /** Length nodeCount + 1: where each row's blocks begin. */
  readonly rowStart: Int32Array;
  /** Column (node) of each block, ascending within a row. */
  readonly column: Int32Array;
  /** Position of each row's diagonal block. */
  readonly diagonal: Int32Array;
  /** 9 per block. */
  readonly values: Float64Array;
  /** Whether the newest values are in an engine's memory and `values` are older. */
  elsewhere: boolean;
}

/**
 * Pattern from groups of nodes that act on each other (triangles, hinges): every pair in a group gets a block.
 * @param groups node indices, `stride` per group
 */
export function blockMatrixFromGroups(
  nodeCount: number,
  groups: readonly { nodes: Int32Array; stride: number }[],
): BlockMatrix {
  const { start, list } = pairsByNode(nodeCount, groups);
  const rowStart = new Int32Array(nodeCount + 1);
  const diagonal = new Int32Array(nodeCount);
  let top = 0;
  for (let node = 0; node < nodeCount; node++) {
    const end = start[node + 1];
    sortRange(list, start[node], end);
    // equal neighbours are adjacent now; the row is packed to the front of the list
    let last = -1;
    for (let k = start[node]; k < end; k++) {
      const column = list[k];
      if (column === last) continue;
      if (column === node) diagonal[node] = top;
      list[top++] = column;
      last = column;
    }
    rowStart[node + 1] = top;
  }
  const column = list.slice(0, top);
  return { nodeCount, rowStart, column, diagonal, values: new Float64Array(top * BLOCK), elsewhere: false };
}

/** For each node itself and every node that shares a group with it, as often as it does. */
function pairsByNode(nodeCount: number, groups: readonly { nodes: Int32Array; stride: number }[]) {
  const start = new Int32Array(nodeCount + 1);
  for (let node = 0; node < nodeCount; node++) start[node + 1] = 1;
  for (const { nodes, stride } of groups) for (const node of nodes) start[node + 1] += stride - 1;
  for (let node = 0; node < nodeCount; node++) start[node + 1] += start[node];
  const list = new Int32Array(start[nodeCount]);
  const filled = start.slice(0, nodeCount);
  for (let node = 0; node < nodeCount; node++) list[filled[node]++] = node;
  for (const { nodes, stride } of groups)
    for (let g = 0; g < nodes.length; g += stride)
      for (let a = 0; a < stride; a++)
        for (let b = 0; b < stride; b++) if (a !== b) list[filled[nodes[g + a]]++] = nodes[g + b];
  return { start, list };
}

/** Sorts list[from..end) ascending in place; rows are short, so by insertion. */
export function sortRange(list: Int32Array, from: number, end: number): void {
  for (let k = from + 1; k < end; k++) {
    const value = list[k];
    let at = k;
    while (at > from && list[at - 1] > value) {
      list[at] = list[at - 1];
      at--;
    }
    list[at] = value;
  }
}

/** Position of block (row, column); -1 when it is not in the pattern. */
export function findBlock(matrix: BlockMatrix, row: number, column: number): number {
  let low = matrix.rowStart[row];
  let high = matrix.rowStart[row + 1] - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = matrix.column[middle];
    if (found === column) return middle;
    if (found < column) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}

/** out = matrix * x, vectors of 3 per node. */
export function multiply(matrix: BlockMatrix, x: Float64Array, out: Float64Array): void {
  const { rowStart, column, values, nodeCount } = matrix;
  for (let row = 0; row < nodeCount; row++) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    const end = rowStart[row + 1];
    for (let k = rowStart[row]; k < end; k++) {
      const c = column[k] * 3;
      const v = k * BLOCK;
      const x0 = x[c];
      const x1 = x[c + 1];
      const x2 = x[c + 2];
      s0 += values[v] * x0 + values[v + 1] * x1 + values[v + 2] * x2;
      s1 += values[v + 3] * x0 + values[v + 4] * x1 + values[v + 5] * x2;
      s2 += values[v + 6] * x0 + values[v + 7] * x1 + values[v + 8] * x2;
    }
    out[row * 3] = s0;
    out[row * 3 + 1] = s1;
    out[row * 3 + 2] = s2;
  }
}

/**
 * Sparse Cholesky factor of a BlockMatrix, column by column of 3x3 blocks (left-looking; George & Liu 1981).
 * The symbolic part depends on the pattern only and is kept while the mesh stands.
 */
import { BLOCK, type BlockMatrix, sortRange } from './block-matrix.ts';

export interface BlockCholesky {
  readonly matrix: BlockMatrix;
  readonly order: Int32Array;
  readonly rank: Int32Array;
  /** Where each column's blocks below the diagonal begin. */
  readonly columnStart: Int32Array;
  /** Row (in elimination order) of each block, ascending within a column. */
  readonly row: Int32Array;
  /** 9 per block below the diagonal. */
  readonly lower: Float32Array;
  /** 9 per column: lower triangle of the factored diagonal block; its diagonal holds reciprocals. */
  readonly pivot: Float64Array;
  /** Counts the factorisations, so that a copy of the values can be told from an older one. */
  version: number;
  /** Scratch owned by the factor. */
  readonly firstInRow: Int32Array;
  readonly nextInRow: Int32Array;
  readonly cursor: Int32Array;
  readonly slot: Int32Array;
  readonly permuted: Float64Array;
}

export function analyse(matrix: BlockMatrix, order: Int32Array): BlockCholesky {
  const n = matrix.nodeCount;
  const rank = new Int32Array(n);
  for (let k = 0; k < n; k++) rank[order[k]] = k;
  const { columnStart, row } = pattern(matrix, order, rank);
  return {
    matrix,
    order,
    rank,
    columnStart,
    row,
    lower: new Float32Array(row.length * BLOCK),
    pivot: new Float64Array(n * BLOCK),
    version: 0,
    firstInRow: new Int32Array(n),
    nextInRow: new Int32Array(n),
    cursor: new Int32Array(n),
    slot: new Int32Array(n),
    permuted: new Float64Array(n * 3),
  };
}

/** Rows below the diagonal of each column: those of the matrix, joined with those of the columns whose first row it is. */
function pattern(matrix: BlockMatrix, order: Int32Array, rank: Int32Array) {
  const n = matrix.nodeCount;
  const firstChild = new Int32Array(n).fill(-1);
  const nextChild = new Int32Array(n).fill(-1);
  const mark = new Int32Array(n).fill(-1);
  const columnStart = new Int32Array(n + 1);
  let row = new Int32Array(matrix.column.length * 2);
  let top = 0;
  for (let j = 0; j < n; j++) {
    if (top + n > row.length) row = grown(row, top + n);
    const begin = top;
    const take = (i: number): void => {
      if (i <= j || mark[i] === j) return;
      mark[i] = j;
      row[top++] = i;
    };
    const node = order[j];
    for (let e = matrix.rowStart[node]; e < matrix.rowStart[node + 1]; e++) take(rank[matrix.column[e]]);
    for (let child = firstChild[j]; child !== -1; child = nextChild[child])
      for (let k = columnStart[child]; k < columnStart[child + 1]; k++) take(row[k]);
    if (top - begin > 24) row.subarray(begin, top).sort();
    else sortRange(row, begin, top);
    columnStart[j + 1] = top;
    if (top > begin) {
      const parent = row[begin];
      nextChild[j] = firstChild[parent];
      firstChild[parent] = j;
    }
  }
  return { columnStart, row: row.slice(0, top) };
}

function grown(list: Int32Array<ArrayBuffer>, least: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(2 * list.length, least));
  larger.set(list);
  return larger;
}

/** A second factor of the same pattern: symbolic part shared, values of its own. */
export function twinFactor(factor: BlockCholesky): BlockCholesky {
  return {
    ...factor,
    lower: new Float32Array(factor.lower.length),
    pivot: new Float64Array(factor.pivot.length),
    version: 0,
  };
}

/**
 * Factors the matrix's present values. A pivot that is not positive is lifted to `floor` (the factor then belongs to a
 * slightly stiffer matrix, which is all a preconditioner needs). @returns number of lifted pivots
 */
export function factorise(factor: BlockCholesky, floor: number): number {
  const { matrix, order, rank, columnStart, row, lower, pivot, firstInRow, nextInRow, cursor, slot } = factor;
  const { rowStart, column, values } = matrix;
  const n = matrix.nodeCount;
  let lifted = 0;
  factor.version++;
  firstInRow.fill(-1);
  for (let j = 0; j < n; j++) {
    const begin = columnStart[j];
    const end = columnStart[j + 1];
    for (let k = begin; k < end; k++) slot[row[k]] = k * BLOCK;
    lower.fill(0, begin * BLOCK, end * BLOCK);
    const d = j * BLOCK;
    const node = order[j];
    for (let e = rowStart[node]; e < rowStart[node + 1]; e++) {
      const i = rank[column[e]];
      if (i < j) continue;
      const v = e * BLOCK;
      if (i === j) for (let q = 0; q < BLOCK; q++) pivot[d + q] = values[v + q];
      else {
        // block (i, j) is the transpose of the stored block (j, i)
        const s = slot[i];
        lower[s] = values[v];
        lower[s + 1] = values[v + 3];
        lower[s + 2] = values[v + 6];
        lower[s + 3] = values[v + 1];
        lower[s + 4] = values[v + 4];
        lower[s + 5] = values[v + 7];
        lower[s + 6] = values[v + 2];
        lower[s + 7] = values[v + 5];
        lower[s + 8] = values[v + 8];
      }
    }
    for (let k = firstInRow[j]; k !== -1; ) {
      const following = nextInRow[k];
      subtractColumn(factor, k, d);
      const c = ++cursor[k];
      if (c < columnStart[k + 1]) {
        const r = row[c];
        nextInRow[k] = firstInRow[r];
        firstInRow[r] = k;
      }
      k = following;
    }
    lifted += factorPivot(pivot, d, floor);
    scaleColumn(lower, pivot, d, begin, end);
    cursor[j] = begin;
    if (begin < end) {
      const r = row[begin];
      nextInRow[j] = firstInRow[r];
      firstInRow[r] = j;
    }
  }
  return lifted;
}

/** column j -= L(:,k) L(j,k)^T, from row j on; cursor[k] points at L(j,k), d at j's pivot. */
function subtractColumn(factor: BlockCholesky, k: number, d: number): void {
  const { columnStart, row, lower, pivot, cursor, slot } = factor;
  const first = cursor[k];
  const end = columnStart[k + 1];
  const f = first * BLOCK;
  const a0 = lower[f];
  const a1 = lower[f + 1];
  const a2 = lower[f + 2];
  const b0 = lower[f + 3];
  const b1 = lower[f + 4];
  const b2 = lower[f + 5];
  const c0 = lower[f + 6];
  const c1 = lower[f + 7];
  const c2 = lower[f + 8];
  pivot[d] -= a0 * a0 + a1 * a1 + a2 * a2;
  pivot[d + 3] -= b0 * a0 + b1 * a1 + b2 * a2;
  pivot[d + 4] -= b0 * b0 + b1 * b1 + b2 * b2;
  pivot[d + 6] -= c0 * a0 + c1 * a1 + c2 * a2;
  pivot[d + 7] -= c0 * b0 + c1 * b1 + c2 * b2;
  pivot[d + 8] -= c0 * c0 + c1 * c1 + c2 * c2;
  for (let e = first + 1; e < end; e++) {
    const s = slot[row[e]];
    const p = e * BLOCK;
    const x0 = lower[p];
    const x1 = lower[p + 1];
    const x2 = lower[p + 2];
    const y0 = lower[p + 3];
    const y1 = lower[p + 4];
    const y2 = lower[p + 5];
    const z0 = lower[p + 6];
    const z1 = lower[p + 7];
    const z2 = lower[p + 8];
    lower[s] -= x0 * a0 + x1 * a1 + x2 * a2;
    lower[s + 1] -= x0 * b0 + x1 * b1 + x2 * b2;
    lower[s + 2] -= x0 * c0 + x1 * c1 + x2 * c2;
    lower[s + 3] -= y0 * a0 + y1 * a1 + y2 * a2;
    lower[s + 4] -= y0 * b0 + y1 * b1 + y2 * b2;
    lower[s + 5] -= y0 * c0 + y1 * c1 + y2 * c2;
    lower[s + 6] -= z0 * a0 + z1 * a1 + z2 * a2;
    lower[s + 7] -= z0 * b0 + z1 * b1 + z2 * b2;
    lower[s + 8] -= z0 * c0 + z1 * c1 + z2 * c2;
  }
}

function factorPivot(pivot: Float64Array, d: number, floor: number): number {
  let lifted = 0;
  const positive = (value: number): number => {
    if (value > floor) return value;
    lifted++;
    return floor;
  };
  const l00 = Math.sqrt(positive(pivot[d]));
  const l10 = pivot[d + 3] / l00;
  const l20 = pivot[d + 6] / l00;
  const l11 = Math.sqrt(positive(pivot[d + 4] - l10 * l10));
  const l21 = (pivot[d + 7] - l20 * l10) / l11;
  const l22 = Math.sqrt(positive(pivot[d + 8] - l20 * l20 - l21 * l21));
  pivot[d] = 1 / l00;
  pivot[d + 3] = l10;
  pivot[d + 4] = 1 / l11;
  pivot[d + 6] = l20;
  pivot[d + 7] = l21;
  pivot[d + 8] = 1 / l22;
  return lifted;
}

/** L(:,j) = column L(j,j)^-T, row by row of each block. */
function scaleColumn(lower: Float32Array, pivot: Float64Array, d: number, begin: number, end: number): void {
  const r00 = pivot[d];
  const l10 = pivot[d + 3];
  const r11 = pivot[d + 4];
  const l20 = pivot[d + 6];
  const l21 = pivot[d + 7];
  const r22 = pivot[d + 8];
  for (let p = begin * BLOCK; p < end * BLOCK; p += 3) {
    const x = lower[p] * r00;
    const y = (lower[p + 1] - x * l10) * r11;
    lower[p] = x;
    lower[p + 1] = y;
    lower[p + 2] = (lower[p + 2] - x * l20 - y * l21) * r22;
  }
}

/** out = (L L^T)^-1 b, vectors of 3 per node; b and out may be the same. */
export function solveFactored(factor: BlockCholesky, b: Float64Array, out: Float64Array): void {
  const { order, columnStart, row, lower, pivot, permuted: y } = factor;
  const n = order.length;
  for (let j = 0; j < n; j++) {
    const s = order[j] * 3;
    y[j * 3] = b[s];
    y[j * 3 + 1] = b[s + 1];
    y[j * 3 + 2] = b[s + 2];
  }
  for (let j = 0; j < n; j++) {
    const d = j * BLOCK;
    const y0 = y[j * 3] * pivot[d];
    const y1 = (y[j * 3 + 1] - pivot[d + 3] * y0) * pivot[d + 4];
    const y2 = (y[j * 3 + 2] - pivot[d + 6] * y0 - pivot[d + 7] * y1) * pivot[d + 8];
    y[j * 3] = y0;
    y[j * 3 + 1] = y1;
    y[j * 3 + 2] = y2;
    for (let e = columnStart[j]; e < columnStart[j + 1]; e++) {
      const p = e * BLOCK;
      const r = row[e] * 3;
      y[r] -= lower[p] * y0 + lower[p + 1] * y1 + lower[p + 2] * y2;
      y[r + 1] -= lower[p + 3] * y0 + lower[p + 4] * y1 + lower[p + 5] * y2;
      y[r + 2] -= lower[p + 6] * y0 + lower[p + 7] * y1 + lower[p + 8] * y2;
    }
  }
  for (let j = n - 1; j >= 0; j--) {
    let y0 = y[j * 3];
    let y1 = y[j * 3 + 1];
    let y2 = y[j * 3 + 2];
    for (let e = columnStart[j]; e < columnStart[j + 1]; e++) {
      const p = e * BLOCK;
      const r = row[e] * 3;
      const z0 = y[r];
      const z1 = y[r + 1];
      const z2 = y[r + 2];
      y0 -= lower[p] * z0 + lower[p + 3] * z1 + lower[p + 6] * z2;
      y1 -= lower[p + 1] * z0 + lower[p + 4] * z1 + lower[p + 7] * z2;
      y2 -= lower[p + 2] * z0 + lower[p + 5] * z1 + lower[p + 8] * z2;
    }
    const d = j * BLOCK;
    y2 *= pivot[d + 8];
    y1 = (y1 - pivot[d + 7] * y2) * pivot[d + 4];
    y0 = (y0 - pivot[d + 3] * y1 - pivot[d + 6] * y2) * pivot[d];
    y[j * 3] = y0;
    y[j * 3 + 1] = y1;
    y[j * 3 + 2] = y2;
    const s = order[j] * 3;
    out[s] = y0;
    out[s + 1] = y1;
    out[s + 2] = y2;
  }
}

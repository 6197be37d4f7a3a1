/*
 * AssemblyScript, not TypeScript: the sparse product, factor and conjugate gradients of block-matrix.ts, block-cholesky.ts and
 * conjugate-gradients.ts on linear memory. Operation by operation in the same order, so that both give the same bits. Pointers
 * are byte offsets; layouts are those of the typed arrays there. `node bin/build-kernel.js` compiles it into kernel-bytes.ts.
 */

const D: usize = 8; // bytes of a double
const F: usize = 4; // bytes of a float and of an index

/*
 * Two of the three rows of a block go side by side in the lanes of a vector, and the third by itself; each lane adds the same
 * products in the same order as the plain path.
 */

/** out = matrix * x */
export function multiply(n: i32, rowStart: usize, column: usize, values: usize, x: usize, out: usize): void {
  let k: usize = load<i32>(rowStart);
  let v: usize = values + k * 72;
  for (let row: i32 = 0; row < n; row++) {
    let s01 = f64x2.splat(0);
    let s2: f64 = 0;
    const end: usize = load<i32>(rowStart + (<usize>row + 1) * F);
    for (; k < end; k++) {
      const c: usize = x + <usize>load<i32>(column + k * F) * 24;
      const x0 = load<f64>(c);
      const x1 = load<f64>(c, 8);
      const x2 = load<f64>(c, 16);
      const v01 = v128.load(v);
      const v23 = v128.load(v, 16);
      const v45 = v128.load(v, 32);
      const first = f64x2.mul(v128.shuffle<f64>(v01, v23, 0, 3), f64x2.splat(x0));
      const second = f64x2.mul(v128.shuffle<f64>(v01, v45, 1, 2), f64x2.splat(x1));
      const third = f64x2.mul(v128.shuffle<f64>(v23, v45, 0, 3), f64x2.splat(x2));
      s01 = f64x2.add(s01, f64x2.add(f64x2.add(first, second), third));
      s2 += load<f64>(v, 48) * x0 + load<f64>(v, 56) * x1 + load<f64>(v, 64) * x2;
      v += 72;
    }
    const o: usize = out + <usize>row * 24;
    v128.store(o, s01);
    store<f64>(o, s2, 16);
  }
}

/** out = (L L^T)^-1 b */
export function solveFactored(
  n: i32,
  order: usize,
  columnStart: usize,
  row: usize,
  lower: usize,
  pivot: usize,
  y: usize,
  b: usize,
  out: usize,
): void {
  for (let j: i32 = 0; j < n; j++) {
    const s: usize = b + <usize>load<i32>(order + <usize>j * F) * 24;
    const t: usize = y + <usize>j * 24;
    store<f64>(t, load<f64>(s));
    store<f64>(t, load<f64>(s, 8), 8);
    store<f64>(t, load<f64>(s, 16), 16);
  }
  let e: usize = load<i32>(columnStart);
  let p: usize = lower + e * 36;
  for (let j: i32 = 0; j < n; j++) {
    const d: usize = pivot + <usize>j * 72;
    const t: usize = y + <usize>j * 24;
    const y0 = load<f64>(t) * load<f64>(d);
    const y1 = (load<f64>(t, 8) - load<f64>(d, 24) * y0) * load<f64>(d, 32);
    const y2 = (load<f64>(t, 16) - load<f64>(d, 48) * y0 - load<f64>(d, 56) * y1) * load<f64>(d, 64);
    store<f64>(t, y0);
    store<f64>(t, y1, 8);
    store<f64>(t, y2, 16);
    const end: usize = load<i32>(columnStart + (<usize>j + 1) * F);
    for (; e < end; e++) {
      const r: usize = y + <usize>load<i32>(row + e * F) * 24;
      const p03 = v128.load(p);
      const p47 = v128.load(p, 16);
      const first = f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<f32>(p03, p03, 0, 3, 0, 0)), f64x2.splat(y0));
      const second = f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<f32>(p03, p47, 1, 4, 0, 0)), f64x2.splat(y1));
      const third = f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<f32>(p03, p47, 2, 5, 0, 0)), f64x2.splat(y2));
      v128.store(r, f64x2.sub(v128.load(r), f64x2.add(f64x2.add(first, second), third)));
      store<f64>(
        r,
        load<f64>(r, 16) - (<f64>load<f32>(p, 24) * y0 + <f64>load<f32>(p, 28) * y1 + <f64>load<f32>(p, 32) * y2),
        16,
      );
      p += 36;
    }
  }
  for (let j: i32 = n - 1; j >= 0; j--) {
    const t: usize = y + <usize>j * 24;
    let y01 = v128.load(t);
    let y2 = load<f64>(t, 16);
    const begin: usize = load<i32>(columnStart + <usize>j * F);
    const end: usize = load<i32>(columnStart + (<usize>j + 1) * F);
    let p: usize = lower + begin * 36;
    for (let e: usize = begin; e < end; e++) {
      const r: usize = y + <usize>load<i32>(row + e * F) * 24;
      const z0 = load<f64>(r);
      const z1 = load<f64>(r, 8);
      const z2 = load<f64>(r, 16);
      const p03 = v128.load(p);
      const p47 = v128.load(p, 16);
      const first = f64x2.mul(f64x2.promote_low_f32x4(p03), f64x2.splat(z0));
      const second = f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<f32>(p03, p47, 3, 4, 0, 0)), f64x2.splat(z1));
      const third = f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<f32>(p47, p47, 2, 3, 0, 0)), f64x2.splat(z2));
      y01 = f64x2.sub(y01, f64x2.add(f64x2.add(first, second), third));
      y2 -= <f64>load<f32>(p, 8) * z0 + <f64>load<f32>(p, 20) * z1 + <f64>load<f32>(p, 32) * z2;
      p += 36;
    }
    let y0 = f64x2.extract_lane(y01, 0);
    let y1 = f64x2.extract_lane(y01, 1);
    const d: usize = pivot + <usize>j * 72;
    y2 *= load<f64>(d, 64);
    y1 = (y1 - load<f64>(d, 56) * y2) * load<f64>(d, 32);
    y0 = (y0 - load<f64>(d, 24) * y1 - load<f64>(d, 48) * y2) * load<f64>(d);
    store<f64>(t, y0);
    store<f64>(t, y1, 8);
    store<f64>(t, y2, 16);
    const s: usize = out + <usize>load<i32>(order + <usize>j * F) * 24;
    store<f64>(s, y0);
    store<f64>(s, y1, 8);
    store<f64>(s, y2, 16);
  }
}

/** Factors the matrix; as factorise() in block-cholesky.ts. @returns number of lifted pivots */
export function factorise(
  n: i32,
  rowStart: usize,
  column: usize,
  values: usize,
  order: usize,
  rank: usize,
  columnStart: usize,
  row: usize,
  lower: usize,
  pivot: usize,
  firstInRow: usize,
  nextInRow: usize,
  cursor: usize,
  slot: usize,
  floor: f64,
): i32 {
  let lifted: i32 = 0;
  for (let j: i32 = 0; j < n; j++) store<i32>(firstInRow + <usize>j * F, -1);
  for (let j: i32 = 0; j < n; j++) {
    const begin: i32 = load<i32>(columnStart + <usize>j * F);
    const end: i32 = load<i32>(columnStart + (<usize>j + 1) * F);
    for (let k: i32 = begin; k < end; k++) store<i32>(slot + <usize>load<i32>(row + <usize>k * F) * F, k * 36);
    memory.fill(lower + <usize>begin * 36, 0, <usize>(end - begin) * 36);
    const d: usize = pivot + <usize>j * 72;
    const node: usize = load<i32>(order + <usize>j * F);
    const last: i32 = load<i32>(rowStart + (node + 1) * F);
    for (let e: i32 = load<i32>(rowStart + node * F); e < last; e++) {
      const i: i32 = load<i32>(rank + <usize>load<i32>(column + <usize>e * F) * F);
      if (i < j) continue;
      const v: usize = values + <usize>e * 72;
      if (i === j) memory.copy(d, v, 72);
      else {
        // block (i, j) is the transpose of the stored block (j, i)
        const s: usize = lower + <usize>load<i32>(slot + <usize>i * F);
        store<f32>(s, <f32>load<f64>(v));
        store<f32>(s, <f32>load<f64>(v, 24), 4);
        store<f32>(s, <f32>load<f64>(v, 48), 8);
        store<f32>(s, <f32>load<f64>(v, 8), 12);
        store<f32>(s, <f32>load<f64>(v, 32), 16);
        store<f32>(s, <f32>load<f64>(v, 56), 20);
        store<f32>(s, <f32>load<f64>(v, 16), 24);
        store<f32>(s, <f32>load<f64>(v, 40), 28);
        store<f32>(s, <f32>load<f64>(v, 64), 32);
      }
    }
    let k: i32 = load<i32>(firstInRow + <usize>j * F);
    while (k !== -1) {
      const following: i32 = load<i32>(nextInRow + <usize>k * F);
      const c: i32 = load<i32>(cursor + <usize>k * F);
      const stop: i32 = load<i32>(columnStart + (<usize>k + 1) * F);
      subtractColumn(lower, row, slot, c, stop, d);
      store<i32>(cursor + <usize>k * F, c + 1);
      if (c + 1 < stop) {
        const r: usize = load<i32>(row + (<usize>c + 1) * F);
        store<i32>(nextInRow + <usize>k * F, load<i32>(firstInRow + r * F));
        store<i32>(firstInRow + r * F, k);
      }
      k = following;
    }
    lifted += factorPivot(d, floor);
    scaleColumn(lower, d, begin, end);
    store<i32>(cursor + <usize>j * F, begin);
    if (begin < end) {
      const r: usize = load<i32>(row + <usize>begin * F);
      store<i32>(nextInRow + <usize>j * F, load<i32>(firstInRow + r * F));
      store<i32>(firstInRow + r * F, j);
    }
  }
  return lifted;
}

/** Takes from two floats side by side, in the lanes of a vector, what the plain path takes from each. */
function takeTwo(p: usize, amount: v128): void {
  const now = f64x2.promote_low_f32x4(v128.load64_zero(p));
  v128.store64_lane(p, f32x4.demote_f64x2_zero(f64x2.sub(now, amount)), 0);
}

function subtractColumn(lower: usize, row: usize, slot: usize, first: i32, end: i32, d: usize): void {
  let p: usize = lower + <usize>first * 36;
  const a0: f64 = load<f32>(p);
  const a1: f64 = load<f32>(p, 4);
  const a2: f64 = load<f32>(p, 8);
  const b0: f64 = load<f32>(p, 12);
  const b1: f64 = load<f32>(p, 16);
  const b2: f64 = load<f32>(p, 20);
  const c0: f64 = load<f32>(p, 24);
  const c1: f64 = load<f32>(p, 28);
  const c2: f64 = load<f32>(p, 32);
  store<f64>(d, load<f64>(d) - (a0 * a0 + a1 * a1 + a2 * a2));
  store<f64>(d, load<f64>(d, 24) - (b0 * a0 + b1 * a1 + b2 * a2), 24);
  store<f64>(d, load<f64>(d, 32) - (b0 * b0 + b1 * b1 + b2 * b2), 32);
  store<f64>(d, load<f64>(d, 48) - (c0 * a0 + c1 * a1 + c2 * a2), 48);
  store<f64>(d, load<f64>(d, 56) - (c0 * b0 + c1 * b1 + c2 * b2), 56);
  store<f64>(d, load<f64>(d, 64) - (c0 * c0 + c1 * c1 + c2 * c2), 64);
  const ab0 = f64x2(a0, b0);
  const ab1 = f64x2(a1, b1);
  const ab2 = f64x2(a2, b2);
  let at: usize = row + <usize>(first + 1) * F;
  const stop: usize = row + <usize>end * F;
  for (; at < stop; at += F) {
    p += 36;
    const s: usize = lower + <usize>load<i32>(slot + <usize>load<i32>(at) * F);
    takeRow(s, p, ab0, ab1, ab2, c0, c1, c2);
    takeRow(s + 12, p + 12, ab0, ab1, ab2, c0, c1, c2);
    takeRow(s + 24, p + 24, ab0, ab1, ab2, c0, c1, c2);
  }
}

function takeRow(s: usize, p: usize, ab0: v128, ab1: v128, ab2: v128, c0: f64, c1: f64, c2: f64): void {
  const x0 = f64x2.promote_low_f32x4(v128.load32_splat(p));
  const x1 = f64x2.promote_low_f32x4(v128.load32_splat(p, 4));
  const x2 = f64x2.promote_low_f32x4(v128.load32_splat(p, 8));
  takeTwo(s, f64x2.add(f64x2.add(f64x2.mul(x0, ab0), f64x2.mul(x1, ab1)), f64x2.mul(x2, ab2)));
  const third = f64x2.extract_lane(x0, 0) * c0 + f64x2.extract_lane(x1, 0) * c1 + f64x2.extract_lane(x2, 0) * c2;
  store<f32>(s, <f32>(<f64>load<f32>(s, 8) - third), 8);
}

function factorPivot(d: usize, floor: f64): i32 {
  let lifted: i32 = 0;
  let v = load<f64>(d);
  if (!(v > floor)) {
    lifted++;
    v = floor;
  }
  const l00 = sqrt<f64>(v);
  const l10 = load<f64>(d, 24) / l00;
  const l20 = load<f64>(d, 48) / l00;
  v = load<f64>(d, 32) - l10 * l10;
  if (!(v > floor)) {
    lifted++;
    v = floor;
  }
  const l11 = sqrt<f64>(v);
  const l21 = (load<f64>(d, 56) - l20 * l10) / l11;
  v = load<f64>(d, 64) - l20 * l20 - l21 * l21;
  if (!(v > floor)) {
    lifted++;
    v = floor;
  }
  const l22 = sqrt<f64>(v);
  store<f64>(d, 1.0 / l00);
  store<f64>(d, l10, 24);
  store<f64>(d, 1.0 / l11, 32);
  store<f64>(d, l20, 48);
  store<f64>(d, l21, 56);
  store<f64>(d, 1.0 / l22, 64);
  return lifted;
}

function scaleColumn(lower: usize, d: usize, begin: i32, end: i32): void {
  const r00 = load<f64>(d);
  const l10 = load<f64>(d, 24);
  const r11 = load<f64>(d, 32);
  const l20 = load<f64>(d, 48);
  const l21 = load<f64>(d, 56);
  const r22 = load<f64>(d, 64);
  const stop: usize = lower + <usize>end * 36;
  for (let p: usize = lower + <usize>begin * 36; p < stop; p += 12) {
    const x = <f64>load<f32>(p) * r00;
    const y = (<f64>load<f32>(p, 4) - x * l10) * r11;
    store<f32>(p, <f32>x);
    store<f32>(p, <f32>y, 4);
    store<f32>(p, <f32>((<f64>load<f32>(p, 8) - x * l20 - y * l21) * r22), 8);
  }
}

function largest(v: usize, n: usize): f64 {
  let most: f64 = 0;
  const end = v + n * D;
  for (; v < end; v += D) {
    const size = abs<f64>(load<f64>(v));
    if (size > most) most = size;
    else if (!(size <= most)) return size;
  }
  return most;
}

function dot(a: usize, b: usize, n: usize): f64 {
  let sum: f64 = 0;
  const end = a + n * D;
  for (; a < end; a += D, b += D) sum += load<f64>(a) * load<f64>(b);
  return sum;
}

/** Conjugate gradients for K direction = -force, as in solve.ts. @returns iterations; negative (-1 - iterations) when the goal was not reached */
export function conjugateGradients(
  n: i32,
  rowStart: usize,
  column: usize,
  values: usize,
  order: usize,
  columnStart: usize,
  row: usize,
  lower: usize,
  pivot: usize,
  permuted: usize,
  force: usize,
  direction: usize,
  residual: usize,
  preconditioned: usize,
  search: usize,
  product: usize,
  limit: i32,
  goal: f64,
): i32 {
  const m: usize = <usize>n * 3;
  for (let i: usize = 0; i < m * D; i += D) {
    store<f64>(direction + i, 0);
    store<f64>(residual + i, -load<f64>(force + i));
  }
  solveFactored(n, order, columnStart, row, lower, pivot, permuted, residual, preconditioned);
  memory.copy(search, preconditioned, m * D);
  let rz = dot(residual, preconditioned, m);
  let iteration: i32 = 0;
  while (iteration < limit && largest(residual, m) > goal) {
    multiply(n, rowStart, column, values, search, product);
    const curvature = dot(search, product, m);
    if (!(curvature > 0)) break;
    const alpha = rz / curvature;
    for (let i: usize = 0; i < m * D; i += D) {
      store<f64>(direction + i, load<f64>(direction + i) + alpha * load<f64>(search + i));
      store<f64>(residual + i, load<f64>(residual + i) - alpha * load<f64>(product + i));
    }
    solveFactored(n, order, columnStart, row, lower, pivot, permuted, residual, preconditioned);
    const next = dot(residual, preconditioned, m);
    const beta = next / rz;
    rz = next;
    for (let i: usize = 0; i < m * D; i += D)
      store<f64>(search + i, load<f64>(preconditioned + i) + beta * load<f64>(search + i));
    iteration++;
  }
  return largest(residual, m) <= goal ? iteration : -1 - iteration;
}

/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * Logarithms: fdlibm's e_log and the base-2 logarithm made of it for msun, operation by operation; see circular.ts.
 */
import { fromWords, headOf, highWord, lowWord } from './words.ts';

const LN2_HEAD = 0.6931471803691238;
const LN2_REST = 1.9082149292705877e-10;
const PER_LN2_HEAD = 1.4426950407214463;
const PER_LN2_REST = 1.6751713164886512e-10;
const TWO_54 = 18014398509481984;

const L1 = 0.6666666666666735;
const L2 = 0.3999999999940942;
const L3 = 0.2857142874366239;
const L4 = 0.22222198432149784;
const L5 = 0.1818357216161805;
const L6 = 0.15313837699209373;
const L7 = 0.14798198605116586;

/** (log(1 + f) - f + f^2 / 2) / s but for a term, s = f / (2 + f). */
function series(s: number): number {
  const z = s * s;
  const w = z * z;
  const even = w * (L2 + w * (L4 + w * L6));
  const odd = z * (L1 + w * (L3 + w * (L5 + w * L7)));
  return even + odd;
}

/** x = 2^k (1 + f), 1 + f between the roots of a half and of two. */
let k = 0;
let hx = 0;
function split(x: number): number {
  const subnormal = x < 2.2250738585072014e-308;
  const y = subnormal ? x * TWO_54 : x;
  const high = highWord(y);
  hx = high & 0xfffff;
  const i = (hx + 0x95f64) & 0x100000;
  k = (high >> 20) - 1023 + (i >> 20) - (subnormal ? 54 : 0);
  return fromWords(hx | (i ^ 0x3ff00000), lowWord(y)) - 1;
}

/** Where neither logarithm is a finite one of a positive number. */
function limit(x: number): number {
  if (x === 0) return Number.NEGATIVE_INFINITY;
  return x > 0 ? x : Number.NaN;
}

export function log(x: number): number {
  if (!(x > 0 && x < Number.POSITIVE_INFINITY)) return limit(x);
  const f = split(x);
  if ((0xfffff & (2 + hx)) < 3) {
    if (f === 0) return k === 0 ? 0 : k * LN2_HEAD + k * LN2_REST;
    const R = f * f * (0.5 - 0.3333333333333333 * f);
    return k === 0 ? f - R : k * LN2_HEAD - (R - k * LN2_REST - f);
  }
  const s = f / (2 + f);
  const R = series(s);
  if (((hx - 0x6147a) | (0x6b851 - hx)) > 0) {
    const square = 0.5 * f * f;
    if (k === 0) return f - (square - s * (square + R));
    return k * LN2_HEAD - (square - (s * (square + R) + k * LN2_REST) - f);
  }
  if (k === 0) return f - s * (f - R);
  return k * LN2_HEAD - (s * (f - R) - k * LN2_REST - f);
}

export function log2(x: number): number {
  if (!(x > 0 && x < Number.POSITIVE_INFINITY)) return limit(x);
  if (x === 1) return 0;
  const f = split(x);
  const square = 0.5 * f * f;
  const s = f / (2 + f);
  const r = s * (square + series(s));
  const high = headOf(f - square);
  const low = f - high - square + r;
  const head = high * PER_LN2_HEAD;
  const rest = (low + high) * PER_LN2_REST + low * PER_LN2_HEAD;
  const w = k + head;
  return rest + (k - w + head) + w;
}

/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * A power: fdlibm's e_pow, operation by operation; see circular.ts.
 */
import { correction } from './exponential.ts';
import { fromWords, headOf, highWord, lowWord, powerOfTwo, raised } from './words.ts';

/** log2(3/2), in two parts. */
const LOG2_MORE_HEAD = 0.5849624872207642;
const LOG2_MORE_REST = 1.350039202129749e-8;
const TWO_53 = 9007199254740992;

const L1 = 0.5999999999999946;
const L2 = 0.4285714285785502;
const L3 = 0.33333332981837743;
const L4 = 0.272728123808534;
const L5 = 0.23066074577556175;
const L6 = 0.20697501780033842;
const LN2_HEAD = 0.6931471824645996;
const LN2_REST = -1.904654299957768e-9;
/** -(1024 - log2(overflow + half a unit in the last place)). */
const OVERFLOW_REST = 8.008566259537294e-17;
/** 2 / (3 ln 2). */
const CP = 0.9617966939259756;
const CP_HEAD = 0.9617967009544373;
const CP_REST = -7.028461650952758e-9;
const PER_LN2_HEAD = 1.4426950216293335;
const PER_LN2_REST = 1.9259629911266175e-8;

/** log2 of the base in two parts. */
const logs = new Float64Array(2);

/** x to the power y, as the language has it: NaN for 1 to an infinite power. */
export function power(x: number, y: number): number {
  if (y === 0) return 1;
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  if (Math.abs(y) === Number.POSITIVE_INFINITY) return toInfinitePower(Math.abs(x), y);
  if (y === 1) return x;
  if (y === -1) return 1 / x;
  if (y === 2) return x * x;
  const odd = Math.abs(y) % 2 === 1;
  if (x === 0 || Math.abs(x) === Number.POSITIVE_INFINITY || x === 1 || x === -1) {
    return ofPlainBase(x, y, odd);
  }
  if (y === 0.5 && x > 0) return Math.sqrt(x);
  if (x < 0 && y % 1 !== 0) return Number.NaN;
  const value = ofPositive(Math.abs(x), y);
  return x < 0 && odd ? -value : value;
}

function toInfinitePower(size: number, y: number): number {
  if (size === 1) return Number.NaN;
  return size > 1 === y > 0 ? Number.POSITIVE_INFINITY : 0;
}

function ofPlainBase(x: number, y: number, odd: boolean): number {
  const size = y < 0 ? 1 / Math.abs(x) : Math.abs(x);
  if (x === -1 && y % 1 !== 0) return Number.NaN;
  return odd && (x < 0 || Object.is(x, -0)) ? -size : size;
}

function ofPositive(x: number, y: number): number {
  const iy = highWord(y) & 0x7fffffff;
  const ix = highWord(x);
  if (iy > 0x41e00000) {
    if (iy > 0x43f00000 || ix < 0x3fefffff || ix > 0x3ff00000) {
      if (ix <= 0x3fefffff) return y < 0 ? Number.POSITIVE_INFINITY : 0;
      if (ix >= 0x3ff00000) return y > 0 ? Number.POSITIVE_INFINITY : 0;
    }
    logBesideOne(x);
  } else logOf(x);
  const head = headOf(y);
  const low = (y - head) * logs[0] + y * logs[1];
  return twoTo(head * logs[0], low);
}

function logBesideOne(x: number): void {
  const t = x - 1;
  const w = t * t * (0.5 - t * (0.3333333333333333 - t * 0.25));
  const u = PER_LN2_HEAD * t;
  const v = t * PER_LN2_REST - w * Math.LOG2E;
  const head = headOf(u + v);
  logs[0] = head;
  logs[1] = v - (head - u);
}

function logOf(given: number): void {
  const subnormal = given < 2.2250738585072014e-308;
  const x = subnormal ? given * TWO_53 : given;
  const high = highWord(x);
  const j = high & 0xfffff;
  const more = j > 0x3988e && j < 0xbb67a;
  const next = j >= 0xbb67a;
  const n = (high >> 20) - 1023 - (subnormal ? 53 : 0) + (next ? 1 : 0);
  const ix = (j | 0x3ff00000) - (next ? 0x100000 : 0);
  const ax = fromWords(ix, lowWord(x));
  const base = more ? 1.5 : 1;
  const u = ax - base;
  const v = 1 / (ax + base);
  const ss = u * v;
  const sHead = headOf(ss);
  const sumHead = fromWords(((ix >> 1) | 0x20000000) + 0x80000 + (more ? 0x40000 : 0), 0);
  const sumRest = ax - (sumHead - base);
  const sRest = v * (u - sHead * sumHead - sHead * sumRest);
  const z = ss * ss;
  const r = z * z * (L1 + z * (L2 + z * (L3 + z * (L4 + z * (L5 + z * L6))))) + sRest * (sHead + ss);
  const square = sHead * sHead;
  const tHead = headOf(3 + square + r);
  const tRest = r - (tHead - 3 - square);
  const a = sHead * tHead;
  const b = sRest * tHead + tRest * ss;
  const pHead = headOf(a + b);
  const pRest = b - (pHead - a);
  const zHead = CP_HEAD * pHead;
  const zRest = CP_REST * pHead + pRest * CP + (more ? LOG2_MORE_REST : 0);
  const known = more ? LOG2_MORE_HEAD : 0;
  const head = headOf(zHead + zRest + known + n);
  logs[0] = head;
  logs[1] = zRest - (head - n - known - zHead);
}

/** 2 to the power high + low, low small. */
function twoTo(high: number, low: number): number {
  const sum = low + high;
  if (sum >= 1024 && (sum > 1024 || low + OVERFLOW_REST > sum - high)) return Number.POSITIVE_INFINITY;
  if (sum <= -1075 && (sum < -1075 || low <= sum - high)) return 0;
  const j = highWord(sum);
  let n = 0;
  let p = high;
  if ((j & 0x7fffffff) > 0x3fe00000) {
    const near = j + (0x100000 >> (((j & 0x7fffffff) >> 20) - 0x3fe));
    const places = ((near & 0x7fffffff) >> 20) - 0x3ff;
    n = ((near & 0xfffff) | 0x100000) >> (20 - places);
    if (j < 0) n = -n;
    p -= fromWords(near & ~(0xfffff >> places), 0);
  }
  const t = headOf(low + p);
  const u = t * LN2_HEAD;
  const v = (low - (t - p)) * Math.LN2 + t * LN2_REST;
  const z = u + v;
  const w = v - (z - u);
  const t1 = correction(z);
  const r = (z * t1) / (t1 - 2) - (w + z * w);
  const value = 1 - (r - z);
  if ((highWord(value) + (n << 20)) >> 20 <= 0) return raised(value, n + 1000) * powerOfTwo(-1000);
  return raised(value, n);
}

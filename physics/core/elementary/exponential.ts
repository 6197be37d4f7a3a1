/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * Exponential functions: fdlibm's e_exp and s_expm1, operation by operation; see circular.ts. The kernel has the same once more, in
 * exponential.as.ts, with the same bits.
 */
import { powerOfTwo } from './words.ts';

const OVERFLOW = 709.782712893384;
const UNDERFLOW = -745.1332191019411;
const LN2_HEAD = 0.6931471803691238;
const LN2_REST = 1.9082149292705877e-10;
/** The smallest numbers past half and past three halves of ln 2, by their high words. */
const HALF_LN2 = 0.3465735912322998;
const MORE_LN2 = 1.0397205352783203;

const P1 = 0.16666666666666602;
const P2 = -0.0027777777777015593;
const P3 = 6.613756321437934e-5;
const P4 = -1.6533902205465252e-6;
const P5 = 4.1381367970572385e-8;

/** How many ln 2 are taken off. */
function halvings(x: number, size: number): number {
  if (size < MORE_LN2) return x < 0 ? -1 : 1;
  return Math.trunc(Math.LOG2E * x + (x < 0 ? -0.5 : 0.5));
}

export function exp(x: number): number {
  const size = Math.abs(x);
  if (size < HALF_LN2) {
    if (size < 3.725290298461914e-9) return 1 + x;
    const c = correction(x);
    return 1 - ((x * c) / (c - 2) - x);
  }
  if (x > OVERFLOW) return Number.POSITIVE_INFINITY;
  if (x < UNDERFLOW) return 0;
  if (Number.isNaN(x)) return x;
  if (x === 1) return Math.E;
  const k = halvings(x, size);
  const high = x - k * LN2_HEAD;
  const low = k * LN2_REST;
  const left = high - low;
  const c = correction(left);
  const y = 1 - (low - (left * c) / (2 - c) - high);
  if (k === 1024) return y * 2 * powerOfTwo(1023);
  if (k >= -1021) return y * powerOfTwo(k);
  return y * powerOfTwo(k + 1000) * powerOfTwo(-1000);
}

/** What fdlibm's exponential and power alike divide by: of a remainder within half of ln 2. */
export function correction(x: number): number {
  const t = x * x;
  return x - t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5))));
}

const Q1 = -0.03333333333333313;
const Q2 = 0.0015873015872548146;
const Q3 = -7.93650757867488e-5;
const Q4 = 4.008217827329362e-6;
const Q5 = -2.0109921818362437e-7;

/** exp(x) - 1, to the last place near zero too. */
export function expm1(x: number): number {
  const size = Math.abs(x);
  if (size < HALF_LN2) return size < 5.551115123125783e-17 ? x : nearZero(x, 0, 0);
  if (x > OVERFLOW) return Number.POSITIVE_INFINITY;
  if (x < -38.816243) return -1;
  if (Number.isNaN(x)) return x;
  const k = halvings(x, size);
  const high = x - k * LN2_HEAD;
  const low = k * LN2_REST;
  const left = high - low;
  return nearZero(left, high - left - low, k);
}

/** 2^k exp(x + c) - 1 for small x, c what x leaves out. */
function nearZero(x: number, c: number, k: number): number {
  const half = 0.5 * x;
  const z = x * half;
  const r = 1 + z * (Q1 + z * (Q2 + z * (Q3 + z * (Q4 + z * Q5))));
  const t = 3 - r * half;
  const ratio = z * ((r - t) / (6 - x * t));
  if (k === 0) return x - (x * ratio - z);
  const e = x * (ratio - c) - c - z;
  if (k === -1) return 0.5 * (x - e) - 0.5;
  if (k === 1) return x < -0.25 ? -2 * (e - (x + 0.5)) : 1 + 2 * (x - e);
  if (k <= -2 || k > 56) {
    const y = 1 - (e - x);
    return (k === 1024 ? y * 2 * powerOfTwo(1023) : y * powerOfTwo(k)) - 1;
  }
  const small = powerOfTwo(-k);
  const y = k < 20 ? 1 - small - (e - x) : x - (e + small) + 1;
  return y * powerOfTwo(k);
}

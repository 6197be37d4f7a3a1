/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * AssemblyScript, not TypeScript: exp and expm1 as core/elementary/exponential.ts has them, operation by operation in the same order, so
 * that both give the same bits.
 */

const OVERFLOW: f64 = 709.782712893384;
const UNDERFLOW: f64 = -745.1332191019411;
const LN2_HEAD: f64 = 0.6931471803691238;
const LN2_REST: f64 = 1.9082149292705877e-10;
const HALF_LN2: f64 = 0.3465735912322998;
const MORE_LN2: f64 = 1.0397205352783203;

const P1: f64 = 0.16666666666666602;
const P2: f64 = -0.0027777777777015593;
const P3: f64 = 6.613756321437934e-5;
const P4: f64 = -1.6533902205465252e-6;
const P5: f64 = 4.1381367970572385e-8;

const Q1: f64 = -0.03333333333333313;
const Q2: f64 = 0.0015873015872548146;
const Q3: f64 = -7.93650757867488e-5;
const Q4: f64 = 4.008217827329362e-6;
const Q5: f64 = -2.0109921818362437e-7;

function twoTo(k: i32): f64 {
  return reinterpret<f64>((<u64>(0x3ff + k)) << 52);
}

function halvings(x: f64, size: f64): i32 {
  if (size < MORE_LN2) return x < 0 ? -1 : 1;
  return <i32>(Math.LOG2E * x + (x < 0 ? -0.5 : 0.5));
}

function correction(x: f64): f64 {
  const t = x * x;
  return x - t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5))));
}

export function exp(x: f64): f64 {
  const size = abs<f64>(x);
  if (size < HALF_LN2) {
    if (size < 3.725290298461914e-9) return 1.0 + x;
    const c = correction(x);
    return 1.0 - ((x * c) / (c - 2.0) - x);
  }
  if (x > OVERFLOW) return Infinity;
  if (x < UNDERFLOW) return 0;
  if (!(size >= 0)) return x;
  if (x === 1.0) return Math.E;
  const k = halvings(x, size);
  const high = x - <f64>k * LN2_HEAD;
  const low = <f64>k * LN2_REST;
  const left = high - low;
  const c = correction(left);
  const y = 1.0 - (low - (left * c) / (2.0 - c) - high);
  if (k === 1024) return y * 2.0 * twoTo(1023);
  if (k >= -1021) return y * twoTo(k);
  return y * twoTo(k + 1000) * twoTo(-1000);
}

function nearZero(x: f64, c: f64, k: i32): f64 {
  const half = 0.5 * x;
  const z = x * half;
  const r = 1.0 + z * (Q1 + z * (Q2 + z * (Q3 + z * (Q4 + z * Q5))));
  const t = 3.0 - r * half;
  const ratio = z * ((r - t) / (6.0 - x * t));
  if (k === 0) return x - (x * ratio - z);
  const e = x * (ratio - c) - c - z;
  if (k === -1) return 0.5 * (x - e) - 0.5;
  if (k === 1) return x < -0.25 ? -2.0 * (e - (x + 0.5)) : 1.0 + 2.0 * (x - e);
  if (k <= -2 || k > 56) {
    const y = 1.0 - (e - x);
    return (k === 1024 ? y * 2.0 * twoTo(1023) : y * twoTo(k)) - 1.0;
  }
  const small = twoTo(-k);
  const y = k < 20 ? 1.0 - small - (e - x) : x - (e + small) + 1.0;
  return y * twoTo(k);
}

export function expm1(x: f64): f64 {
  const size = abs<f64>(x);
  if (size < HALF_LN2) return size < 5.551115123125783e-17 ? x : nearZero(x, 0, 0);
  if (x > OVERFLOW) return Infinity;
  if (x < -38.816243) return -1;
  if (!(size >= 0)) return x;
  const k = halvings(x, size);
  const high = x - <f64>k * LN2_HEAD;
  const low = <f64>k * LN2_REST;
  const left = high - low;
  return nearZero(left, high - left - low, k);
}

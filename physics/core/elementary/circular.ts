/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * Sine, cosine and tangent: fdlibm's s_sin, s_cos, s_tan and their kernels, operation by operation, so that every engine
 * gives the same bits. Off by less than a unit in the last place. Not a number for infinite angles.
 */
import { quartersOff, rest_rad } from './quarters.ts';
import { headOf } from './words.ts';

/** fdlibm compares high words; a bound written as a number is the smallest with the first high word past it. */
const PAST_EIGHTH_rad = 0.7853984832763672;
const TINY_rad = 7.450580596923828e-9;

const S1 = -0.16666666666666632;
const S2 = 0.00833333333332249;
const S3 = -0.0001984126982985795;
const S4 = 2.7557313707070068e-6;
const S5 = -2.5050760253406863e-8;
const S6 = 1.58969099521155e-10;

const C1 = 0.0416666666666666;
const C2 = -0.001388888888887411;
const C3 = 2.480158728947673e-5;
const C4 = -2.7557314351390663e-7;
const C5 = 2.087572321298175e-9;
const C6 = -1.1359647557788195e-11;

/** Of x + y, y small, up to an eighth of a turn. */
function sineNear(x: number, y: number): number {
  if (Math.abs(x) < TINY_rad) return x;
  const z = x * x;
  const v = z * x;
  const r = S2 + z * (S3 + z * (S4 + z * (S5 + z * S6)));
  return x - (z * (0.5 * y - v * r) - y - v * S1);
}

/** As sineNear without y. */
function sineOf(x: number): number {
  const z = x * x;
  const r = S2 + z * (S3 + z * (S4 + z * (S5 + z * S6)));
  return x + z * x * (S1 + z * r);
}

/** Of x + y, y small, up to an eighth of a turn. */
function cosineNear(x: number, y: number): number {
  const size = Math.abs(x);
  if (size < TINY_rad) return 1;
  const z = x * x;
  const r = z * (C1 + z * (C2 + z * (C3 + z * (C4 + z * (C5 + z * C6)))));
  if (size < 0.2999999523162842) return 1 - (0.5 * z - (z * r - x * y));
  // About x / 4, so that 1 - q is exact.
  const q = size >= 0.7812504768371582 ? 0.28125 : headOf(0.25 * size);
  return 1 - q - (0.5 * z - q - (z * r - x * y));
}

export function sin(x_rad: number): number {
  const size = Math.abs(x_rad);
  if (size < PAST_EIGHTH_rad) return size < TINY_rad ? x_rad : sineOf(x_rad);
  const n = quartersOff(x_rad);
  const value = n & 1 ? cosineNear(rest_rad[0], rest_rad[1]) : sineNear(rest_rad[0], rest_rad[1]);
  return n & 2 ? -value : value;
}

export function cos(x_rad: number): number {
  if (Math.abs(x_rad) < PAST_EIGHTH_rad) return cosineNear(x_rad, 0);
  const n = quartersOff(x_rad);
  const value = n & 1 ? sineNear(rest_rad[0], rest_rad[1]) : cosineNear(rest_rad[0], rest_rad[1]);
  return (n + 1) & 2 ? -value : value;
}

const T0 = 0.3333333333333341;
const T1 = 0.13333333333320124;
const T2 = 0.05396825397622605;
const T3 = 0.021869488294859542;
const T4 = 0.0088632398235993;
const T5 = 0.0035920791075913124;
const T6 = 0.0014562094543252903;
const T7 = 0.0005880412408202641;
const T8 = 0.0002464631348184699;
const T9 = 7.817944429395571e-5;
const T10 = 7.140724913826082e-5;
const T11 = -1.8558637485527546e-5;
const T12 = 2.590730518636337e-5;

const MINUTE_rad = 3.725290298461914e-9;
const EIGHTH_rad = 0.7853981633974483;
const EIGHTH_REST_rad = 3.061616997868383e-17;

/** Of x + y, y small, up to an eighth of a turn; inverted, -1 over it. */
function tangentNear(x: number, y: number, inverted: boolean): number {
  if (Math.abs(x) < MINUTE_rad) return inverted ? inverse(x, y) : x;
  const large = Math.abs(x) >= 0.6743354797363281;
  const negative = x < 0;
  let p = x;
  let e = y;
  if (large) {
    p = EIGHTH_rad - Math.abs(x) + (EIGHTH_REST_rad - (negative ? -y : y));
    e = 0;
  }
  const z = p * p;
  const w = z * z;
  const odd = T1 + w * (T3 + w * (T5 + w * (T7 + w * (T9 + w * T11))));
  const even = z * (T2 + w * (T4 + w * (T6 + w * (T8 + w * (T10 + w * T12)))));
  const s = z * p;
  const r = e + z * (s * (odd + even) + e) + T0 * s;
  const sum = p + r;
  if (large) {
    const v = inverted ? -1 : 1;
    return (negative ? -1 : 1) * (v - 2 * (p - ((sum * sum) / (sum + v) - r)));
  }
  return inverted ? inverse(p, r) : sum;
}

/** -1 over p + r, r small. */
function inverse(p: number, r: number): number {
  const sum = p + r;
  const head = headOf(sum);
  const tail = r - (head - p);
  const a = -1 / sum;
  const t = headOf(a);
  return t + a * (1 + t * head + t * tail);
}

export function tan(x_rad: number): number {
  if (Math.abs(x_rad) < PAST_EIGHTH_rad) return tangentNear(x_rad, 0, false);
  const n = quartersOff(x_rad);
  return tangentNear(rest_rad[0], rest_rad[1], (n & 1) === 1);
}

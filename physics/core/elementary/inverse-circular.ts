/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * Arc sine, cosine and tangent: fdlibm's e_asin, e_acos, s_atan and e_atan2, operation by operation; see circular.ts.
 */
import { headOf, highWord } from './words.ts';

const QUARTER = 1.5707963267948966;
const QUARTER_REST = 6.123233995736766e-17;
const HALF_REST = 1.2246467991473532e-16;

const P0 = 0.16666666666666666;
const P1 = -0.3255658186224009;
const P2 = 0.20121253213486293;
const P3 = -0.04005553450067941;
const P4 = 0.0007915349942898145;
const P5 = 3.479331075960212e-5;
const Q1 = -2.403394911734414;
const Q2 = 2.0209457602335057;
const Q3 = -0.6882839716054533;
const Q4 = 0.07703815055590194;

/** (arcsin(x) - x) / x^3 for x^2 up to a quarter. */
function bulge(z: number): number {
  const p = z * (P0 + z * (P1 + z * (P2 + z * (P3 + z * (P4 + z * P5)))));
  const q = 1 + z * (Q1 + z * (Q2 + z * (Q3 + z * Q4)));
  return p / q;
}

/** rad; not a number beyond -1 and 1. */
export function asin(x: number): number {
  const size = Math.abs(x);
  if (size < 0.5) return size < 7.450580596923828e-9 ? x : x + x * bulge(x * x);
  if (size === 1) return x * QUARTER + x * QUARTER_REST;
  if (!(size < 1)) return Number.NaN;
  const z = (1 - size) * 0.5;
  const s = Math.sqrt(z);
  const value = size >= 0.9749999046325684 ? besideOne(s, bulge(z)) : belowOne(z, s, bulge(z));
  return x > 0 ? value : -value;
}

const besideOne = (s: number, r: number) => QUARTER - (2 * (s + s * r) - QUARTER_REST);

function belowOne(z: number, s: number, r: number): number {
  const w = headOf(s);
  const c = (z - w * w) / (s + w);
  const p = 2 * s * r - (QUARTER_REST - 2 * c);
  const q = 0.5 * QUARTER - 2 * w;
  return 0.5 * QUARTER - (p - q);
}

/** rad, 0 to pi; not a number beyond -1 and 1. */
export function acos(x: number): number {
  const size = Math.abs(x);
  if (size < 0.5) {
    if (size < 6.938900521352129e-18) return QUARTER + QUARTER_REST;
    return QUARTER - (x - (QUARTER_REST - x * bulge(x * x)));
  }
  if (x === 1) return 0;
  if (x === -1) return Math.PI + 2 * QUARTER_REST;
  if (!(size < 1)) return Number.NaN;
  const z = (1 - size) * 0.5;
  const s = Math.sqrt(z);
  if (x < 0) return Math.PI - 2 * (s + (bulge(z) * s - QUARTER_REST));
  const head = headOf(s);
  const c = (z - head * head) / (s + head);
  return 2 * (head + (bulge(z) * s + c));
}

/** Arcs of 1/2, 1, 3/2 and infinity, and what they leave out. */
const ARC_HALF = 0.4636476090008061;
const ARC_HALF_REST = 2.2698777452961687e-17;
const ARC_ONE = 0.7853981633974483;
const ARC_ONE_REST = 3.061616997868383e-17;
const ARC_MORE = 0.982793723247329;
const ARC_MORE_REST = 1.3903311031230998e-17;

const A0 = 0.3333333333333293;
const A1 = -0.19999999999876483;
const A2 = 0.14285714272503466;
const A3 = -0.11111110405462356;
const A4 = 0.09090887133436507;
const A5 = -0.0769187620504483;
const A6 = 0.06661073137387531;
const A7 = -0.058335701337905735;
const A8 = 0.049768779946159324;
const A9 = -0.036531572744216916;
const A10 = 0.016285820115365782;

/** 1 - arctan(x) / x, for x up to 7/16. */
function shortfall(x: number): number {
  const z = x * x;
  const w = z * z;
  const odd = z * (A0 + w * (A2 + w * (A4 + w * (A6 + w * (A8 + w * A10)))));
  const even = w * (A1 + w * (A3 + w * (A5 + w * (A7 + w * A9))));
  return odd + even;
}

/** rad, between quarter turns. */
export function atan(x: number): number {
  const size = Math.abs(x);
  if (size < 0.4375) return size < 1.862645149230957e-9 ? x : x - x * shortfall(x);
  const value = arcOfSize(size);
  return x < 0 ? -value : value;
}

function arcOfSize(x: number): number {
  if (x < 1.1875) {
    if (x < 0.6875) {
      const t = (2 * x - 1) / (2 + x);
      return ARC_HALF - (t * shortfall(t) - ARC_HALF_REST - t);
    }
    const t = (x - 1) / (x + 1);
    return ARC_ONE - (t * shortfall(t) - ARC_ONE_REST - t);
  }
  if (x < 2.4375) {
    const t = (x - 1.5) / (1 + 1.5 * x);
    return ARC_MORE - (t * shortfall(t) - ARC_MORE_REST - t);
  }
  if (x >= 7.378697629483821e19) return QUARTER + QUARTER_REST;
  const t = -1 / x;
  return QUARTER - (t * shortfall(t) - QUARTER_REST - t);
}

/** Direction of the point (x, y), rad, -pi to pi. The signs of zeros count, as the standard has it. */
export function atan2(y: number, x: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  if (x === 1) return atan(y);
  const behind = x < 0 || Object.is(x, -0);
  const below = y < 0 || Object.is(y, -0);
  // More than 60 doublings apart, one of the two is as good as nothing.
  const steeper = ((highWord(y) & 0x7fffffff) - (highWord(x) & 0x7fffffff)) >> 20;
  const upright = x === 0 || steeper > 60 || (Math.abs(y) === Number.POSITIVE_INFINITY && Number.isFinite(x));
  if (y !== 0 && upright) return below ? -QUARTER : QUARTER;
  const size = sizeOfArc(y, x, behind && steeper < -60);
  if (!behind) return below ? -size : size;
  return below ? size - HALF_REST - Math.PI : Math.PI - (size - HALF_REST);
}

/** Arc of |y / x|, where that is a number and counts. */
function sizeOfArc(y: number, x: number, flat: boolean): number {
  if (flat || y === 0) return 0;
  if (Math.abs(x) === Number.POSITIVE_INFINITY && Math.abs(y) === Number.POSITIVE_INFINITY) return ARC_ONE;
  return atan(Math.abs(y / x));
}

/*
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc. business.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 *
 * What is left of an angle after quarter turns are taken off: fdlibm's e_rem_pio2 up to 2^20 quarter turns, by a quarter turn in
 * parts of 33 bits (Cody and Waite); beyond that in whole numbers, exactly.
 */
import { fromWords, highWord, lowWord } from './words.ts';

const PER_QUARTER = 0.6366197723675814;
/** A quarter turn's first 33 bits, the next 33 and the next, each with what it leaves out. */
const QUARTER_1 = 1.5707963267341256;
const QUARTER_1_REST = 6.077100506506192e-11;
const QUARTER_2 = 6.077100506303966e-11;
const QUARTER_2_REST = 2.0222662487959506e-21;
const QUARTER_3 = 2.0222662487111665e-21;
const QUARTER_3_REST = 8.4784276603689e-32;

/** High words: of a quarter turn, of three eighths of a turn, of 2^20 quarter turns, of infinity. */
const NEAR_QUARTER = 0x3ff921fb;
const THREE_EIGHTHS = 0x4002d97c;
const MANY = 0x413921fb;
const INFINITE = 0x7ff00000;
/** High words of 0 to 31 quarter turns: beside them a difference loses so many digits that more parts are needed. */
const QUARTERS = Int32Array.from({ length: 32 }, (_, n) => highWord((n * Math.PI) / 2));

/** The last remainder, rad: its value and what that leaves out. */
export const rest_rad = new Float64Array(2);

/**
 * Takes quarter turns off an angle beyond an eighth of a turn, so that what is left in `rest_rad` is an eighth at most.
 *
 * @returns how many, modulo 4 beyond 2^20 of them; NaN is left of an infinite angle and of NaN
 */
export function quartersOff(x_rad: number): number {
  const high = highWord(x_rad);
  const size = high & 0x7fffffff;
  if (size < THREE_EIGHTHS) {
    oneQuarterOff(Math.abs(x_rad), size === NEAR_QUARTER);
    return high < 0 ? -turned(1) : 1;
  }
  if (size >= INFINITE) {
    rest_rad.fill(Number.NaN);
    return 0;
  }
  const count = size <= MANY ? someQuartersOff(Math.abs(x_rad), size) : manyQuartersOff(x_rad);
  return high < 0 ? -turned(count) : count;
}

/** The remainder of the angle of other sign. */
function turned(count: number): number {
  rest_rad[0] = -rest_rad[0];
  rest_rad[1] = -rest_rad[1];
  return count;
}

function oneQuarterOff(x: number, near: boolean): void {
  const r = near ? x - QUARTER_1 - QUARTER_2 : x - QUARTER_1;
  const w = near ? QUARTER_2_REST : QUARTER_1_REST;
  const y = r - w;
  rest_rad[0] = y;
  rest_rad[1] = r - y - w;
}

function someQuartersOff(x: number, size: number): number {
  const n = Math.trunc(x * PER_QUARTER + 0.5);
  let r = x - n * QUARTER_1;
  let w = n * QUARTER_1_REST;
  let y = r - w;
  if (n >= QUARTERS.length || size === QUARTERS[n]) {
    const exponent = size >> 20;
    const lost = () => exponent - ((highWord(y) >> 20) & 0x7ff);
    if (lost() > 16) {
      const t = r;
      w = n * QUARTER_2;
      r = t - w;
      w = n * QUARTER_2_REST - (t - r - w);
      y = r - w;
      if (lost() > 49) {
        const u = r;
        w = n * QUARTER_3;
        r = u - w;
        w = n * QUARTER_3_REST - (u - r - w);
        y = r - w;
      }
    }
  }
  rest_rad[0] = y;
  rest_rad[1] = r - y - w;
  return n;
}

/** Binary places of a quarter turn: the largest double has 1024 before the point, and 276 are left behind it. */
const PLACES = 1300n;
/** Binary places of the remainder that is kept, as many as a double's range allows. */
const KEPT = 1000n;
const UNIT = fromWords(0x01700000, 0);
let quarter = 0n;

/** 2^PLACES arctan(1/n) by its series, some units too small. */
function arcOf(n: bigint): bigint {
  let sum = 0n;
  let power = (1n << PLACES) / n;
  for (let k = 1n; power > 0n; k += 2n) {
    sum += k % 4n === 1n ? power / k : -power / k;
    power /= n * n;
  }
  return sum;
}

function manyQuartersOff(x: number): number {
  // Machin: pi / 4 = 4 arctan(1/5) - arctan(1/239).
  if (quarter === 0n) quarter = 2n * (4n * arcOf(5n) - arcOf(239n));
  const high = highWord(x);
  const digits = (BigInt((high & 0xfffff) | 0x100000) << 32n) | BigInt(lowWord(x) >>> 0);
  const angle = digits << (PLACES + BigInt(((high >> 20) & 0x7ff) - 1075));
  const count = (2n * angle + quarter) / (2n * quarter);
  const left = (angle - count * quarter) >> (PLACES - KEPT);
  const value = Number(left);
  rest_rad[0] = value * UNIT;
  rest_rad[1] = Number(left - BigInt(value)) * UNIT;
  return Number(count & 3n);
}

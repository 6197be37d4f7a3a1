import { describe, expect, test } from 'vitest';
import { cos, sin, tan } from '../../physics/core/elementary/circular.ts';
import { exp, expm1 } from '../../physics/core/elementary/exponential.ts';
import { hypot } from '../../physics/core/elementary/hypot.ts';
import { acos, asin, atan, atan2 } from '../../physics/core/elementary/inverse-circular.ts';
import { log, log2 } from '../../physics/core/elementary/logarithm.ts';
import { power } from '../../physics/core/elementary/power.ts';
import { wholePower } from '../../physics/core/elementary/whole-power.ts';
import { createRandom } from '../../physics/core/random.ts';
import { digestOf, ELEMENTARY_DIGESTS, elementaryDigests, shaftAtWall } from '../support/elementary-digests.ts';
import {
  EXACT_ONE,
  exactAngle,
  exactCos,
  exactExp,
  exactLog,
  exactly,
  exactProduct,
  exactQuotient,
  exactRoot,
  exactSin,
  unitsOff,
} from '../support/exact-functions.ts';

/** What Sun's text says of each function but the power, units in the last place. */
const UNIT = 1;
const SEED = 31;
const VALUES = 400;
const INFINITY = Number.POSITIVE_INFINITY;

const square = (x: bigint) => exactProduct(x, x);
const LN2 = exactLog(2n * EXACT_ONE, 0.7);
/** Eight times the angle of (1, 1). */
const TURN = 8n * exactAngle(EXACT_ONE, EXACT_ONE, 0.8);

type Row = readonly [string, number, number, (x: number) => number, (x: bigint, about: number) => bigint];

const ROWS: readonly Row[] = [
  ['sin', -7, 7, sin, (x) => exactSin(x)],
  ['cos', -7, 7, cos, (x) => exactCos(x)],
  ['tan', -7, 7, tan, (x) => exactQuotient(exactSin(x), exactCos(x))],
  ['asin', -1, 1, asin, (x, about) => exactAngle(x, exactRoot(EXACT_ONE - square(x)), about)],
  ['acos', -1, 1, acos, (x, about) => exactAngle(exactRoot(EXACT_ONE - square(x)), x, about)],
  ['atan', -9, 9, atan, (x, about) => exactAngle(x, EXACT_ONE, about)],
  ['exp', -12, 12, exp, (x) => exactExp(x)],
  ['expm1', -3, 12, expm1, (x) => exactExp(x) - EXACT_ONE],
  ['log', 0, 5, log, (x, about) => exactLog(x, about)],
  ['log2', 0, 5, log2, (x, about) => exactQuotient(exactLog(x, about * Math.LN2), LN2)],
];

describe('an elementary function', () => {
  test.each(ROWS)('%s is within a unit in the last place of the exact one (seed 31)', (_name, from, to, own, exact) => {
    const random = createRandom(SEED);
    let worst = 0;
    for (let k = 0; k < VALUES; k++) {
      const x = from + (to - from) * random.uniform();
      worst = Math.max(worst, unitsOff(own(x), exact(exactly(x), own(x))));
    }
    expect(worst).toBeLessThan(UNIT);
    // no function of the kind rounds all of them right, so that a reference of its own making would show
    expect(worst).toBeGreaterThan(0.3);
  });

  test('atan2, hypot: within a unit in the last place too (seed 31)', () => {
    const random = createRandom(SEED);
    const pick = () => 10 * random.uniform() - 5;
    for (let k = 0; k < VALUES; k++) {
      const [x, y, z] = [pick(), pick(), pick()];
      const [X, Y, Z] = [exactly(x), exactly(y), exactly(z)];
      expect(unitsOff(atan2(y, x), exactAngle(Y, X, atan2(y, x)))).toBeLessThan(UNIT);
      expect(unitsOff(hypot(x, y), exactRoot(square(X) + square(Y)))).toBeLessThan(2 * UNIT);
      expect(unitsOff(hypot(x, y, z), exactRoot(square(X) + square(Y) + square(Z)))).toBeLessThan(2 * UNIT);
    }
  });

  test('a power is within a unit, a whole power within half a unit but for ties nearly met (seed 31)', () => {
    const random = createRandom(SEED);
    for (let k = 0; k < VALUES; k++) {
      const [x, y] = [0.1 + 4 * random.uniform(), 8 * random.uniform() - 4];
      const reference = exactExp(exactProduct(exactly(y), exactLog(exactly(x), log(x))));
      expect(unitsOff(power(x, y), reference)).toBeLessThan(UNIT);
      const n = Math.floor(24 * random.uniform());
      let whole = EXACT_ONE;
      for (let i = 0; i < n; i++) whole = exactProduct(whole, exactly(x));
      expect(unitsOff(wholePower(x, n), whole)).toBeLessThan(0.5001);
    }
  });

  test('keeps its accuracy where quarter turns or one are taken off, and far out', () => {
    const quarters = [1, 2, 3, 4, 31, 32, 33, 1000, 1_048_575].map((n) => (n * Math.PI) / 2);
    for (const x of [...quarters, 1e7, -1e15, 1e22, 1e40]) {
      const X = exactly(x);
      const left = X - (X / TURN) * TURN;
      expect(unitsOff(sin(x), exactSin(left))).toBeLessThan(UNIT);
      expect(unitsOff(cos(x), exactCos(left))).toBeLessThan(UNIT);
      expect(unitsOff(tan(x), exactQuotient(exactSin(left), exactCos(left)))).toBeLessThan(UNIT);
    }
    for (const x of [1 + 2 ** -20, 1 - 2 ** -20, 1 + 2 ** -52]) {
      expect(unitsOff(log(x), exactLog(exactly(x), log(x)))).toBeLessThan(UNIT);
      expect(unitsOff(log2(x), exactQuotient(exactLog(exactly(x), log(x)), LN2))).toBeLessThan(UNIT);
    }
    for (const x of [1e-9, -1e-9, 1e-3])
      expect(unitsOff(expm1(x), exactExp(exactly(x)) - EXACT_ONE)).toBeLessThan(UNIT);
  });
});

/** ECMA-262, 21.3.2, the text of each function; powers: Number::exponentiate. */
describe('at the ends of its range, as the language has it', () => {
  const odd = { sin, tan, asin, atan, expm1 };
  test.each(Object.entries(odd))('%s keeps the sign of zero and of the smallest number', (_name, own) => {
    for (const x of [0, -0, Number.MIN_VALUE, -Number.MIN_VALUE]) expect(own(x)).toBe(x);
  });

  test.each(Object.entries({ ...odd, cos, acos, exp, log, log2 }))('%s of no number is none', (_name, own) => {
    expect(own(Number.NaN)).toBeNaN();
  });

  test('angles', () => {
    for (const own of [sin, cos, tan]) for (const x of [INFINITY, -INFINITY]) expect(own(x)).toBeNaN();
    expect([cos(0), cos(-0), sin(Math.PI / 2), cos(Math.PI)]).toEqual([1, 1, 1, -1]);
    for (const own of [asin, acos]) for (const x of [1.0000000000000002, -2, INFINITY]) expect(own(x)).toBeNaN();
    expect([asin(1), acos(1), acos(-1), acos(0)]).toEqual([Math.PI / 2, 0, Math.PI, Math.PI / 2]);
    expect([atan(INFINITY), atan(-INFINITY), atan(1)]).toEqual([Math.PI / 2, -Math.PI / 2, Math.PI / 4]);
  });

  test.each([
    [0, 0, 0],
    [0, -0, Math.PI],
    [-0, 0, -0],
    [-0, -0, -Math.PI],
    [0, 1, 0],
    [-0, -1, -Math.PI],
    [1, 0, Math.PI / 2],
    [-1, -0, -Math.PI / 2],
    [1, INFINITY, 0],
    [1, -INFINITY, Math.PI],
    [INFINITY, 1, Math.PI / 2],
    [INFINITY, -Number.MAX_VALUE, Math.PI / 2],
    [-INFINITY, INFINITY, -Math.PI / 4],
    [INFINITY, -INFINITY, (3 * Math.PI) / 4],
    [Number.NaN, 1, Number.NaN],
    [1, Number.NaN, Number.NaN],
    [1e300, -1e-300, Math.PI / 2],
    [1e-300, -1e300, Math.PI],
  ])('atan2(%d, %d) is %d', (y, x, angle) => {
    expect(atan2(y, x)).toBe(angle);
  });

  test('exponentials and logarithms', () => {
    expect([exp(0), exp(1), exp(INFINITY), exp(-INFINITY), exp(710), exp(-746)]).toEqual([
      1,
      Math.E,
      INFINITY,
      0,
      INFINITY,
      0,
    ]);
    expect(exp(-745)).toBe(Number.MIN_VALUE);
    expect([expm1(INFINITY), expm1(-INFINITY), expm1(-50), expm1(710)]).toEqual([INFINITY, -1, -1, INFINITY]);
    for (const own of [log, log2]) {
      expect([own(1), own(0), own(-0), own(INFINITY)]).toEqual([0, -INFINITY, -INFINITY, INFINITY]);
      expect(own(-1)).toBeNaN();
    }
    for (const k of [-1074, -1022, -1, 1, 10, 1023]) expect(log2(2 ** k)).toBe(k);
  });

  test('lengths', () => {
    expect([hypot(3, 4), hypot(-3, 4), hypot(2, 3, 6), hypot(0, -0)]).toEqual([5, 5, 7, 0]);
    expect([hypot(3e300, 4e300), hypot(3e-320, 4e-320)]).toEqual([5e300, 5e-320]);
    expect([hypot(Number.NaN, INFINITY), hypot(1, Number.NaN, -INFINITY)]).toEqual([INFINITY, INFINITY]);
    expect(hypot(Number.NaN, 1)).toBeNaN();
  });

  test.each([
    [0, 0, 1],
    [Number.NaN, 0, 1],
    [1, INFINITY, Number.NaN],
    [-1, -INFINITY, Number.NaN],
    [1, Number.NaN, Number.NaN],
    [2, INFINITY, INFINITY],
    [0.5, INFINITY, 0],
    [-0, -3, -INFINITY],
    [-0, -2, INFINITY],
    [-INFINITY, 3, -INFINITY],
    [-INFINITY, -3, -0],
    [-8, 1 / 3, Number.NaN],
    [-2, 3, -8],
    [-2, -2, 0.25],
    [2, 1023, 2 ** 1023],
    [2, 1024, INFINITY],
    [2, -1074, Number.MIN_VALUE],
    [2, -1076, 0],
    [4, 0.5, 2],
    [9, 1.5, 27],
  ])('power(%d, %d) is %d', (x, y, value) => {
    expect(power(x, y)).toBe(value);
  });
});

test('the measure of error tells a unit and half a unit, and no error from one', () => {
  expect(unitsOff(1 + 2 ** -52, EXACT_ONE)).toBe(1);
  expect(unitsOff(-1, -EXACT_ONE)).toBe(0);
  expect(unitsOff(1, EXACT_ONE + (EXACT_ONE >> 53n))).toBe(0.5);
});

describe('the same bits in every engine', () => {
  test('all functions give the digests that are kept; tests/e2e/elementary.spec.ts asks a browser for them', () => {
    expect(elementaryDigests()).toEqual(ELEMENTARY_DIGESTS);
  });

  test('the shaft among them meets the wall, 5.4 mm from the middle', () => {
    const poses = shaftAtWall();
    let farthest = 0;
    for (let k = 0; k < poses.length; k += 5) farthest = Math.max(farthest, hypot(poses[k] ?? 0, poses[k + 1] ?? 0));
    expect(farthest).toBeGreaterThan(5.3);
    expect(farthest).toBeLessThan(5.5);
  });

  test('a digest tells one last place of one value', () => {
    const from = new Float64Array([1, 2, 3]);
    const to = new Float64Array([1, 2, 3 + 2 ** -51]);
    expect(digestOf(from)).not.toBe(digestOf(to));
  });
});

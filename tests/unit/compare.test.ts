import { describe, expect, it } from 'vitest';
import { expectAngleWithin, expectInRange, expectVectorWithin, expectWithin } from '../support/compare.ts';

const NOT_NUMBERS = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
const BAD_TOLERANCES = [0, -0.1, ...NOT_NUMBERS];

describe('comparing numbers', () => {
  it('accepts what is just inside, by share and by size', () => {
    expectWithin('x', 101, 100, { relative: 0.010001 });
    expectWithin('x', -101, -100, { relative: 0.010001 });
    expectWithin('x', 0.0009, 0, { absolute: 0.001 });
    expectWithin('x', 100.4, 100, { relative: 1e-6, absolute: 0.5 });
  });

  it('rejects what is just outside, and says by how much', () => {
    expect(() => expectWithin('hoop', 101.01, 100, { relative: 0.01 })).toThrow(
      /hoop: computed 101.01, reference 100, off by 1.0\d*/,
    );
    expect(() => expectWithin('x', 98.99, 100, { relative: 0.01 })).toThrow(/off by/);
    expect(() => expectWithin('x', 0.0011, 0, { absolute: 0.001 })).toThrow(/off by/);
    expect(() => expectWithin('x', -0.0011, 0, { absolute: 0.001 })).toThrow(/off by/);
  });

  it('rejects the wrong sign', () => {
    expect(() => expectWithin('x', -100, 100, { relative: 0.5 })).toThrow(/off by 200/);
  });

  it('rejects numbers that are not finite, even equal ones', () => {
    for (const value of NOT_NUMBERS) {
      expect(() => expectWithin('x', value, 1, { relative: 1 })).toThrow(/computed is/);
      expect(() => expectWithin('x', 1, value, { relative: 1 })).toThrow(/reference is/);
      expect(() => expectWithin('x', value, value, { relative: 1 })).toThrow();
    }
  });

  it('rejects a missing or meaningless tolerance', () => {
    expect(() => expectWithin('x', 1, 1, {})).toThrow(/no tolerance/);
    expect(() => expectWithin('x', 0, 0, { relative: 0.1 })).toThrow(/zero/);
    for (const relative of BAD_TOLERANCES)
      expect(() => expectWithin('x', 1, 1, { relative })).toThrow(/tolerance must/);
    for (const absolute of BAD_TOLERANCES)
      expect(() => expectWithin('x', 1, 1, { absolute })).toThrow(/tolerance must/);
  });
});

describe('comparing directions', () => {
  it('counts round the circle', () => {
    expectAngleWithin('heading', 359.5, 0.4, 1);
    expectAngleWithin('heading', -179.5, 180, 1);
    expectAngleWithin('heading', 725, 4.5, 1);
  });

  it('rejects what is just outside, on either side and across the seam', () => {
    expect(() => expectAngleWithin('heading', 11.01, 10, 1)).toThrow(/heading: computed 11.01 deg/);
    expect(() => expectAngleWithin('heading', 8.99, 10, 1)).toThrow(/off by/);
    expect(() => expectAngleWithin('heading', 359.3, 0.4, 1)).toThrow(/off by 1.0/);
    expect(() => expectAngleWithin('heading', 190, 10, 179)).toThrow(/off by 180/);
    expect(() => expectAngleWithin('heading', -30, 30, 5)).toThrow(/off by 60/);
  });

  it('rejects angles and tolerances that are not finite', () => {
    for (const value of NOT_NUMBERS) {
      expect(() => expectAngleWithin('heading', value, 0, 10)).toThrow(/computed is/);
      expect(() => expectAngleWithin('heading', 0, value, 10)).toThrow(/reference is/);
    }
    for (const tolerance of BAD_TOLERANCES)
      expect(() => expectAngleWithin('heading', 0, 0, tolerance)).toThrow(/tolerance/);
  });
});

describe('comparing vectors', () => {
  it('accepts a small difference by length', () => {
    expectVectorWithin('force', [3.01, 4], [3, 4], { relative: 0.0021 });
    expectVectorWithin('force', new Float64Array([0, 1e-4]), [0, 0], { absolute: 1e-3 });
  });

  it('rejects what is just outside, whichever component is off', () => {
    expect(() => expectVectorWithin('force', [3.0101, 4], [3, 4], { relative: 0.002 })).toThrow(
      /force: computed \[3.0101,4\]/,
    );
    expect(() => expectVectorWithin('force', [3, 3.9899], [3, 4], { relative: 0.002 })).toThrow(/off by/);
  });

  it('rejects the wrong sign, swapped components, the wrong length and nothing at all', () => {
    expect(() => expectVectorWithin('force', [-3, -4], [3, 4], { relative: 0.5 })).toThrow(/off by 10/);
    expect(() => expectVectorWithin('force', [4, 3], [3, 4], { relative: 0.1 })).toThrow(/off by/);
    expect(() => expectVectorWithin('force', [3, 4, 0], [3, 4], { relative: 0.1 })).toThrow(/3 components/);
    expect(() => expectVectorWithin('force', [3], [3, 4], { relative: 0.1 })).toThrow(/1 components/);
    expect(() => expectVectorWithin('force', [], [], { absolute: 1 })).toThrow(/0 components/);
  });

  it('rejects components that are not finite and missing tolerances', () => {
    for (const value of NOT_NUMBERS) {
      expect(() => expectVectorWithin('force', [3, value], [3, 4], { relative: 1 })).toThrow(/computed\[1\] is/);
      expect(() => expectVectorWithin('force', [3, 4], [value, 4], { relative: 1 })).toThrow(/reference\[0\] is/);
    }
    expect(() => expectVectorWithin('force', [3, 4], [3, 4], {})).toThrow(/no tolerance/);
    expect(() => expectVectorWithin('force', [0, 0], [0, 0], { relative: 1 })).toThrow(/zero/);
  });
});

describe('comparing with a range', () => {
  it('accepts the ends and rejects what is outside, what is not finite and ends out of order', () => {
    expectInRange('force', 3, 3, 25);
    expectInRange('force', 25, 3, 25);
    expect(() => expectInRange('force', 2.999, 3, 25)).toThrow(/force: computed 2.999, allowed 3 to 25/);
    expect(() => expectInRange('force', 25.001, 3, 25)).toThrow(/allowed/);
    for (const value of NOT_NUMBERS) expect(() => expectInRange('force', value, 3, 25)).toThrow(/computed is/);
    expect(() => expectInRange('force', 4, 25, 3)).toThrow(/range/);
    expect(() => expectInRange('force', 4, 3, Number.POSITIVE_INFINITY)).toThrow(/range/);
  });
});

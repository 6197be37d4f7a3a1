import { describe, expect, it } from 'vitest';
import type { Check, Finding } from '../../physics/verify/check.ts';
import { absolute, agrees, angle, deviation, OF_ITS_SIGN, relative } from '../../physics/verify/compare.ts';
import { allAgree, runCheck, runChecks } from '../../physics/verify/run-checks.ts';

describe('a number agrees only within its tolerance', () => {
  it('relative: a share of the size of the reference', () => {
    expect(agrees(-10.29, -10, relative(0.03))).toBe(true);
    expect(agrees(-10.31, -10, relative(0.03))).toBe(false);
    expect(agrees(9.69, 10, relative(0.03))).toBe(false);
    expect(agrees(10, -10, relative(0.03))).toBe(false);
  });

  it('relative to 0 agrees with nothing, not even with 0', () => {
    expect(agrees(0, 0, relative(0.03))).toBe(false);
    expect(agrees(1e-300, 0, relative(0.5))).toBe(false);
  });

  it('absolute: in the unit of the number', () => {
    expect(agrees(0.5, 0, absolute(0.5))).toBe(true);
    expect(agrees(0.51, 0, absolute(0.5))).toBe(false);
  });

  it('angle: round the circle', () => {
    expect(agrees(359, 1, angle(2.1))).toBe(true);
    expect(agrees(-179, 179, angle(2.1))).toBe(true);
    expect(agrees(359, 1, angle(1.9))).toBe(false);
    expect(agrees(180, 0, angle(90))).toBe(false);
    expect(deviation(725, 3, angle(1))).toBeCloseTo(2, 12);
  });

  it('by its sign: not 0, not the other sign, not more than twice', () => {
    expect(agrees(0.004, 0.4, OF_ITS_SIGN)).toBe(true);
    expect(agrees(-0.79, -0.4, OF_ITS_SIGN)).toBe(true);
    for (const wrong of [0, -0.004, 0.81]) expect(agrees(wrong, 0.4, OF_ITS_SIGN)).toBe(false);
  });

  it('no number that is not finite agrees, and no tolerance that is not positive and finite allows', () => {
    for (const kind of [relative, absolute, angle]) {
      for (const wrong of [Number.NaN, Infinity, -Infinity]) {
        expect(agrees(wrong, 1, kind(0.1))).toBe(false);
        expect(agrees(1, wrong, kind(0.1))).toBe(false);
        expect(agrees(wrong, wrong, kind(0.1))).toBe(false);
      }
      for (const allowed of [0, -1, Number.NaN, Infinity]) expect(agrees(1, 1, kind(allowed))).toBe(false);
    }
  });
});

describe('the runner', () => {
  const finding = (computed: number, more: Partial<Finding> = {}): Finding => ({
    quantity: 'length',
    computed,
    reference: 1,
    unit: 'mm',
    tolerance: relative(0.01),
    ...more,
  });
  const check = (run: Check['run']): Check => ({
    name: 'X1',
    problem: 'a rod',
    source: 'none',
    first: false,
    quick: true,
    run,
  });
  const none = { attempts: [], twoNicks: null };
  const knownMiss = { size: 0.05, reason: 'too short a rod' };

  it('passes what agrees and fails what does not', () => {
    const rows = runCheck(
      check(() => [finding(1.005), finding(1.02)]),
      none,
    );
    expect(rows.map((row) => row.pass)).toEqual([true, false]);
    expect(allAgree(rows)).toBe(false);
  });

  it('lets a known miss stand up to its declared size and no further', () => {
    const [within] = runCheck(
      check(() => [finding(1.04, { knownMiss })]),
      none,
    );
    expect([within.pass, within.knownMiss]).toEqual([false, knownMiss]);
    expect(allAgree([within])).toBe(true);
    const [beyond] = runCheck(
      check(() => [finding(1.06, { knownMiss })]),
      none,
    );
    expect([beyond.pass, beyond.knownMiss]).toEqual([false, undefined]);
    expect(allAgree([beyond])).toBe(false);
  });

  it('does not call a miss that is gone a miss', () => {
    const [row] = runCheck(
      check(() => [finding(1, { knownMiss })]),
      none,
    );
    expect([row.pass, row.knownMiss]).toEqual([true, undefined]);
  });

  it('fails a check that throws, finds nothing, or comes to no number, and writes no NaN', () => {
    const fault = check(() => {
      throw new Error('the solver stopped');
    });
    const rows = runChecks([fault, check(() => []), check(() => [finding(Number.NaN)])], none);
    expect(rows.map((row) => row.pass)).toEqual([false, false, false]);
    expect(rows[0].note).toBe('the solver stopped');
    expect(rows[2].computed).toBeNull();
    expect(JSON.stringify(rows)).not.toMatch(/NaN|Infinity/);
  });

  it('does not call nothing a success', () => {
    expect(allAgree([])).toBe(false);
  });

  it('tells how far it is', () => {
    const told: (string | null)[] = [];
    runChecks([check(() => [finding(1)]), check(() => [finding(1)])], none, (done, of, name) =>
      told.push(`${done} of ${of} ${name}`),
    );
    expect(told).toEqual(['0 of 2 X1', '1 of 2 X1', '2 of 2 null']);
  });
});

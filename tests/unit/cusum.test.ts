import { describe, expect, test } from 'vitest';
import {
  CUSUM_EXPLAINED,
  learningCusum,
  learningWeights,
  rateProblems,
  riskProblems,
  tabularCusum,
  twoBoundaryCusum,
  twoBoundaryWeights,
} from '../../physics/opening/cusum.ts';
import { simulateLimit } from '../../physics/opening/cusum-limit.ts';

const row = (text: string): boolean[] => [...text].map((letter) => letter === 'S');

describe('the tabular chart', () => {
  test('adds what lies beyond the allowance, never falls below zero and signals at its limit', () => {
    const { curve, signalAt } = tabularCusum([0.2, 0.5, 0.1, 0.6, 0.6], 0.3, 0.5);
    [0, 0.2, 0, 0.3, 0.6].forEach((value, n) => {
      expect(curve[n]).toBeCloseTo(value, 12);
    });
    expect(signalAt).toBe(4);
    expect(tabularCusum([], 0.3, 0.5)).toEqual({ curve: [], signalAt: null });
  });

  test('takes no NaN and no limit of zero', () => {
    expect(() => tabularCusum([Number.NaN], 0.3, 0.5)).toThrow(RangeError);
    expect(() => tabularCusum([0.1], 0.3, 0)).toThrow(RangeError);
  });
});

describe('the two-boundary chart', () => {
  const rates = { acceptable: 0.05, unacceptable: 0.1 };
  const risks = { falseAlarm: 0.1, falseAcceptance: 0.1 };

  test('has the hand values s = 0.07236 and h = 2.94055 at 5 % and 10 %', () => {
    const { pass, miss, lower, upper } = twoBoundaryWeights(rates, risks);
    expect(pass).toBeCloseTo(-0.07236, 5);
    expect(miss).toBeCloseTo(0.92764, 5);
    expect(upper).toBeCloseTo(2.94055, 5);
    expect(lower).toBeCloseTo(-2.94055, 5);
  });

  test('41 straight passes reach the lower line, 40 do not; three misses do not reach the upper one, four do', () => {
    const passes = twoBoundaryCusum(row('S'.repeat(41)), rates, risks);
    expect(passes.acceptableAt).toBe(40);
    expect(passes.unacceptableAt).toBeNull();
    expect(twoBoundaryCusum(row('S'.repeat(40)), rates, risks).acceptableAt).toBeNull();
    expect(twoBoundaryCusum(row('FFF'), rates, risks).unacceptableAt).toBeNull();
    expect(twoBoundaryCusum(row('FFFF'), rates, risks).unacceptableAt).toBe(3);
  });

  test('with unequal risks the lower line follows the risk of a false acceptance', () => {
    const { lower, upper } = twoBoundaryWeights(rates, { falseAlarm: 0.1, falseAcceptance: 0.05 });
    const span = Math.log(2) + Math.log(0.95 / 0.9);
    expect(lower).toBeCloseTo(-Math.log(0.9 / 0.05) / span, 12);
    expect(upper).toBeCloseTo(Math.log(0.95 / 0.1) / span, 12);
  });
});

describe('the learning-curve chart', () => {
  const rates = { acceptable: 0.1, unacceptable: 0.2 };

  test('has the hand weights +0.11778 and -0.69315 at 10 % and 20 %', () => {
    expect(learningWeights(rates).pass).toBeCloseTo(0.11778, 5);
    expect(learningWeights(rates).miss).toBeCloseTo(-Math.LN2, 12);
  });

  test('SSSF and eleven passes: 0.35335, 0, 1.17783 at case 14, 1.29561 at case 15, which signals at h = 1.25', () => {
    const { curve, competentAt } = learningCusum(row(`SSSF${'S'.repeat(11)}`), rates, 1.25);
    expect(curve).toHaveLength(15);
    expect(curve[2]).toBeCloseTo(0.35335, 5);
    expect(curve[3]).toBe(0);
    expect(curve[13]).toBeCloseTo(1.17783, 5);
    expect(curve[14]).toBeCloseTo(1.29561, 5);
    expect(competentAt).toBe(14);
  });
});

describe('limits that a course sets', () => {
  test.each([
    [{ acceptable: 0.1, unacceptable: 0.1 }, 'unacceptable'],
    [{ acceptable: 0, unacceptable: 0.1 }, 'acceptable'],
    [{ acceptable: 0.1, unacceptable: 1 }, 'unacceptable'],
    [{ acceptable: Number.NaN, unacceptable: 0.1 }, 'acceptable'],
    [{ acceptable: 0.1, unacceptable: Number.NaN }, 'unacceptable'],
  ])('%o has a problem at %s and no chart', (rates, path) => {
    expect(rateProblems(rates).map((problem) => problem.path)).toContain(path);
    expect(() => learningWeights(rates)).toThrow(RangeError);
    expect(() => twoBoundaryWeights(rates, { falseAlarm: 0.1, falseAcceptance: 0.1 })).toThrow(RangeError);
  });

  test('sound rates and risks have no problems, a risk of one half has', () => {
    expect(rateProblems({ acceptable: 0.05, unacceptable: 0.1 })).toEqual([]);
    expect(riskProblems({ falseAlarm: 0.1, falseAcceptance: 0.1 })).toEqual([]);
    expect(riskProblems({ falseAlarm: 0.5, falseAcceptance: Number.NaN })).toHaveLength(2);
  });

  test('each chart is told in one sentence', () => {
    for (const sentence of Object.values(CUSUM_EXPLAINED)) expect(sentence).toMatch(/^[A-Z][^.]*\.$/);
  });
});

/** Chance that the curve of `cases` independent attempts reaches a limit, by going through every possible row. */
function exactSignalRate(
  limit: number,
  failureRate: number,
  rates: Parameters<typeof learningWeights>[0],
  cases: number,
) {
  const { pass, miss } = learningWeights(rates);
  let total = 0;
  for (let word = 0; word < 2 ** cases; word++) {
    let sum = 0;
    let chance = 1;
    let reached = false;
    for (let n = 0; n < cases; n++) {
      const failed = ((word >> n) & 1) === 1;
      chance *= failed ? failureRate : 1 - failureRate;
      sum = Math.max(0, sum + (failed ? miss : pass));
      reached ||= sum >= limit;
    }
    if (reached) total += chance;
  }
  return total;
}

describe('the simulated limit', () => {
  const rates = { acceptable: 0.1, unacceptable: 0.2 };

  test('agrees with the exact chances over every row of 14 attempts', () => {
    const { limit, falseSignalRate, trueSignalRate, runs } = simulateLimit({ rates, cases: 14, falseSignalRate: 0.1 });
    // Five standard errors of the simulated rate.
    const error = (rate: number) => 5 * Math.sqrt((rate * (1 - rate)) / runs);
    const exact = exactSignalRate(limit, rates.unacceptable, rates, 14);
    expect(Math.abs(falseSignalRate - exact)).toBeLessThan(error(exact));
    const power = exactSignalRate(limit, rates.acceptable, rates, 14);
    expect(Math.abs(trueSignalRate - power)).toBeLessThan(error(power));
    expect(falseSignalRate).toBeLessThanOrEqual(0.1);
    // One pass less would be enough too often: no lower limit keeps the wanted rate.
    const { pass } = learningWeights(rates);
    expect(exactSignalRate(limit - pass, rates.unacceptable, rates, 14)).toBeGreaterThan(0.1);
  });

  test('where every row of 14 is too likely to signal, the limit cannot be reached at all', () => {
    const wanted = { rates: { acceptable: 0.01, unacceptable: 0.02 }, cases: 14, falseSignalRate: 0.05 };
    const { limit, falseSignalRate, trueSignalRate } = simulateLimit(wanted);
    expect(limit).toBeGreaterThan(14 * learningWeights(wanted.rates).pass);
    expect([falseSignalRate, trueSignalRate]).toEqual([0, 0]);
  });

  test('is the same for the same arguments, grows with the cases and falls with the rate', () => {
    const at = (cases: number, falseSignalRate: number) => simulateLimit({ rates, cases, falseSignalRate }).limit;
    expect(at(50, 0.05)).toBe(at(50, 0.05));
    expect(at(100, 0.05)).toBeGreaterThan(at(30, 0.05));
    expect(at(50, 0.01)).toBeGreaterThan(at(50, 0.2));
  });

  test('converges: ten times the people and another seed move it by less than one pass', () => {
    const wanted = { rates, cases: 50, falseSignalRate: 0.05 };
    const { pass } = learningWeights(rates);
    const fine = simulateLimit(wanted, 200_000);
    expect(Math.abs(simulateLimit(wanted).limit - fine.limit)).toBeLessThan(pass);
    expect(Math.abs(simulateLimit(wanted, 200_000, 7).limit - fine.limit)).toBeLessThan(pass);
  });

  test.each([
    { cases: 0, falseSignalRate: 0.1 },
    { cases: 1.5, falseSignalRate: 0.1 },
    { cases: 20, falseSignalRate: 0 },
    { cases: 20, falseSignalRate: Number.NaN },
  ])('%o is refused', (part) => {
    expect(() => simulateLimit({ rates, ...part })).toThrow(RangeError);
  });
});

import { describe, expect, it } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import { createTremor } from '../../physics/core/tremor.ts';

const draw = (count: number, next: () => number) => Array.from({ length: count }, next);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Pearson's chi-square over 64 equal bins, 63 degrees of freedom. */
function chiSquare(values: readonly number[]): number {
  const bins = new Array(64).fill(0);
  for (const value of values) bins[Math.floor(value * 64)] += 1;
  const expected = values.length / 64;
  return bins.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

describe('the seeded generator', () => {
  it('gives the same numbers for the same seed, others for another, and goes on from a stored state', () => {
    const first = createRandom(7);
    const numbers = draw(100, first.uniform);
    expect(draw(100, createRandom(7).uniform)).toEqual(numbers);
    expect(draw(100, createRandom(8).uniform)).not.toEqual(numbers);
    const again = createRandom(JSON.parse(JSON.stringify(first.state())));
    expect(draw(100, again.normal)).toEqual(draw(100, first.normal));
  });

  it.each([0, 1, 2, 4294967295])('seed %d is even over 0 to 1', (seed) => {
    const values = draw(64_000, createRandom(seed).uniform);
    expect(Math.min(...values.slice(0, 10_000))).toBeGreaterThanOrEqual(0);
    expect(Math.max(...values.slice(0, 10_000))).toBeLessThan(1);
    // 63 degrees of freedom: beyond 23.4 and 121 lies less than one in 100,000 on either side. Seeds are fixed.
    expect(chiSquare(values)).toBeGreaterThan(23.4);
    expect(chiSquare(values)).toBeLessThan(121);
    const lagged = mean(values.slice(1).map((value, i) => (value - 0.5) * (values[i] - 0.5))) * 12;
    expect(Math.abs(lagged)).toBeLessThan(5 / Math.sqrt(values.length));
  });

  it('the evenness check finds numbers that are not even', () => {
    expect(chiSquare(draw(64_000, createRandom(1).uniform).map((value) => value ** 1.1))).toBeGreaterThan(121);
  });

  it('normal numbers have mean 0, variance 1 and the tails of the normal law', () => {
    const values = draw(100_000, createRandom(3).normal);
    expect(Math.abs(mean(values))).toBeLessThan(5 / Math.sqrt(1e5));
    expect(Math.abs(mean(values.map((value) => value * value)) - 1)).toBeLessThan(5 * Math.sqrt(2 / 1e5));
    const beyond = values.filter((value) => Math.abs(value) > 2).length / 1e5;
    expect(Math.abs(beyond - 0.0455)).toBeLessThan(0.0035);
  });
});

describe('tremor', () => {
  const step_s = 1 / 60;
  const values = draw(60 * 600, createTremor(5, 35, step_s).next);

  /** Power at a frequency, by the mean square of the discrete Fourier sum over pieces of 10 s. */
  function power(frequency_Hz: number): number {
    const pieces = Array.from({ length: 60 }, (_, k) => values.slice(k * 600, (k + 1) * 600));
    return mean(
      pieces.map((piece) => {
        const angle = (i: number) => 2 * Math.PI * frequency_Hz * i * step_s;
        const re = piece.reduce((sum, value, i) => sum + value * Math.cos(angle(i)), 0);
        const im = piece.reduce((sum, value, i) => sum + value * Math.sin(angle(i)), 0);
        return (re * re + im * im) / piece.length;
      }),
    );
  }

  it('has the RMS asked for', () => {
    expect(Math.abs(Math.sqrt(mean(values.map((value) => value * value))) / 35 - 1)).toBeLessThan(0.03);
    expect(draw(10, createTremor(5, 0, step_s).next).every((value) => value === 0)).toBe(true);
  });

  it('is strongest inside 1-10 Hz', () => {
    expect(power(3)).toBeGreaterThan(5 * power(0.2));
    expect(power(3)).toBeGreaterThan(5 * power(28));
  });

  it('goes on from a stored state', () => {
    const tremor = createTremor(9, 20, step_s);
    draw(50, tremor.next);
    const again = createTremor(JSON.parse(JSON.stringify(tremor.state())), 20, step_s);
    expect(draw(50, again.next)).toEqual(draw(50, tremor.next));
  });
});

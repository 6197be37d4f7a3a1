import { describe, expect, it } from 'vitest';
import { Sharpness } from '../../src-renderer/stage/sharpness.ts';

function after(gaps_ms: readonly number[]): number {
  const sharpness = new Sharpness();
  let now = 0;
  sharpness.frame(now);
  for (const gap of gaps_ms) {
    now += gap;
    sharpness.frame(now);
  }
  return sharpness.share;
}

describe('sharpness of the drawing', () => {
  it('stays full while frames come in time', () => {
    expect(after(Array(500).fill(16))).toBe(1);
  });

  it('goes down by steps while frames keep coming late, but never below half', () => {
    expect(after(Array(15).fill(120))).toBe(0.75);
    expect(after(Array(500).fill(120))).toBe(0.5);
  });

  it('goes down where slow frames and fast ones take turns and the mean is late', () => {
    expect(after(Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 100 : 16)))).toBe(0.5625);
  });

  it('is not moved by a late frame now and then, nor by a pause', () => {
    expect(after(Array.from({ length: 300 }, (_, i) => (i % 8 === 0 ? 120 : 16)))).toBe(1);
    expect(after(Array(40).fill(5000))).toBe(1);
  });
});

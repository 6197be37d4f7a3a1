import { describe, expect, it } from 'vitest';
import { SHARES, Sharpness } from '../../src-renderer/stage/sharpness.ts';

const clocks = new Map<Sharpness, number>();

/** Draws through these gaps, one after the other. */
function through(sharpness: Sharpness, gaps_ms: readonly number[], drew: (at: number) => boolean = () => true): void {
  let now = (clocks.get(sharpness) ?? -1000) + 1000;
  sharpness.frame(now, drew(0));
  gaps_ms.forEach((gap, at) => {
    now += gap;
    sharpness.frame(now, drew(at + 1));
  });
  clocks.set(sharpness, now);
}

function after(gaps_ms: readonly number[], drew?: (at: number) => boolean): number {
  const sharpness = new Sharpness();
  through(sharpness, gaps_ms, drew);
  return sharpness.share;
}

/** A stage whose picture takes `other_ms` and, at full resolution, `pixels_ms` more; a display at 60 Hz. */
function settled(other_ms: number, pixels_ms: number, frames = 6000) {
  const sharpness = new Sharpness();
  let [now, moves, late] = [0, 0, 0];
  for (let at = 0; at < frames; at++) {
    const gap = Math.max(1000 / 60, other_ms + pixels_ms * sharpness.share ** 2);
    now += gap;
    if (sharpness.frame(now, true) && at >= frames / 2) moves += 1;
    if (at >= frames / 2 && gap > 35) late += 1;
  }
  return { share: sharpness.share, moves, late: late / (frames / 2) };
}

describe('sharpness of the drawing', () => {
  it('stays full while frames come in time', () => {
    expect(after(Array(500).fill(16))).toBe(1);
  });

  it('goes down by steps while frames come late, never below half', () => {
    expect(after(Array(15).fill(120))).toBe(SHARES[1]);
    expect(after(Array.from({ length: 100 }, (_, at) => 120 * 0.9 ** Math.floor(at / 15)))).toBe(0.5);
  });

  it('goes down where slow frames and fast ones take turns and the mean is late', () => {
    expect(after(Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 100 : 16)))).toBe(SHARES[1]);
  });

  it('is not moved by a late frame now and then, by a pause, or by what happens while nothing is drawn', () => {
    expect(after(Array.from({ length: 300 }, (_, i) => (i % 8 === 0 ? 120 : 16)))).toBe(1);
    expect(after(Array(40).fill(5000))).toBe(1);
    expect(after(Array(300).fill(120), () => false)).toBe(1);
  });

  it.each([
    [5, 20, 1],
    [5, 38, 0.85],
    [5, 55, 0.72],
    [5, 75, 0.6],
  ])(
    'settles at the largest share that comes thirty times a second: %i ms and %i ms of pixels',
    (other, pixels, share) => {
      const { share: found, moves, late } = settled(other, pixels);
      expect(found).toBe(share);
      expect(moves).toBeLessThan(5);
      expect(late).toBeLessThan(0.03);
    },
  );

  it('goes up again within twelve seconds after a busy spell', () => {
    const sharpness = new Sharpness();
    through(
      sharpness,
      Array.from({ length: 90 }, (_, at) => 100 * 0.9 ** Math.floor(at / 15)),
    );
    expect(sharpness.share).toBe(0.5);
    through(sharpness, Array(720).fill(16.7));
    expect(sharpness.share).toBe(1);
  });

  it('does not stay coarse where that brings nothing', () => {
    const { share, late } = settled(60, 1);
    expect(share).toBeGreaterThanOrEqual(SHARES[1]!);
    expect(late).toBe(1);
  });

  it('can be held at full resolution', () => {
    const sharpness = new Sharpness(true);
    through(sharpness, Array(500).fill(120));
    expect(sharpness.share).toBe(1);
  });
});

import { describe, expect, it } from 'vitest';
import type { TipView, WorldEvent } from '../../physics/index.ts';
import { ageWords, eyeLines } from '../../src-renderer/places/bench/eye-lines.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import { clockHour, clockTime, DASH, number, quantity } from '../../src-renderer/ui/format.ts';
import { outwardTurn_deg, runOutStory, sheetWords, turn_deg, turnWords } from '../../src-renderer/ui/words.ts';

const tip = (over: Partial<TipView> = {}): TipView => ({
  id: 1,
  live: true,
  position_mm: [2, 0],
  reference_mm: [2, 0],
  tangent_deg: 90,
  heading_deg: 90,
  drivingForce_mN: 7,
  drivingRatio: 0.5,
  resultant_mN: [0, 7],
  sheet_mN: null,
  pull_mN: null,
  shear_mN: 0,
  stretch_mN: 0,
  modeShares: [0, 0, 0],
  ...over,
});

describe('numbers for a person', () => {
  it('are a dash where there is no number', () => {
    for (const none of [null, undefined, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(number(none, 1)).toBe(DASH);
      expect(quantity(none, 1, 'mN')).toBe(DASH);
    }
  });

  it('have no minus before zero, and a real minus elsewhere', () => {
    expect(number(-0.04, 1)).toBe('0.0');
    expect(number(-1.26, 1)).toBe('−1.3');
  });

  it('say time and clock hours as people do', () => {
    expect(clockTime(75.25)).toBe('1:15.2');
    expect(clockHour(0)).toBe('12 o’clock');
    expect(clockHour(11.9)).toBe('12 o’clock');
    expect(clockHour(8.5)).toBe('half past 8');
    expect(clockHour(null)).toBe(DASH);
  });
});

describe('headings in words', () => {
  it('are outward away from the centre, whichever way the tear goes round', () => {
    const counterClockwise = tip();
    expect(outwardTurn_deg(counterClockwise, 80, [0, 0])).toBeCloseTo(10, 9);
    expect(outwardTurn_deg(counterClockwise, 110, [0, 0])).toBeCloseTo(-20, 9);
    const clockwise = tip({ tangent_deg: -90 });
    expect(outwardTurn_deg(clockwise, -80, [0, 0])).toBeCloseTo(10, 9);
  });

  it('wrap round the circle', () => {
    expect(turn_deg(350, 10)).toBe(20);
    expect(turn_deg(10, 350)).toBe(-20);
  });

  it('say in, out or straight on', () => {
    expect(turnWords(12.2)).toBe('turns out 12°');
    expect(turnWords(-8)).toBe('turns in 8°');
    expect(turnWords(0.3)).toBe('goes straight on');
    expect(turnWords(null)).toBe(DASH);
  });

  it('say what the sheet alone would do, and nothing where it is not known', () => {
    expect(sheetWords(tip(), [0, 0])).toBe(DASH);
    // 7 mN at half the resistance: the resistance is 14 mN
    expect(sheetWords(tip({ sheet_mN: [7, 0] }), [0, 0])).toBe('0.50, turns out 90°');
    expect(sheetWords(tip({ sheet_mN: [0, 20] }), [0, 0])).toMatch(/^runs, goes straight on$/);
  });
});

describe('a run-out in words', () => {
  const event = (kind: WorldEvent['kind'], step: number, clock_h: number | null = null): WorldEvent => ({
    step,
    time_s: step / 60,
    kind,
    clock_h,
  });

  it('says where and when, and from when on it could not be held', () => {
    const story = runOutStory([event('run-out-inevitable', 600), event('run-out', 900, 3)]);
    expect(story).toBe(
      'It passed the zonule ring at 3 o’clock after 15.0 s. From 10.0 s on, letting go would already have run.',
    );
  });

  it('is silent where there was none', () => {
    expect(runOutStory([event('near-run-out', 3)])).toBeNull();
  });
});

describe('the eye in a few lines', () => {
  it('gives every shipped eye its numbers with units and no dash', () => {
    for (const scenario of offeredScenarios().scenarios) {
      const lines = eyeLines(scenario);
      expect(lines).toHaveLength(5);
      for (const line of lines) expect(line.text).toMatch(/^\d+(\.\d+)?\u00a0\S+$/);
    }
  });

  it('says months for infants', () => {
    expect(ageWords(0.5)).toBe('6 months');
    expect(ageWords(65)).toBe('65 years');
  });
});

import { describe, expect, it } from 'vitest';
import type { WorldView } from '../../physics/index.ts';
import { clockAbout, tipWords } from '../../src-renderer/ui/tip-words.ts';
import { GAP_ms, TIP_EVERY_ms, Voice } from '../../src-renderer/ui/voice.ts';

const WORDS = 'Tip at 3 o’clock.';

/** A minute of looking twice a second at a tear that never rests and at something happening at every look. */
function busyMinute(voice: Voice): readonly { readonly at_ms: number; readonly said: string }[] {
  const all: { at_ms: number; said: string }[] = [];
  for (let now_ms = 0; now_ms <= 60_000; now_ms += 500) {
    voice.happened(`Event of ${now_ms}`);
    if (now_ms % 1500 === 0) voice.ask();
    const said = voice.at({ now_ms, words: WORDS, torn_mm: now_ms / 1000 });
    if (said !== null) all.push({ at_ms: now_ms, said });
  }
  return all;
}

describe('the stage for ears', () => {
  it('never speaks twice within two seconds, however much happens', () => {
    const said = busyMinute(new Voice());
    expect(said.length).toBeGreaterThan(20);
    for (const [k, { at_ms }] of said.entries()) {
      if (k > 0) expect(at_ms - (said[k - 1]?.at_ms ?? 0)).toBeGreaterThanOrEqual(2000);
    }
    expect(GAP_ms).toBeGreaterThanOrEqual(2000);
  });

  it('says the last of many events rather than all of them', () => {
    const voice = new Voice();
    for (let k = 1; k <= 10; k++) voice.happened(`Event ${k}`);
    expect(voice.at({ now_ms: 0, words: WORDS, torn_mm: 0 })).toBe('Event 8. Event 9. Event 10.');
    expect(voice.at({ now_ms: 5000, words: WORDS, torn_mm: 0 })).toBeNull();
  });

  it('tells where the tip is every few seconds while it tears, and is silent while it rests', () => {
    const voice = new Voice();
    const told = (now_ms: number, torn_mm: number) => voice.at({ now_ms, words: WORDS, torn_mm });
    expect(told(0, 2)).toBeNull();
    expect(told(500, 2.1)).toBe(WORDS);
    expect(told(3000, 2.2)).toBeNull();
    expect(told(500 + TIP_EVERY_ms, 2.4)).toBe(WORDS);
    expect(told(60_000, 2.4)).toBeNull();
  });

  it('answers when asked, though nothing tears', () => {
    const voice = new Voice();
    expect(voice.at({ now_ms: 0, words: WORDS, torn_mm: 0 })).toBeNull();
    voice.ask();
    expect(voice.at({ now_ms: 100, words: WORDS, torn_mm: 0 })).toBe(WORDS);
    expect(voice.at({ now_ms: 9000, words: WORDS, torn_mm: 0 })).toBeNull();
  });

  it('says nothing of an attempt that was given up', () => {
    const voice = new Voice();
    voice.happened('Tear goes');
    voice.ask();
    voice.forget();
    expect(voice.at({ now_ms: 0, words: WORDS, torn_mm: 0 })).toBeNull();
  });
});

describe('where the tip is, in words', () => {
  const view = (over: object): WorldView =>
    ({
      instrument: { tip_mm: [0, 0, 0] },
      chamber: { netPressure_mmHg: 1.25 },
      tips: [{ live: true, position_mm: [2.6, 0.5], drivingRatio: 0.83 }],
      ...over,
    }) as unknown as WorldView;

  it('counts clock hours about the centre of the target, 12 up and 3 to the right', () => {
    expect(clockAbout([0, 2], [0, 0])).toBeCloseTo(0, 9);
    expect(clockAbout([2, 0], [0, 0])).toBeCloseTo(3, 9);
    expect(clockAbout([-2, 0], [0, 0])).toBeCloseTo(9, 9);
    expect(clockAbout([1, 1], [1, 3])).toBeCloseTo(6, 9);
    expect(clockAbout([1, 1], [1, 1])).toBeNull();
  });

  it('gives clock hour, radius, force over resistance and net pressure', () => {
    expect(tipWords(view({}), [0.1, 0.5])).toBe(
      'Tip at 3 o’clock, 2.5 mm from the centre. Driving force 0.83 of the resistance. Net pressure 1.3 mmHg.',
    );
  });

  it('says so where no tear is open, and never says NaN', () => {
    expect(tipWords(view({ tips: [] }), [0, 0])).toBe('No open tear. Net pressure 1.3 mmHg.');
    const broken = view({ tips: [{ live: true, position_mm: [2, 0], drivingRatio: Number.NaN }] });
    expect(tipWords(broken, [0, 0])).toMatch(/Driving force – of/);
  });
});

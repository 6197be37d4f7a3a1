import { afterEach, describe, expect, test } from 'vitest';
import { CUSUM_EXPLAINED } from '../../physics/index.ts';
import type { AttemptSummary } from '../../src-main/ipc/contract.ts';
import { LANGUAGES } from '../../src-renderer/i18n/languages.ts';
import { speak, t } from '../../src-renderer/i18n/text.ts';
import { attemptsCsv } from '../../src-renderer/places/logbook/AttemptList.tsx';
import {
  COLUMN_IDS,
  COLUMNS,
  FOLDED_CELLS,
  WIDE_CELLS,
  whenWords,
} from '../../src-renderer/places/logbook/attempt-columns.ts';
import {
  differenceText,
  limitWords,
  metricText,
  uncoveredWords,
} from '../../src-renderer/places/logbook/metric-words.ts';
import { timeWords } from '../../src-renderer/places/trial/rules-of-trial.ts';

const attempt = {
  id: 'a',
  personId: 'p',
  personName: 'Ada',
  scenarioId: 'infant-thick-fluid',
  scenarioTitle: 'Six months old, thick fluid',
  scenarioDigest: 'd',
  startedAt: '2026-03-04T05:06:07.000Z',
  place: 'trial',
  ended: 'complete',
  passed: true,
  opening: { equivalentDiameter_mm: 4.9251, centroidDistance_mm: 0.1, circularity: 0.97 },
  work: { time_s: 61.4 },
  seal: 'fits',
  replay: 'not-tried',
} as unknown as AttemptSummary;

afterEach(() => speak('en'));

describe('the list of attempts', () => {
  test.each([
    ['wide', WIDE_CELLS],
    ['folded', FOLDED_CELLS],
  ])('holds every column once when it is %s', (_, cells) => {
    expect(cells.flat().sort()).toEqual([...COLUMN_IDS].sort());
  });

  test('is the same file in every language, with points and without words of the page', () => {
    const files = LANGUAGES.map((language) => {
      speak(language);
      return attemptsCsv([attempt]);
    });
    expect(new Set(files).size).toBe(1);
    expect(files[0]).toContain('Diameter, mm');
    expect(files[0]).toContain('4.9251');
    expect(files[0]).toContain(attempt.startedAt);
  });

  test('is written as the language writes it on the page', () => {
    expect(COLUMNS.diameter.text(attempt)).toBe('4.93');
    expect(COLUMNS.passed.text(attempt)).toBe('✓ passed');
    speak('es');
    expect(COLUMNS.diameter.text(attempt)).toBe('4,93');
    expect(COLUMNS.passed.text(attempt)).toBe('✓ superado');
    expect(COLUMNS.eye.text(attempt)).not.toBe(attempt.scenarioTitle);
    speak('hi');
    expect(COLUMNS.diameter.text(attempt)).toBe('4.93');
    expect(COLUMNS.place.text(attempt)).toBe('परीक्षा');
  });

  test('says the month as a word and the digits as on the instruments', () => {
    for (const [language, month] of [
      ['en', 'Mar'],
      ['es', 'mar'],
      ['hi', 'मार्च'],
    ] as const) {
      speak(language);
      expect(whenWords(attempt.startedAt)).toContain(month);
      expect(whenWords(attempt.startedAt)).toMatch(/2026/);
      expect(whenWords(attempt.startedAt)).toMatch(/\d\d:06/);
    }
    expect(whenWords('no date')).toBe('–');
  });
});

describe('a metric in words', () => {
  test('has its unit, a direction is an hour of the clock', () => {
    expect(metricText('equivalentDiameter_mm', 4.926)).toBe('4.93\u00a0mm');
    expect(metricText('largestDiameterAxis_deg', 40.4)).toBe('40°');
    expect(metricText('centroidDirection_clock_h', 3.5)).toBe('3.5 o’clock');
    expect(metricText('centroidDirection_clock_h', null)).toBe('–');
  });

  test('of a difference has a sign only where one is seen', () => {
    expect(differenceText('equivalentDiameter_mm', 0.25)).toBe('+0.25\u00a0mm');
    expect(differenceText('equivalentDiameter_mm', -0.25)).toBe('−0.25\u00a0mm');
    expect(differenceText('equivalentDiameter_mm', 0.001)).toBe('0.00\u00a0mm');
    expect(differenceText('centroidDirection_clock_h', 1.5)).toBe('+1.5\u00a0h');
    expect(differenceText('equivalentDiameter_mm', Number.NaN)).toBe('–');
  });

  test('of a limit and of an uncovered optic is one message in each language', () => {
    const between = { metric: 'equivalentDiameter_mm', atLeast: 4.5, atMost: 5.5 } as const;
    const opening = { opticUncovered_clock_h: [[2, 4.5]] } as unknown as Parameters<typeof uncoveredWords>[0];
    expect(limitWords(between)).toBe('4.50 to 5.50\u00a0mm');
    expect(uncoveredWords(opening)).toBe('2.0 to 4.5 o’clock');
    speak('es');
    expect(limitWords(between)).toBe('4,50 a 5,50\u00a0mm');
    expect(uncoveredWords(opening)).toContain('2,0 a 4,5');
  });

  test('of a time limit counts minutes and seconds', () => {
    expect([timeWords(60), timeWords(300), timeWords(61), timeWords(30)]).toEqual([
      '1 minute',
      '5 minutes',
      '1 minute 1 second',
      '30 seconds',
    ]);
    speak('es');
    expect(timeWords(90)).toBe('1 minuto y 30 segundos');
  });
});

test('the charts of cumulative sums are explained as the model explains them', () => {
  expect(t('logbook.curve.twoBoundaryExplained')).toBe(CUSUM_EXPLAINED.twoBoundary);
  expect(t('logbook.curve.learningExplained')).toBe(CUSUM_EXPLAINED.learningCurve);
});

import i18next from 'i18next';
import { afterAll, describe, expect, it } from 'vitest';
import { METRIC_LABELS, type MetricKey, TEACHING_CAUTION } from '../../physics/index.ts';
import { numberGroups } from '../../src-renderer/app/help/number-groups.ts';
import { LANGUAGES, type Language, languageOf, MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { speak, t } from '../../src-renderer/i18n/text.ts';
import { clockHour, clockTime, number, quantity } from '../../src-renderer/ui/format.ts';
import { halfPlurals, type MessageTree, messageFaults, textsOf } from '../support/message-rules.ts';

/** Words that are the same in English: names, and trade words that both languages write alike. */
const SAME: Readonly<Partial<Record<Language, readonly string[]>>> = {
  es: ['content.terminal.no'],
  hi: [],
};

const others = LANGUAGES.filter((language) => language !== 'en');

/** English with every text changed, so that nothing of it is left. */
const madeUp = (tree: MessageTree): MessageTree =>
  Object.fromEntries(
    Object.entries(tree).map(([key, value]) => [key, typeof value === 'string' ? `Ω ${value}` : madeUp(value)]),
  );

/** A copy in which one text is another one; null takes it out. */
function altered(tree: MessageTree, path: string, text: string | null): MessageTree {
  const [first = '', ...rest] = path.split('.');
  const entries = Object.entries(tree).flatMap(([key, value]): (readonly [string, string | MessageTree])[] => {
    if (key !== first) return [[key, value]];
    if (typeof value !== 'string') return [[key, altered(value, rest.join('.'), text)]];
    return text === null ? [] : [[key, text]];
  });
  return Object.fromEntries(entries);
}

describe('the messages', () => {
  it.each(others)(
    'are whole in %s: every key of English, the same fillings, nothing empty, nothing left in English',
    (language) => {
      expect(messageFaults(MESSAGES.en, MESSAGES[language], new Set(SAME[language]))).toEqual([]);
    },
  );

  it.each(others)('of %s that may be the same as in English are', (language) => {
    const [english, its] = [textsOf(MESSAGES.en), textsOf(MESSAGES[language])];
    for (const key of SAME[language] ?? []) expect(its.get(key), key).toBe(english.get(key));
  });

  it('are there in hundreds, so that what is compared is not nothing', () => {
    expect(textsOf(MESSAGES.en).size).toBeGreaterThan(1000);
  });

  it('of one more language are held to the same, and faults in them are found', () => {
    const more = madeUp(MESSAGES.en);
    const faults = (tree: MessageTree) => messageFaults(MESSAGES.en, tree, new Set());
    expect(faults(more)).toEqual([]);
    expect(faults(altered(more, 'common.close', null))).toEqual(['common.close: missing']);
    expect(faults(altered(more, 'common.close', ' '))).toEqual(['common.close: empty']);
    expect(faults(altered(more, 'common.close', 'Close'))).toEqual(['common.close: left in English: Close']);
    expect(faults(altered(more, 'common.turn.out', 'Ω'))).toHaveLength(1);
    expect(faults({ ...more, added: 'Ω' })).toEqual(['added: not in English']);
  });

  it.each(LANGUAGES)('of %s have both forms of every plural, and find the one for a number', (language) => {
    expect(halfPlurals(MESSAGES[language])).toEqual([]);
    const plurals = [...textsOf(MESSAGES[language]).keys()].filter((key) => key.endsWith('_other'));
    expect(plurals.length).toBeGreaterThan(5);
    for (const key of plurals) {
      const base = key.replace(/_other$/, '');
      for (const count of [0, 1, 2, 5, 21, 100]) {
        const text = i18next.t(base as 'common.clock.whole', { lng: language, count });
        expect(text, `${base} of ${count}`).not.toBe(base);
      }
    }
  });
});

describe('texts that have a twin in the physics', () => {
  it('are the same words in English', () => {
    expect(MESSAGES.en.common.caution).toBe(TEACHING_CAUTION);
    for (const [key, { label }] of Object.entries(METRIC_LABELS)) {
      const { name } = MESSAGES.en.numbers[key as MetricKey];
      expect(name).toBe(`${label.charAt(0).toUpperCase()}${label.slice(1)}`);
    }
  });
});

describe('the numbers that are explained', () => {
  it('stand once each in the help', () => {
    const shown = numberGroups().flatMap(([, ids]) => ids);
    expect([...shown].sort()).toEqual(Object.keys(MESSAGES.en.numbers).sort());
  });

  it('each say what they are and where they come from', () => {
    for (const [id, { definition, source }] of Object.entries(MESSAGES.en.numbers)) {
      expect(definition.length, id).toBeGreaterThan(20);
      expect(source.length, id).toBeGreaterThan(20);
    }
    speak('en');
    expect(t('numbers.torn.source')).toBe('Recorded by the program during the attempt.');
  });
});

describe('a language', () => {
  afterAll(() => speak('en'));

  it('is taken from what the system wants, English where there is none of ours', () => {
    expect(languageOf(['es-MX', 'en'])).toBe('es');
    expect(languageOf(['fr', 'hi-IN'])).toBe('hi');
    expect(languageOf(['fr'])).toBe('en');
    expect(languageOf([])).toBe('en');
  });

  it('writes numbers its own way, in Western digits', () => {
    speak('es');
    expect([number(2.5, 1), quantity(-0.25, 2, 'mN'), clockTime(75.25)]).toEqual(['2,5', '−0,25\u00a0mN', '1:15,2']);
    speak('hi');
    expect(number(12345.6, 1)).toBe('12345.6');
    speak('en');
    expect(number(2.5, 1)).toBe('2.5');
  });

  it('says clock hours its own way', () => {
    speak('es');
    expect([clockHour(1), clockHour(8.5)]).toEqual(['la 1', 'las 8 y media']);
    speak('hi');
    expect(clockHour(8.5)).toBe('8:30 बजे');
  });
});

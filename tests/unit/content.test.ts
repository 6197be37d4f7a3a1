import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import {
  type CostlyMoment,
  costlyMoments,
  METRIC_LABELS,
  type MetricKey,
  type MomentSample,
  type OpeningMetrics,
  type TornEnd,
  type WorkMetrics,
  type WorldEvent,
  type WorldEventKind,
} from '../../physics/index.ts';
import { gradeAttempt } from '../../physics/opening/grade-attempt.ts';
import { LESSONS } from '../../scenarios/lessons.ts';
import { SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import {
  boardText,
  gradeSentence,
  lessonText,
  metricName,
  momentSentence,
  programLine,
  scenarioTitle,
  textOf,
} from '../../src-renderer/i18n/content.ts';
import { LANGUAGES, MESSAGES, SHIPPED_TEXTS } from '../../src-renderer/i18n/languages.ts';
import { retold } from '../../src-renderer/i18n/retold.ts';
import { linesOf, shippedText } from '../../src-renderer/i18n/shipped-texts.ts';
import { speak } from '../../src-renderer/i18n/text.ts';
import { builtInBoards } from '../../src-renderer/places/lecture/boards/built-in-boards.ts';
import { shippedWords } from '../support/shipped-words.ts';

const others = LANGUAGES.filter((language) => language !== 'en');
const lines = [...new Set(shippedWords().flatMap(linesOf))];

afterEach(() => speak('en'));

/** Numbers of a text in their order of size, whatever the mark before the decimals. */
const numbersIn = (text: string): readonly string[] =>
  (text.replaceAll('²', '2').match(/\d+(?:[.,]\d+)?/g) ?? []).map((found) => found.replace(',', '.')).sort();

describe('the shipped texts', () => {
  test('are in hundreds of lines, so that what is compared is not nothing', () => {
    expect(lines.length).toBeGreaterThan(300);
    expect(SHIPPED_SCENARIOS.every(({ id }) => Object.hasOwn(LESSONS, id))).toBe(true);
  });

  test.each(others)('are all there in %s, none of a text that is gone or was changed', (language) => {
    const known = SHIPPED_TEXTS[language] ?? {};
    expect(lines.filter((line) => !Object.hasOwn(known, line))).toEqual([]);
    expect(Object.keys(known).filter((line) => !lines.includes(line))).toEqual([]);
  });

  test.each(others)('carry in %s the same numbers and the same emphasis, and are not left in English', (language) => {
    for (const [english, told] of Object.entries(SHIPPED_TEXTS[language] ?? {})) {
      expect(numbersIn(told), english).toEqual(numbersIn(english));
      expect(told.split('**').length, english).toBe(english.split('**').length);
      expect(told, english).not.toBe(english);
    }
  });

  test('keep their Markdown: headings, steps and points stand where they stood', () => {
    const marks = (text: string) => text.split('\n').map((line) => /^(?:#+ |\d+\. |- )?/.exec(line)?.[0]);
    for (const language of others)
      for (const lesson of Object.values(LESSONS)) expect(marks(shippedText(lesson, language))).toEqual(marks(lesson));
  });

  test('that somebody changed are shown as they are, whole', () => {
    speak('es');
    expect(scenarioTitle({ title: 'A 2-year-old' })).toBe('2 años');
    expect(scenarioTitle({ title: 'A 2-year-old, my copy' })).toBe('A 2-year-old, my copy');
    const lesson = LESSONS['two-years'] ?? '';
    expect(lessonText('two-years')).toContain('Qué hacer');
    // one changed line: no mixture of two languages
    const changed = lesson.replace('Draw the line at 3.9 mm', 'Draw the line at 3.8 mm');
    expect(changed).not.toBe(lesson);
    expect(textOf(changed)).toBe(changed);
    expect(lessonText('no-such-eye')).toBeNull();
  });

  test('of a board change its words and nothing else, and in English nothing at all', () => {
    const { boards, problems } = builtInBoards();
    expect([problems, boards.length]).toEqual([[], 7]);
    for (const board of boards) expect(boardText(board)).toEqual(board);
    speak('hi');
    for (const board of boards) {
      const told = boardText(board);
      const { title, text, left, question, right, toDo, toWatch, ...rest } = told;
      expect(board).toMatchObject(rest);
      expect(`${title}${text}${left.label}${question?.ask ?? ''}${right?.label ?? ''}`).toMatch(
        /\p{Script=Devanagari}/u,
      );
      expect([title, text, toDo, toWatch].join()).not.toMatch(/\b(the|and|of)\b/);
      expect(question?.answers.length).toBe(board.question?.answers.length);
    }
  });

  test.each(others)('name the metrics in %s as the help does', (language) => {
    speak(language);
    for (const key of Object.keys(METRIC_LABELS) as MetricKey[])
      expect(metricName(key).toLowerCase(), key).toBe(MESSAGES[language].numbers[key].name.toLowerCase());
  });
});

const quiet: Omit<MomentSample, 'time_s'> = {
  torn: [],
  shear_mN: 0,
  stretch_mN: 0,
  drivingRatio: 0,
  gripping: false,
  force_mN: 0,
  sideLoad_mN: 0,
  lostByLoad_share: 0,
};
const series = (parts: readonly Partial<MomentSample>[]): MomentSample[] =>
  parts.map((part, k) => ({ ...quiet, time_s: (k + 1) / 10, ...part }));
const tore = (before: number, after: number, clock_h: number, end = 1): TornEnd => ({
  end,
  length_mm: 0.1,
  offLineBefore_mm: before,
  offLineAfter_mm: after,
  clock_h,
});
const event = (kind: WorldEventKind, time_s: number, clock_h: number | null = 3): WorldEvent => ({
  step: Math.round(60 * time_s),
  time_s,
  kind,
  clock_h,
});
const many = (part: Partial<MomentSample>, count = 20) => Array.from({ length: count }, () => part);
const end = series(many({}, 60));

/** One moment and more of every kind, in every form that the model has a sentence for. */
const moments: readonly CostlyMoment[] = [
  ...costlyMoments(end, [event('run-out', 3)]),
  ...costlyMoments(end, [event('run-out-inevitable', 2), event('run-out', 3, 12.5)]),
  ...costlyMoments(end, [event('run-out', 3, null)]),
  ...costlyMoments(end, [event('near-run-out', 1), event('rescued', 2)]),
  ...costlyMoments(end, [event('near-run-out', 1, null), event('disc-free', 2)]),
  ...costlyMoments(end, [event('near-run-out', 1, 1)]),
  ...costlyMoments(series([{ torn: [tore(0.1, 0.4, 3)] }]), []),
  ...costlyMoments(series([{ torn: [tore(-0.1, -0.4, 3)], shear_mN: 1, stretch_mN: -4 }]), []),
  ...costlyMoments(
    series([
      { torn: [tore(0.1, 0.2, 3)], shear_mN: 9 },
      { torn: [tore(0.2, 0.4, 3.6)], shear_mN: 9 },
    ]),
    [],
  ),
  ...costlyMoments(series(many({ gripping: true, drivingRatio: 0.8 })), []),
  ...costlyMoments(series(many({ gripping: true, force_mN: 31 })), []),
  ...costlyMoments(series(many({ sideLoad_mN: 22, lostByLoad_share: 0.01 })), []),
  ...costlyMoments(end, [event('slipped', 1), event('grasp', 2)]),
  ...costlyMoments(end, [event('grasp-missed', 1, null)]),
];

const opening = { equivalentDiameter_mm: 5.304, circularity: 0.8, opticOverlapSmallest_mm: -0.1 } as OpeningMetrics;
const work = { refills: 0, rmsForce_mN: 30.25, arcPerGrasp_deg: 16 } as WorkMetrics;
const asked = [
  { metric: 'equivalentDiameter_mm', atLeast: 4.7, atMost: 5.3 },
  { metric: 'circularity', atLeast: 0.85 },
  { metric: 'opticOverlapSmallest_mm', atLeast: 0 },
  { metric: 'refills', atLeast: 1 },
  { metric: 'rmsForce_mN', atMost: 40 },
  { metric: 'arcPerGrasp_deg', atLeast: 10, atMost: 20 },
  { metric: 'noSuchMetric', atMost: 1 },
];
const sentences: readonly string[] = [
  ...moments.map(({ sentence }) => sentence),
  ...gradeAttempt(asked, opening, work).map(({ reason }) => reason),
  ...gradeAttempt(asked, null, work).map(({ reason }) => reason),
];

describe('the sentences of the model', () => {
  const english = MESSAGES.en.content.said;

  test('come from every kind of moment and use every template', () => {
    expect(new Set(moments.map(({ kind }) => kind)).size).toBe(7);
    const used = { ...english, sentences: {} as Record<string, string> };
    const unused = Object.entries(english.sentences).filter(([key, template]) => {
      used.sentences = { [key]: template };
      const told = { ...used, sentences: { [key]: 'Ω' } };
      return !sentences.some((sentence) => retold(sentence, { english: used, told, language: 'es' }) === 'Ω');
    });
    expect(unused.map(([key]) => key)).toEqual([]);
  });

  test('come out of the English templates to the letter', () => {
    for (const sentence of sentences)
      expect(retold(sentence, { english, told: english, language: 'en' }).replace('−', '-')).toBe(sentence);
    expect(gradeSentence({ reason: sentences[0] ?? '' })).toBe(sentences[0]);
  });

  test.each(others)('are told in %s with every number, and without an English word', (language) => {
    speak(language);
    for (const sentence of sentences) {
      const told = momentSentence({ sentence });
      expect(told).not.toBe(sentence);
      expect(told, sentence).not.toMatch(/\{\{|\b(the|was|with|from|is|of|it|at|tear|half|past|clock)\b/i);
      // half hours are words in English and may be figures elsewhere
      const numbers = numbersIn(told.replaceAll(':30', ''));
      expect(numbers, told).toEqual(numbersIn(sentence));
    }
  });

  test('write numbers, units, clock hours and names as the language does', () => {
    speak('es');
    const [diameter] = gradeAttempt(asked, opening, work);
    expect(gradeSentence(diameter!)).toBe(
      'Diámetro equivalente: 5,304 mm; no se cumplió: debía ser entre 4,700 y 5,300 mm.',
    );
    expect(momentSentence(moments[1]!)).toContain(' a las 12 y media, 0,00 mm');
    speak('hi');
    expect(momentSentence(moments[1]!)).toContain('12:30 बजे');
  });

  test('that no template knows stand as they are', () => {
    speak('es');
    const odd = 'Something that an older version said 3 times.';
    expect(momentSentence({ sentence: odd })).toBe(odd);
  });
});

const SLOT = /\{\{(\w+)\}\}/g;
const given: Readonly<Record<string, string>> = {
  who: 'Ada Example',
  other: 'Grace',
  id: '1a2b',
  file: 'old-3',
  code: 'EIO',
};
const saidInEnglish = MESSAGES.en.content.said;

/** A template with something in each slot: a number, a name, or the last of its clauses. */
function filledIn(template: string): string {
  return template.replace(SLOT, (_whole, slot: string) => {
    const clauses: Readonly<Record<string, string>> | undefined = Object.entries(saidInEnglish.phrases).find(
      ([name]) => name === slot,
    )?.[1];
    const clause = clauses === undefined ? undefined : Object.values(clauses).at(-1);
    return clause === undefined ? (given[slot] ?? (slot === 'name' ? 'importBundle' : '12')) : filledIn(clause);
  });
}

describe('the lines of the program', () => {
  const root = join(import.meta.dirname, '..', '..', 'src-main');
  const sources = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => readFileSync(join(root, name), 'utf8'))
    .join('\n');

  test('are those that the program has: each longer piece of a template stands in its source', () => {
    // what is counted is put in by the program, with its number
    const gap = /\{\{\w+\}\}|(?:\b1 |\bone )?\b(?:attempts?|scenarios?|people)\b/;
    const pieces = Object.values(saidInEnglish.lines).flatMap((template) => template.split(gap));
    const long = pieces
      .map((piece) => piece.replace(/^[\s.,;:]+|[\s.,;:]+$/g, ''))
      .filter(({ length }) => length >= 15);
    expect(long.length).toBeGreaterThan(35);
    expect(long.filter((piece) => !sources.includes(piece))).toEqual([]);
  });

  test('stay as they are in English', () => {
    for (const template of Object.values(saidInEnglish.lines))
      expect(programLine(filledIn(template))).toEqual({ text: filledIn(template), lang: undefined });
  });

  test.each(others)('are told in %s with their numbers and names', (language) => {
    speak(language);
    for (const template of Object.values(saidInEnglish.lines)) {
      const line = filledIn(template);
      const { text, lang } = programLine(line);
      expect([lang, text === line], line).toEqual([undefined, false]);
      expect(text).not.toMatch(/\{\{|\b(the|was|were|here|this|there)\b/i);
      expect(numbersIn(text), line).toEqual(numbersIn(line));
      for (const name of Object.values(given)) expect(text.includes(name), line).toBe(line.includes(name));
    }
  });

  test('that are not known stay in English and say so; a person’s words in them are not touched', () => {
    speak('es');
    expect(programLine('Something new.\nTaken in: 3 attempts.')).toEqual({
      text: 'Something new.\nIncorporados: 3 intentos.',
      lang: 'en',
    });
    expect(
      programLine('There are two people called A 2-year-old now; the one of the bundle was kept apart.').text,
    ).toContain('llamadas A 2-year-old;');
  });
});

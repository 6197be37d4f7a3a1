/** The words of the checks of the model: that each check has them in every language, and that they say what the check says. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from '@swc/core';
import { describe, expect, test } from 'vitest';
import { allChecks } from '../../physics/index.ts';
import { checkText, checkTextIn } from '../../src-main/words/check-words.ts';
import { inLanguage } from '../../src-main/words/words.ts';
import { LANGUAGES, MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { hasWords, untold } from '../support/check-texts.ts';
import slowTexts from '../support/slow-check-texts.json' with { type: 'json' };

const CHECKS = allChecks();
const others = LANGUAGES.filter((language) => language !== 'en');
const { phrases, any, ...named } = MESSAGES.en.content.checks;
const english: Readonly<Record<string, Readonly<Record<string, string>>>> = named;
const templates = [any, ...Object.values(english)].flatMap((its) => Object.values(its));
const clauses = Object.values(phrases).flatMap((its) => Object.values<string>(its));

const VERIFY = join(import.meta.dirname, '../../physics/verify');
/** Where checks say something, and where they stop and say why. */
const sources = [...globSync('*-checks.ts', { cwd: VERIFY }), 'run-checks.ts', 'sample.ts'].map((file) =>
  readFileSync(join(VERIFY, file), 'utf8'),
);

/** The literal texts of a source, those with something filled in as the pieces round it. */
function literalsOf(source: string): readonly string[] {
  const found: string[] = [];
  const waiting: unknown[] = [parseSync(source, { syntax: 'typescript', target: 'esnext' })];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (typeof next !== 'object' || next === null) continue;
    const node = next as { readonly type?: string; readonly value?: string; readonly quasis?: { cooked: string }[] };
    if (node.type === 'ImportDeclaration') continue;
    if (node.type === 'StringLiteral') found.push(String(node.value));
    if (node.type === 'TemplateLiteral') found.push(...(node.quasis ?? []).map(({ cooked }) => cooked));
    waiting.push(...Object.values(next));
  }
  return found;
}

/** Pieces of at least two words: single ones may be names in the code. */
const piecesOf = (texts: readonly string[]): readonly string[] =>
  texts
    .map((text) => text.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, ''))
    .filter((text) => /\p{L}{2,}[ ,:]+\p{L}{2,}/u.test(text));

const literals = sources.flatMap(literalsOf);

describe('the words of the checks', () => {
  test('are there for each check and for nothing else, and are those of the physics in English', () => {
    expect(Object.keys(english)).toEqual(CHECKS.map(({ name }) => name));
    for (const { name, problem, source } of CHECKS) {
      expect(english[name]?.problem, name).toBe(problem);
      expect(english[name]?.source, name).toBe(hasWords(source) ? source : undefined);
    }
  });

  test('are there for everything that a check says: each longer piece of its source stands in them', () => {
    const words = [...templates, ...clauses].join('\n');
    const pieces = piecesOf(literals);
    expect(pieces.length).toBeGreaterThan(200);
    expect(pieces.filter((piece) => hasWords(piece) && !words.includes(piece))).toEqual([]);
  });

  test('are none of a text that is gone: each longer piece of them stands in a source', () => {
    const said = sources
      .join('\n')
      .replace(/' \+\s*'|` \+\s*['`]|' \+\s*`/g, '')
      .replaceAll("\\'", "'");
    const pieces = piecesOf([...templates, ...clauses].flatMap((text) => text.split(/\{\{\w+\}\}|[:,;] /)));
    expect(pieces.length).toBeGreaterThan(200);
    expect(pieces.filter((piece) => !said.includes(piece))).toEqual([]);
  });

  test('tell everything that the checks said which take too long to run here', () => {
    expect(Object.keys(slowTexts)).toEqual(CHECKS.filter(({ quick }) => !quick).map(({ name }) => name));
    for (const [name, texts] of Object.entries(slowTexts)) {
      expect(texts.length, name).toBeGreaterThan(1);
      expect(untold(name, texts)).toEqual([]);
    }
  });

  test.each(others)('carry in %s the numbers of the English ones', (language) => {
    const numbersIn = (text: string) =>
      (text.replace(/\{\{\w+\}\}/g, '').match(/\d+(?:[.,]\d+)*/g) ?? []).map((found) => found.replace(',', '.')).sort();
    const { phrases: _, ...told } = MESSAGES[language].content.checks;
    const toldBy: Readonly<Record<string, Readonly<Record<string, string>>>> = told;
    for (const [name, its] of Object.entries({ any, ...english }))
      for (const [key, text] of Object.entries(its))
        expect(numbersIn(toldBy[name]?.[key] ?? ''), `${name}.${key}`).toEqual(numbersIn(text));
  });

  test('fill in numbers as the language writes them; ids, seeds and what is no plain number stand as they are', () => {
    const note = 'the vector rule alone turns -19.5 degrees';
    expect(checkTextIn('B16', note, 'es')).toBe('la regla del vector sola gira −19,5 grados');
    expect(checkTextIn('B16', note.replace('-19.5', 'NaN'), 'es')).toBe('la regla del vector sola gira NaN grados');
    expect(
      checkTextIn('B1', 'the solver stopped at a residual of 2.5e-7 mN after 60 iterations, 1e-9 mN wanted', 'hi'),
    ).toBe('हल 60 चक्करों के बाद 2.5e-7 mN शेष बल पर रुक गया; 1e-9 mN चाहिए था');
    expect(checkTextIn('C5', 'odd-hand in odd-eye ended run-out', 'es')).toBe('odd-hand en odd-eye terminó: escape');
    expect(checkTextIn('B23', 'seeds 1 2 3', 'es')).toBe('semillas 1 2 3');
  });

  test('belong to their check; what has none, such as a reference, stands as it is', () => {
    expect(checkTextIn('B17', 'turn under pure shear', 'es')).toBe('turn under pure shear');
    expect(checkTextIn('B7', 'turn under pure shear', 'es')).toBe('giro en cizalla pura');
    for (const text of ['Rivlin 1948', 'N0^2 a/S', 'P = mu (l - l^-2); Treloar'])
      for (const language of LANGUAGES) expect(checkTextIn('A4', text, language)).toBe(text);
    expect(checkText('B7', 'turn under pure shear')).toBe('turn under pure shear');
    expect(inLanguage('hi', () => checkText('B7', 'turn under pure shear'))).toBe('शुद्ध शियर में मुड़ना');
  });
});

describe('a text without words', () => {
  test('is found', () => {
    expect(untold('B7', ['turn under pure shear', 'turn under no shear'])).toEqual(['turn under no shear']);
    expect(['computed', 'Rivlin and Thomas 1953: G = W H0', 'share of the work done'].map(hasWords)).toEqual([
      true,
      true,
      true,
    ]);
    expect(['Rivlin 1948', 'Fung, Biomechanics', 'N0 sqrt(a)', 'kPa', 'mN/mm', 'J/m^2', '1'].some(hasWords)).toBe(
      false,
    );
  });
});

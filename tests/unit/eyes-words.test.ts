/** What Eyes says in other languages: problems of the check of files, numbers, fields. */

import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import type { Problem } from '../../physics/index.ts';
import infant from '../../scenarios/infant-thick-fluid.json' with { type: 'json' };
import { LANGUAGES } from '../../src-renderer/i18n/languages.ts';
import { speak } from '../../src-renderer/i18n/text.ts';
import { checkDraft } from '../../src-renderer/places/eyes/check-draft.ts';
import { shippedDocument, shownDraft } from '../../src-renderer/places/eyes/documents.ts';
import { type Draft, type Json, withValue } from '../../src-renderer/places/eyes/draft.ts';
import { fieldText, limitText } from '../../src-renderer/places/eyes/field-texts.ts';
import { limitsWords } from '../../src-renderer/places/eyes/limits.ts';
import { judged, problemLine } from '../../src-renderer/ui/judged-words.ts';
import { plainNumber } from '../../src-renderer/ui/plain-number.ts';

const DRAFT = infant as unknown as Draft;
afterEach(() => speak('en'));

function problemsOf(changes: readonly (readonly [readonly (string | number)[], Json | undefined])[]): Problem[] {
  const draft = changes.reduce((at, [path, value]) => withValue(at, path, value), DRAFT);
  return [...checkDraft(draft, new Set(['taken'])).problems];
}

/** One of every kind of problem that a person can make in the editor, and files can bring. */
const KINDS: readonly Problem[] = [
  ...problemsOf([
    [['eye', 'age_years'], 'young'],
    [['eye', 'overrides', 'thickness_um'], 0],
    [['eye', 'dyed'], 'blue'],
    [['target', 'diameter_mm'], 8],
    [['start', 'radius_mm'], 2.5],
    [['start', 'innerRadius_mm'], 2.5],
    [['start', 'arc_deg'], 2],
    [['title'], ''],
    [['brief'], 'x'.repeat(2000)],
    [['id'], 'Not An Id'],
    [['incisions'], []],
    [['aids'], 'none'],
    [['colour'], 1],
    [['seed'], -1],
  ]),
  ...problemsOf([[['start', 'radius_mm'], 3.2]]),
  ...problemsOf([[['start', 'outward_mm'], 2.5]]),
  ...problemsOf([[['seed'], 1.5]]),
  ...problemsOf([[['incisions'], Array.from({ length: 9 }, () => ({ clock_h: 2, width_mm: 1 }))]]),
  ...problemsOf([
    [['id'], 'taken'],
    [['tolerances', 0], { metric: 'circularity' }],
    [['tolerances', 1], { metric: 'circularity', atLeast: 2, atMost: 1 }],
    [['tolerances', 2], { metric: 'beauty', atLeast: 1 }],
    [['title'], undefined],
    [['incisions', 0, 'clock_h'], 13],
  ]),
];

/** What is the same in every language: values that were found, and the words that a file itself must hold. */
const isValue = (phrase: string): boolean => /^(-?[\d.e+]+|".*"|true|false|null)$/s.test(phrase);

describe('what is wrong with a scenario', () => {
  it('is told as the check says it in English', () => {
    for (const problem of KINDS) expect(judged(problem)).toEqual(problem);
  });

  it.each(LANGUAGES.filter((one) => one !== 'en'))('is told in words of %s, whatever is wrong', (language) => {
    expect(KINDS.length).toBeGreaterThan(20);
    speak(language);
    const english = KINDS.flatMap((problem) => {
      const told = judged(problem);
      const parts = ['found', 'allowed'] as const;
      return parts.filter((part) => !isValue(problem[part]) && told[part] === problem[part]).map((part) => told[part]);
    });
    expect(english).toEqual([]);
    fc.assert(
      fc.property(fc.constantFrom('age_years', 'dyed', 'lensOffset_mm', 'overrides'), fc.jsonValue(), (key, value) => {
        for (const problem of problemsOf([[['eye', key], value as Json]]))
          if (!isValue(problem.allowed)) expect(judged(problem).allowed).not.toBe(problem.allowed);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it('keeps its numbers, written as the language writes them', () => {
    const problem = { file: 'f', path: 'eye.age_years', found: '0.25', allowed: 'at least 0.5' };
    speak('es');
    expect(problemLine(problem)).toBe('Encontrado: 0,25; se admite: al menos 0,5');
  });
});

describe('numbers and fields', () => {
  it('follow the language', () => {
    expect([0.5, 3, -2.25, 0.07126].map(plainNumber)).toEqual(['0.5', '3', '−2.25', '0.0713']);
    speak('es');
    expect(plainNumber(0.5)).toBe('0,5');
    expect(limitsWords({ low: 0.5, high: 95, above: false }, 'mm')).toBe('0,5 a 95\u00a0mm');
    expect(fieldText(['incisions', 3, 'width_mm']).label).toBe('Anchura');
    expect(fieldText(['eye', 'lensOffset_mm', 1]).source).toContain('elección');
    speak('hi');
    expect(limitsWords({ low: 0, high: 100, above: true }, 'µm')).toBe('0 से अधिक, 100\u00a0µm तक');
    expect(limitText('grasps').tag).toBe('assumed');
  });

  it('show a shipped scenario in the language, and one’s own as it was written', () => {
    const scenario = infant as unknown as Parameters<typeof shippedDocument>[0];
    const shipped = shippedDocument(scenario);
    expect(shownDraft(shipped)).toEqual(DRAFT);
    speak('es');
    expect(shownDraft({ ...shipped, kind: 'own' })).toEqual(DRAFT);
  });
});

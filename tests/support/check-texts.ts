/** What the rows of checks say, and which of it a language has no words for. */
import type { CheckRow } from '../../physics/index.ts';
import { checkTextIn } from '../../src-main/words/check-words.ts';
import { LANGUAGES } from '../../src-renderer/i18n/languages.ts';

const others = LANGUAGES.filter((language) => language !== 'en');

/** Names begin with a capital; these are signs of formulas and units. */
const SIGNS = /\b(mm|um|mu|nu|dp|pi|al|ph|th|deg|sqrt|sin|cos|tan|atan|const)\b/g;

/** True for a text that says something; false for references, formulas and units. */
export const hasWords = (text: string): boolean => /(?<![\p{L}])\p{Ll}{2,}/u.test(text.replace(SIGNS, ''));

/** Everything that a person may read of a row. */
export const textsOfRow = ({ problem, source, quantity, unit, note, knownMiss }: CheckRow): readonly string[] =>
  [problem, source, quantity, unit, note, knownMiss?.reason].filter(
    (text): text is string => text !== undefined && hasWords(text),
  );

/** The texts of a check that stay as they are in one of the languages, or whose English words do not come back the same. */
export const untold = (name: string, texts: readonly string[]): readonly string[] =>
  texts.filter(
    (text) =>
      others.some((language) => checkTextIn(name, text, language) === text) ||
      checkTextIn(name, text, 'en').replaceAll('−', '-') !== text,
  );

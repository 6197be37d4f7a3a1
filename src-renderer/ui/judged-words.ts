/** What the checks of files say is wrong, in the person's language. The checks themselves know English only. */
import type { Problem } from '../../physics/index.ts';
import { MESSAGES } from '../i18n/languages.ts';
import { patternSource } from '../i18n/template.ts';
import { t, useLanguage } from '../i18n/text.ts';
import { plainNumber } from './plain-number.ts';

type Judged = keyof typeof MESSAGES.en.common.judged;

const SLOTS: Readonly<Record<string, string>> = { limit: '-?\\d+(?:\\.\\d+)?', field: '\\S+', text: '.+' };
/** An English template as a pattern with a named group for each of its slots. */
const patternOf = (template: string): RegExp =>
  new RegExp(`^${patternSource(template, (slot) => `(?<${slot}>${SLOTS[slot]})`)}$`);

const PATTERNS = Object.entries(MESSAGES.en.common.judged).map(
  ([key, text]) => [key as Judged, patternOf(text)] as const,
);

/** One phrase of the check. What no template fits, such as a word that was found, stands as it is. */
function judgedWords(phrase: string): string {
  if (useLanguage.getState().language === 'en') return phrase;
  if (/^-?\d{1,15}(\.\d{1,4})?$/.test(phrase)) return plainNumber(Number(phrase));
  for (const [key, pattern] of PATTERNS) {
    const slots = pattern.exec(phrase)?.groups;
    if (slots === undefined && !pattern.test(phrase)) continue;
    const { limit, field, text } = slots ?? {};
    return t(`common.judged.${key}`, { limit: limit === undefined ? '' : plainNumber(Number(limit)), field, text });
  }
  return phrase;
}

/** A problem with what was found and what is allowed in the person's language. */
export const judged = (problem: Problem): Problem => ({
  ...problem,
  found: judgedWords(problem.found),
  allowed: judgedWords(problem.allowed),
});

/** Problem of a field as its line under the field. */
export function problemLine(problem: Problem): string {
  const { found, allowed } = judged(problem);
  return t('eyes.problems.line', { found, allowed });
}

/** What the checks of files say is wrong, in the person's language. The checks themselves know English only. */
import type { Problem } from '../../physics/index.ts';
import { MESSAGES } from '../i18n/languages.ts';
import { phraseAgain, problemAgain } from '../i18n/retold.ts';
import { t, useLanguage } from '../i18n/text.ts';

/** One phrase of the check. What no template fits, such as a word that was found, stands as it is. */
function judgedWords(phrase: string): string {
  const { language } = useLanguage.getState();
  if (language === 'en') return phrase;
  return phraseAgain(phrase, { english: MESSAGES.en.common.judged, told: MESSAGES[language].common.judged, language });
}

/** A problem with what was found and what is allowed in the person's language. */
export const judged = (problem: Problem): Problem => problemAgain(problem, judgedWords);

/** Problem of a field as its line under the field. */
export function problemLine(problem: Problem): string {
  const { found, allowed } = judged(problem);
  return t('eyes.problems.line', { found, allowed });
}

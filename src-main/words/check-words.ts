/**
 * What the checks of the model say, told to a person. The physics has it in English, which is what JSON carries in every language; it
 * is told again as the model's sentences are, by the templates that lie under the check's name.
 */
import { type Language, MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { retold, type Templates } from '../../src-renderer/i18n/retold.ts';
import { spokenLanguage } from './words.ts';

const templates = new Map<string, Templates>();

/** Templates of a check in a language, those that any check may use among them; made once, as each row is tried against them. */
function templatesOf(name: string, language: Language): Templates {
  const known = templates.get(`${language} ${name}`);
  if (known !== undefined) return known;
  const { checks, said } = MESSAGES[language].content;
  const { phrases, any, ...named } = checks;
  const own = Object.entries(named).find(([key]) => key === name)?.[1] ?? {};
  const made = { sentences: { ...any, ...own }, lines: {}, phrases, clock: said.clock };
  templates.set(`${language} ${name}`, made);
  return made;
}

/** A text of a check, by the check's name, in a language; itself when no template fits, such as a reference or a unit. */
export function checkTextIn(name: string, text: string, language: Language): string {
  const [english, told] = [templatesOf(name, 'en'), templatesOf(name, language)];
  return retold(text, { english, told, language });
}

/** The same in the language that is spoken. */
export function checkText(name: string, text: string): string {
  const language = spokenLanguage();
  return language === 'en' ? text : checkTextIn(name, text, language);
}

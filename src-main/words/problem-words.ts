/**
 * What is wrong with files and arguments, told to a person. Problems are made in English, which is what JSON carries in every
 * language; they are told again, by the page's own sentences, when they are printed.
 */
import type { Problem } from '../../physics/index.ts';
import { MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { phraseAgain, problemAgain, retold } from '../../src-renderer/i18n/retold.ts';
import { spokenLanguage } from './words.ts';

const { en } = MESSAGES;
const ENGLISH = { ...en.common.judged, ...en.content.terminal.phrases };

export type PhraseKey = keyof typeof ENGLISH;
type Values = Readonly<Record<string, string | number>>;

const filled = (template: string, values: Values): string =>
  template.replace(/\{\{(\w+)\}\}/g, (_whole, slot: string) => String(values[slot] ?? ''));

/** A phrase in English, to stand in a problem or in what goes out as JSON. */
export const phrase = (key: PhraseKey, values: Values = {}): string => filled(ENGLISH[key], values);

/** Such a phrase, or a line with which the store refuses, in the language that is spoken. */
export function toldPhrase(text: string): string {
  const language = spokenLanguage();
  if (language === 'en') return text;
  const { common, content } = MESSAGES[language];
  const again = phraseAgain(text, {
    english: ENGLISH,
    told: { ...common.judged, ...content.terminal.phrases },
    language,
  });
  if (again === text) return retold(text, { english: en.content.said, told: content.said, language }, 'lines');
  // what is allowed is typed: with the hyphen that every keyboard has
  return again.replace(/−(?=\d)/g, '-');
}

/** A problem as a line in the language that is spoken. */
export function problemLine(problem: Problem): string {
  const { file, path, found, allowed } = problemAgain(problem, toldPhrase);
  const { inFile, line } = MESSAGES[spokenLanguage()].common.problem;
  const named = file === phrase('commandLine') ? toldPhrase(file) : file;
  const place = path === '' ? named : filled(inFile, { file: named, path });
  return filled(line, { place, found, allowed });
}

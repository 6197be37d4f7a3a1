import type { Language } from './languages.ts';

/** The letters that a language needs beyond those of every system, as style sheet and canvas name them. */
const LETTERS: Readonly<Partial<Record<Language, string>>> = { hi: '"Noto Sans Devanagari"' };

/** Whether a language has letters that a system may lack. */
export const needsLetters = (language: Language): boolean => LETTERS[language] !== undefined;

/** What is drawn on a canvas is not drawn anew when its letters arrive, so they are brought in before the language speaks. */
export async function bringLetters(language: Language): Promise<void> {
  const family = LETTERS[language];
  if (family === undefined) return;
  const weights = ['400', '600'].map((weight) => document.fonts.load(`${weight} 16px ${family}`, 'क'));
  // letters that do not come are no reason to stay silent: the system may have its own
  await Promise.allSettled(weights);
}

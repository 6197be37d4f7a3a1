/**
 * The languages: one file each, named by its code. English is the reference that the others are held to. What ships as data stays in
 * English in its own files; the other languages tell it under `shipped`, by the English text. A further language is one file and its
 * two lines here.
 */
import en from './languages/en.json' with { type: 'json' };
import es from './languages/es.json' with { type: 'json' };
import hi from './languages/hi.json' with { type: 'json' };

export type Messages = typeof en;
type Told = Messages & { readonly shipped: Readonly<Record<string, string>> };

const messagesOf = ({ shipped: _, ...messages }: Told): Messages => messages;

export const MESSAGES = { en, es: messagesOf(es), hi: messagesOf(hi) };

/** Texts of shipped data and of the model: English text to translation, line by line. */
export const SHIPPED_TEXTS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  es: es.shipped,
  hi: hi.shipped,
};

export type Language = keyof typeof MESSAGES;

export const LANGUAGES = Object.keys(MESSAGES) as readonly Language[];

/** The first of the wanted languages that is one of ours; "es-MX" is Spanish. English where there is none. */
export function languageOf(wanted: readonly unknown[]): Language {
  for (const tag of wanted) {
    const found = LANGUAGES.find((language) => typeof tag === 'string' && language === tag.toLowerCase().split('-')[0]);
    if (found !== undefined) return found;
  }
  return 'en';
}

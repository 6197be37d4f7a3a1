/**
 * Every word that a person reads comes from here. English is the reference: a key that it lacks does not compile, and a
 * language that lacks one of its keys fails a test, so the fall back to English is for nobody but us.
 */
import i18next from 'i18next';
import { initReactI18next } from 'react-i18next';
import { create } from 'zustand';
import { LANGUAGES, type Language, languageOf, MESSAGES } from './languages.ts';

void i18next.use(initReactI18next).init({
  lng: 'en',
  fallbackLng: 'en',
  // plain nested objects, no second lookup by name space
  resources: Object.fromEntries(LANGUAGES.map((language) => [language, { translation: MESSAGES[language] }])),
  // React escapes what it shows; escaping twice would show the signs of the escape
  interpolation: { escapeValue: false },
  initAsync: false,
});

/**
 * The text of a key in the person's language. `{{name}}` in a text is filled from the second argument; a text with `_one` and
 * `_other` is chosen by `count`. To be called when something is drawn, never when a module loads: the language may change.
 */
export const t = i18next.t.bind(i18next);

/** The language in use. Whatever draws outside React listens here and draws anew. */
export const useLanguage = create<{ readonly language: Language }>(() => ({
  language: languageOf(globalThis.navigator?.languages ?? []),
}));

export const direction = (language: Language): 'ltr' | 'rtl' => (i18next.dir(language) === 'rtl' ? 'rtl' : 'ltr');

function apply(language: Language): void {
  void i18next.changeLanguage(language);
  if (globalThis.document === undefined) return;
  document.documentElement.lang = language;
  document.documentElement.dir = direction(language);
}

apply(useLanguage.getState().language);

/** Changes the language of the whole page at once; nothing under way is lost. */
export function speak(language: Language): void {
  apply(language);
  useLanguage.setState({ language });
}

/**
 * What the program around the page says by itself, in reports, menus, dialogs and at the command line, from the page's own message files. There
 * is one language at a time; a report, which is made in one go, sets its own around itself.
 */
import i18next from 'i18next';
import { clockWords } from '../../physics/index.ts';
import { LANGUAGES, type Language, MESSAGES, type Messages } from '../../src-renderer/i18n/languages.ts';
import { clock, retold } from '../../src-renderer/i18n/retold.ts';
import { shippedText } from '../../src-renderer/i18n/shipped-texts.ts';

type Path<T, P extends string> = T extends string
  ? P
  : { [K in keyof T & string]: Path<T[K], P extends '' ? K : `${P}.${K}`> }[keyof T & string];
type Singular<K> = K extends `${infer S}_one` | `${infer S}_other` ? S : K;
/** A key of the messages' part `content`; one with plural forms is chosen by `count`. */
export type WordKey = Singular<Path<Pick<Messages['content'], 'report' | 'window' | 'terminal'>, ''>>;

const words = i18next.createInstance({
  lng: 'en',
  fallbackLng: 'en',
  resources: Object.fromEntries(LANGUAGES.map((language) => [language, { translation: MESSAGES[language].content }])),
  // what is put into a page is escaped there
  interpolation: { escapeValue: false },
  initAsync: false,
});
void words.init();
// The page declares types of its own for the same library, of keys that are not here.
const looked = words.t.bind(words) as unknown as (key: string, values: object) => string;

let spoken: Language = 'en';

export const spokenLanguage = (): Language => spoken;

/** From now on. */
export function speak(language: Language): void {
  spoken = language;
}

/** What `make` makes, in a language. It must be done when it returns: nothing that waits. */
export function inLanguage<T>(language: Language, make: () => T): T {
  const before = spoken;
  spoken = language;
  try {
    return make();
  } finally {
    spoken = before;
  }
}

/** The words of a key in the language that is spoken, `{{name}}` filled from `values`. */
export const t = (key: WordKey, values: Readonly<Record<string, string | number>> = {}): string =>
  looked(key, { ...values, lng: spoken });

/** A text of shipped data or of the model; itself where it has no translation. */
export const textOf = (text: string): string => shippedText(text, spoken);

/** Who played an attempt that no person of the logbook made: the command line. Kept in English; `playerOf` tells it. */
export const NOBODY = { id: 'command-line', name: 'Command line' };

/** The name of who played an attempt, as it is shown. */
export const playerOf = ({
  personId,
  personName,
}: {
  readonly personId: string;
  readonly personName: string;
}): string => (personId === NOBODY.id ? t('terminal.nobody') : personName);

/** A unit of the model beside a number: nothing where the number has none. */
export const unitOf = (unit: string): string =>
  unit === '1' ? '' : unit === 'deg' ? t('terminal.degrees') : textOf(unit);

/** A sentence of the model, told again. */
export function sentenceOf(sentence: string): string {
  if (spoken === 'en') return sentence;
  return retold(sentence, { english: MESSAGES.en.content.said, told: MESSAGES[spoken].content.said, language: spoken });
}

/** A clock hour as people say it, to the half hour. */
export const clockOf = (clock_h: number): string => clock(clockWords(clock_h), { told: MESSAGES[spoken].content.said });

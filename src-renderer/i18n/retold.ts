/**
 * Sentences of the model and lines of the program, told again in another language. Both are plain English with numbers in it; the
 * English templates are matched against such a sentence, and what stood in their slots is put into the template of the
 * language. A sentence that no template fits, such as one of an older version, stands as it is.
 */
import { shippedText } from './shipped-texts.ts';
import { patternSource, SLOT } from './template.ts';

/** One language's templates. */
export interface Templates {
  /** Whole sentences with `{{slots}}`. */
  readonly sentences: Readonly<Record<string, string>>;
  /** Lines that the program around the page has for the person. */
  readonly lines: Readonly<Record<string, string>>;
  /** Clauses that a slot of the same name may hold. */
  readonly phrases: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** Whole and half hours; one o'clock has its own form where the language asks for it. */
  readonly clock: Readonly<Record<'whole' | 'half' | 'wholeOne' | 'halfOne', string>>;
}

/** Clauses that may be missing. */
const OPTIONAL: readonly string[] = ['place', 'sure', 'unit'];
/** Slots that hold names, which are looked up among the shipped texts. */
const NAMES: Readonly<Record<string, string>> = { label: '[^;]+?', unit: ' [^ ;.]+', name: '\\S+?' };
/** Slots that hold what a person or the program wrote: it stays as it is. */
const FREE: readonly string[] = [
  ...['who', 'other', 'id', 'file', 'code'],
  // of the checks of the model
  ...['scenario', 'hand', 'fluid', 'trainee', 'digest', 'keptDigest', 'mode', 'seeds'],
];
const CLOCK = 'half past \\d+|\\d+ o’clock';
const NUMBER = '[−-]?(?:\\d+(?:\\.\\d+)?(?:e[+-]?\\d+)?|Infinity)|NaN';
const isClock = (slot: string): boolean => /clock$/i.test(slot);

const patterns = new WeakMap<Templates, Map<string, RegExp>>();

/** A template as a pattern whose groups are its slots; made once, as every sentence is tried against many. */
function patternOf(template: string, english: Templates): RegExp {
  const known = patterns.get(english) ?? new Map<string, RegExp>();
  patterns.set(english, known);
  const made = known.get(template) ?? new RegExp(`^${patternSource(template, (slot) => group(slot, english))}$`);
  known.set(template, made);
  return made;
}

function group(slot: string, english: Templates): string {
  const clauses = english.phrases[slot];
  const inner =
    clauses !== undefined
      ? Object.values(clauses)
          .map((clause) => patternSource(clause, (inside) => `(?:${group(inside, english).slice(1, -1)})`))
          .join('|')
      : (NAMES[slot] ?? (FREE.includes(slot) ? '.+?' : isClock(slot) ? CLOCK : NUMBER));
  return OPTIONAL.includes(slot) ? `(${inner}|)` : `(${inner})`;
}

/** What stands in the slots of a text that was made from a template; null when it was not. */
function slotsOf(text: string, template: string, english: Templates): ReadonlyMap<string, string> | null {
  const found = patternOf(template, english).exec(text);
  if (found === null) return null;
  const names = [...template.matchAll(SLOT)].map(([, name]) => name);
  return new Map(names.map((name, at) => [name, found[at + 1]]));
}

export interface Teller {
  readonly english: Templates;
  readonly told: Templates;
  readonly language: string;
}

/** A clock hour in words, such as "half past 12", told again. */
export function clock(text: string, { told }: Pick<Teller, 'told'>): string {
  const hour = /\d+/.exec(text)?.[0] ?? '';
  const form = `${text.startsWith('half') ? 'half' : 'whole'}${hour === '1' ? 'One' : ''}` as const;
  return told.clock[form].replace('{{hour}}', hour);
}

/** A number with as many decimals as it was written with; with an exponent, or not finite, it stands as it is. */
export function numberAgain(text: string, language: string): string {
  if (!/^[−-]?\d+(\.\d+)?$/.test(text)) return text;
  const decimals = text.split('.')[1]?.length ?? 0;
  const format = new Intl.NumberFormat(`${language}-u-nu-latn`, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  });
  return format.format(Number(text.replace('−', '-'))).replace('-', '−');
}

function named(slot: string, text: string, { language }: Teller): string {
  const words = text.trim();
  const known = shippedText(words, language);
  const found = known === words ? shippedText(words.charAt(0).toLowerCase() + words.slice(1), language) : known;
  const same = found.toLowerCase() === words.toLowerCase() ? words : found;
  const isCapital = slot === 'label' && /^\p{Lu}/u.test(words);
  return text.replace(words, () => (isCapital ? same.charAt(0).toUpperCase() + same.slice(1) : same));
}

function slotAgain(slot: string, text: string, teller: Teller): string {
  if (text === '') return '';
  const { english, told, language } = teller;
  const clauses = english.phrases[slot];
  if (clauses !== undefined) {
    for (const [key, clause] of Object.entries(clauses)) {
      const slots = slotsOf(text, clause, english);
      if (slots !== null) return filled(told.phrases[slot][key], slots, teller);
    }
    return text;
  }
  if (Object.hasOwn(NAMES, slot)) return named(slot, text, teller);
  if (FREE.includes(slot)) return text;
  return isClock(slot) ? clock(text, teller) : numberAgain(text, language);
}

const filled = (template: string, slots: ReadonlyMap<string, string>, teller: Teller): string =>
  template.replace(SLOT, (_whole, slot: string) => slotAgain(slot, slots.get(slot) ?? '', teller));

/**
 * A sentence of the model, or a line of the program, in the teller's language; itself when it fits no template.
 *
 * @param among which templates it may be made from
 */
export function retold(sentence: string, teller: Teller, among: 'sentences' | 'lines' = 'sentences'): string {
  for (const [key, template] of Object.entries(teller.english[among])) {
    const slots = slotsOf(sentence, template, teller.english);
    if (slots !== null) return filled(teller.told[among][key], slots, teller);
  }
  return sentence;
}

/** Short phrases of the checks, such as "at most {{limit}}", by key in both languages. */
export interface PhraseTeller {
  readonly english: Readonly<Record<string, string>>;
  readonly told: Readonly<Record<string, string>>;
  readonly language: string;
}

const PHRASE_NUMBER = '-?\\d+(?:\\.\\d+)?';
/** What the slots of phrases hold: numbers, one word, or anything. */
const PHRASE_SLOTS: Readonly<Record<string, string>> = {
  limit: PHRASE_NUMBER,
  from: PHRASE_NUMBER,
  to: PHRASE_NUMBER,
  most: PHRASE_NUMBER,
  field: '\\S+',
  unit: '\\S+',
  kind: '\\S+',
  given: '\\S+',
  text: '.+',
};

/** Slots whose word is a phrase itself: years, a kind of value. */
const WORDS: readonly string[] = ['unit', 'kind', 'given'];

const phrasePatterns = new WeakMap<PhraseTeller['english'], readonly (readonly [string, RegExp])[]>();

/** The English phrases as patterns with a named group for each slot; made once. */
function phrasePatternsOf(english: PhraseTeller['english']): readonly (readonly [string, RegExp])[] {
  const known = phrasePatterns.get(english);
  if (known !== undefined) return known;
  const made = Object.entries(english).map(([key, text]) => {
    const source = patternSource(text, (slot) => `(?<${slot}>${PHRASE_SLOTS[slot]})`);
    return [key, new RegExp(`^${source}$`)] as const;
  });
  phrasePatterns.set(english, made);
  return made;
}

/** A number with as many decimals as it has, up to four. */
const shortNumberAgain = (text: string, language: string): string =>
  numberAgain(String(Number(Number(text).toFixed(4))), language);

/**
 * What a check found or allows, in the teller's language. What no phrase fits, such as a word that stood in the file, stands
 * as it is.
 */
export function phraseAgain(phrase: string, teller: PhraseTeller): string {
  const { english, told, language } = teller;
  if (/^-?\d{1,15}(\.\d{1,4})?$/.test(phrase)) return shortNumberAgain(phrase, language);
  for (const [key, pattern] of phrasePatternsOf(english)) {
    const found = pattern.exec(phrase);
    if (found === null) continue;
    return told[key].replace(SLOT, (_whole, slot: string) => {
      const text = found.groups?.[slot] ?? '';
      if (WORDS.includes(slot)) return phraseAgain(text, teller);
      return PHRASE_SLOTS[slot] === PHRASE_NUMBER ? shortNumberAgain(text, language) : text;
    });
  }
  return phrase;
}

/** A problem with what was found and what is allowed told again, and its place where that is a line of a text. */
export function problemAgain<P extends { readonly path: string; readonly found: string; readonly allowed: string }>(
  problem: P,
  tell: (phrase: string) => string,
): P {
  const { path, found, allowed } = problem;
  return { ...problem, path: /^line \d+$/.test(path) ? tell(path) : path, found: tell(found), allowed: tell(allowed) };
}

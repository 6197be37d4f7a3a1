/** What must hold for the messages of a language beside those of English. */

/** Messages in messages, texts at the ends. */
export interface MessageTree {
  readonly [key: string]: string | MessageTree;
}

/** Texts by their whole key. */
export function textsOf(tree: MessageTree, under = ''): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const [key, value] of Object.entries(tree)) {
    const path = under === '' ? key : `${under}.${key}`;
    if (typeof value === 'string') found.set(path, value);
    else for (const [inner, text] of textsOf(value, path)) found.set(inner, text);
  }
  return found;
}

/** What is filled in, and the tags. Angle brackets without a closing tag stand for what a person types, such as <file>. */
const placeholders = (text: string): string =>
  [...text.matchAll(/\{\{\s*(\w+)[^}]*\}\}|\$t\(([^)]*)\)|<(\w+)\/>|<(\w+)>(?=.*<\/\4>)/gs)]
    .map(([whole, name, nested, lone, tag]) => name ?? nested ?? lone ?? tag ?? whole)
    .filter((name, at, all) => all.indexOf(name) === at)
    .sort()
    .join(', ');

const plural = /_(one|other)$/;

/** A text that has no words of its own: signs, units and what is filled in. */
function isWordless(text: string): boolean {
  const words = text
    .replace(/\{\{[^}]*\}\}|\$t\([^)]*\)/g, '')
    .replace(/\b(mm|mN|mmHg|Pa|MPa|µm|s|px|MB|PNG|WebM|CSV|HTML|JSON|PDF|SVG|CUSUM|RMS|Ctrl|Esc|Rimward)\b/g, '');
  return !/\p{L}{2}/u.test(words);
}

/**
 * Everything that is wrong with the messages of one language, a line each; empty when it is whole.
 * @param same keys whose text may be the same as in English, such as names
 */
export function messageFaults(english: MessageTree, other: MessageTree, same: ReadonlySet<string>): readonly string[] {
  const [wanted, found] = [textsOf(english), textsOf(other)];
  const faults = [...found.keys()].filter((key) => !wanted.has(key)).map((key) => `${key}: not in English`);
  for (const [key, text] of wanted) {
    const its = found.get(key);
    if (its === undefined) faults.push(`${key}: missing`);
    else if (its.trim() === '') faults.push(`${key}: empty`);
    else faults.push(...textFaults(key, text, its, same.has(key)));
  }
  return faults;
}

function textFaults(key: string, english: string, its: string, mayBeSame: boolean): readonly string[] {
  const faults: string[] = [];
  // "one thing" may say its number in words or leave it out
  const asked = (text: string) =>
    plural.test(key) ? placeholders(text).replace(/(^|, )count(?=,|$)/, '') : placeholders(text);
  if (asked(english) !== asked(its)) faults.push(`${key}: fills in [${asked(its)}], English [${asked(english)}]`);
  if (its === english && !mayBeSame && !isWordless(english)) faults.push(`${key}: left in English: ${its}`);
  return faults;
}

/** Keys of plurals without their ending that lack one of the forms. */
export function halfPlurals(tree: MessageTree): readonly string[] {
  const keys = new Set(textsOf(tree).keys());
  return [...keys]
    .filter((key) => plural.test(key))
    .map((key) => key.replace(plural, ''))
    .filter((base) => !keys.has(`${base}_one`) || !keys.has(`${base}_other`));
}

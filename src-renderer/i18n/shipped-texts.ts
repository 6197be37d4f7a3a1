/**
 * Texts of shipped data and of the model in other languages, by the English text itself: a text that was changed, in the
 * program or by the person who made a copy, finds no translation and stands as it is. So nothing stale is ever shown.
 */
import { SHIPPED_TEXTS } from './languages.ts';

/** What Markdown puts before the words of a line. */
const MARKER = /^(?:#{1,6} |\d+\. |- )/;

/** The words of a text's lines as they are looked up, each once and without its Markdown marker; empty lines left out. */
export function linesOf(text: string): readonly string[] {
  const lines = text.split('\n').map((line) => line.replace(MARKER, ''));
  return [...new Set(lines.filter((line) => line.trim() !== ''))];
}

/**
 * A text in a language, line by line; a mixture is never given.
 *
 * @returns the text itself in English, or when any of its lines has no translation
 */
export function shippedText(text: string, language: string): string {
  const known = SHIPPED_TEXTS[language];
  if (known === undefined) return text;
  const lines: string[] = [];
  for (const line of text.split('\n')) {
    const marker = MARKER.exec(line)?.[0] ?? '';
    const words = line.slice(marker.length);
    if (words.trim() === '') lines.push(line);
    else if (Object.hasOwn(known, words)) lines.push(marker + known[words]);
    else return text;
  }
  return lines.join('\n');
}

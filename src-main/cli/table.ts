import { numberAgain } from '../../src-renderer/i18n/retold.ts';
import { spokenLanguage } from '../words/words.ts';

/**
 * Columns of a terminal that a text takes: one for each character but those that are drawn over another one, as the vowel signs
 * above and below the letters of Hindi. Terminals that count whole syllables draw such a column a little narrower.
 */
const widthOf = (text: string): number => [...text.replace(/[\p{Mn}\p{Me}\p{Cf}]/gu, '')].length;

/** A text with blanks behind it, `width` columns in all. */
export const padded = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));

/** Columns that the widest of some texts takes. */
export const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map(widthOf));

/** Rows as aligned columns; the last column is not padded. */
export function table(rows: readonly (readonly string[])[], indent = ''): string {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, at) => widest(rows.map((row) => row[at] ?? '')));
  const lines = rows.map(
    (row) => indent + row.map((cell, at) => (at === row.length - 1 ? cell : padded(cell, widths[at]))).join('  '),
  );
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

/** Digits as the spoken language writes them; in English, and with an exponent, they stand as they are. */
export function digits(text: string): string {
  const language = spokenLanguage();
  return language === 'en' ? text : numberAgain(text, language);
}

/** A number for a person with so many decimals. */
export const fixed = (value: number, decimals: number): string => digits(value.toFixed(decimals));

/** A number for a person: four significant digits at most, never an exponent in the range of an eye. */
export function figure(value: number): string {
  if (Number.isInteger(value)) return digits(String(value));
  return digits(Math.abs(value) >= 1000 ? value.toFixed(0) : String(Number(value.toPrecision(4))));
}

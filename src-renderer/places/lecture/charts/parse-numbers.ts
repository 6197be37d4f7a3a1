import { bad, ok, type Result } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { number } from '../../../ui/format.ts';

export interface NumberLimits {
  /** Name of the field, with its unit. */
  readonly field: string;
  readonly from: number;
  readonly to: number;
  /** Most numbers. */
  readonly most: number;
}

/** Whether the language writes 0.5 with a comma: then a comma is no mark between numbers. */
const hasDecimalComma = (): boolean => number(0.5, 1).includes(',');

/** A number with the decimals it has, as the language writes it. */
export function asWritten(value: number): string {
  const [, decimals = ''] = String(value).split('.');
  return number(value, decimals.length);
}

/** Numbers as they are typed into a field. */
export const writtenNumbers = (values: readonly number[]): string =>
  values.map(asWritten).join(hasDecimalComma() ? '; ' : ', ');

/**
 * Numbers with commas, semicolons or spaces between them, sorted, each once; or every problem. Where the language writes
 * decimals with a comma, commas stand inside numbers only; a point is taken for a decimal point everywhere.
 */
export function parseNumbers(text: string, { field, from, to, most }: NumberLimits): Result<readonly number[]> {
  const allowed = t('lecture.ages.allowed', { most, from, to });
  const problem = (found: string) => ({ file: t('lecture.ages.form'), path: field, found, allowed });
  const parts = text.split(hasDecimalComma() ? /[\s;]+/u : /[\s,;]+/u).filter((part) => part !== '');
  const wrong = parts.filter((part) => !/^[-−]?\d+([.,]\d+)?$/u.test(part) || !within(part, from, to));
  if (wrong.length > 0) return bad(wrong.map((part) => problem(`"${part.slice(0, 40)}"`)));
  const values = [...new Set(parts.map(valueOfText))].sort((a, b) => a - b);
  return values.length >= 1 && values.length <= most
    ? ok(values)
    : bad([problem(t('lecture.ages.numbersFound', { count: values.length }))]);
}

const valueOfText = (part: string): number => Number(part.replace('−', '-').replace(',', '.'));
const within = (part: string, from: number, to: number): boolean => {
  const value = valueOfText(part);
  return value >= from && value <= to;
};

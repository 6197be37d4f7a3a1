import { bad, ok, type Result } from '../../../../physics/index.ts';

export interface NumberLimits {
  readonly field: string;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  /** Most numbers. */
  readonly most: number;
}

/** Numbers with commas or spaces between them, sorted, each once; or every problem. */
export function parseNumbers(text: string, { field, from, to, unit, most }: NumberLimits): Result<readonly number[]> {
  const allowed = `1 to ${most} numbers from ${from} to ${to} ${unit}, with commas between them`;
  const problem = (found: string) => ({ file: 'the form', path: field, found, allowed });
  const parts = text.split(/[\s,;]+/u).filter((part) => part !== '');
  const wrong = parts.filter((part) => !/^[-−]?\d+(\.\d+)?$/u.test(part) || !within(part, from, to));
  if (wrong.length > 0) return bad(wrong.map((part) => problem(`"${part.slice(0, 40)}"`)));
  const values = [...new Set(parts.map(valueOfText))].sort((a, b) => a - b);
  return values.length >= 1 && values.length <= most ? ok(values) : bad([problem(`${values.length} numbers`)]);
}

const valueOfText = (part: string): number => Number(part.replace('−', '-'));
const within = (part: string, from: number, to: number): boolean => {
  const value = valueOfText(part);
  return value >= from && value <= to;
};

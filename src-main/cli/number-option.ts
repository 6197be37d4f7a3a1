import { bad, ok, type Result } from '../../physics/index.ts';
import { phrase } from '../words/problem-words.ts';
import { argumentProblem, type OptionValues } from './command.ts';

export interface NumberLimits {
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  readonly whole?: boolean;
  /** Value when the option is not given; without it the option is needed. */
  readonly absent?: number;
}

/** A number given as an option, within its limits. */
export function numberOption(options: OptionValues, name: string, limits: NumberLimits): Result<number> {
  const text = options[name];
  if (text === undefined && limits.absent !== undefined) return ok(limits.absent);
  const value = typeof text === 'string' && text.trim() !== '' ? Number(text) : Number.NaN;
  const allowed = phrase(limits.whole ? 'wholeNumber' : limits.unit === '' ? 'numberIn' : 'numberOf', {
    from: limits.from,
    to: limits.to,
    unit: limits.unit,
  });
  const sound = value >= limits.from && value <= limits.to && (!limits.whole || Number.isInteger(value));
  return sound
    ? ok(value)
    : bad([argumentProblem(`--${name}`, text === undefined ? phrase('nothing') : `"${text}"`, allowed)]);
}

/** All values, or all problems of all of them. */
export function together<T extends Record<string, Result<unknown>>>(
  parts: T,
): Result<{ [K in keyof T]: T[K] extends Result<infer V> ? V : never }> {
  const problems = Object.values(parts).flatMap((part) => (part.ok ? [] : part.problems));
  if (problems.length > 0) return bad(problems);
  const values = Object.entries(parts).map(([key, part]) => [key, part.ok ? part.value : undefined]);
  return ok(Object.fromEntries(values));
}

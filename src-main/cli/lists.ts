import { bad, ok, type Problem, type Result } from '../../physics/index.ts';
import { phrase } from '../words/problem-words.ts';
import { argumentProblem, type OptionValues } from './command.ts';

const MOST_NUMBERS = 100;

/** Numbers with commas between them, each within limits. */
export function numbersOption(
  options: OptionValues,
  name: string,
  absent: string,
  { from, to, unit }: { readonly from: number; readonly to: number; readonly unit: string },
): Result<readonly number[]> {
  const text = typeof options[name] === 'string' ? options[name] : absent;
  const parts = text.split(',');
  const allowed = phrase('listOf', { most: MOST_NUMBERS, from, to, unit });
  if (parts.length > MOST_NUMBERS) {
    return bad([argumentProblem(`--${name}`, phrase('manyNumbers', { limit: parts.length }), allowed)]);
  }
  const problems: Problem[] = [];
  const values = parts.map((part) => {
    const value = part.trim() === '' ? Number.NaN : Number(part);
    if (!(value >= from && value <= to)) problems.push(argumentProblem(`--${name}`, `"${part}"`, allowed));
    return value;
  });
  return problems.length > 0 ? bad(problems) : ok(values);
}

/** Words with commas between them, each one of those allowed. */
export function wordsOption<T extends string>(
  options: OptionValues,
  name: string,
  allowed: readonly T[],
  absent: readonly T[],
): Result<readonly T[]> {
  const text = options[name];
  if (typeof text !== 'string') return ok(absent);
  const parts = text.split(',').map((part) => part.trim());
  const found = parts.map((part) => allowed.find((word) => word === part));
  const problems = parts
    .filter((_, at) => found[at] === undefined)
    .map((part) => argumentProblem(`--${name}`, `"${part}"`, allowed.join(', ')));
  return problems.length > 0 ? bad(problems) : ok(found as T[]);
}

import { number } from './format.ts';

/** A number with as many decimals as it has, up to four, as the language writes it. */
export function plainNumber(value: number): string {
  const decimals = String(value).split('.')[1]?.length ?? 0;
  return number(value, Math.min(4, decimals));
}

/** What stands between whole and part in the language: a point or a comma. */
export const decimalSign = (): string => number(0.5, 1).charAt(1);

/** A number in words with its unit behind it, if it has one. */
export function withUnit(number: string, unit: string): string {
  if (unit === '') return number;
  return unit === '°' ? `${number}°` : `${number}\u00a0${unit}`;
}

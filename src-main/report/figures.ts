/** Numbers, times and directions as they are printed, in the language that is spoken; Western digits in every one. */
import type { Language } from '../../src-renderer/i18n/languages.ts';
import { clockOf, spokenLanguage, t, textOf } from '../words/words.ts';

/** What is printed where there is no number. */
export const notMeasured = (): string => t('report.notMeasured');

/** British dates are those of the English texts. */
const DATES: Readonly<Record<Language, string>> = { en: 'en-GB', es: 'es', hi: 'hi-IN-u-nu-latn' };

function written(value: number, least: number, most: number): string {
  const format = new Intl.NumberFormat(`${spokenLanguage()}-u-nu-latn`, {
    minimumFractionDigits: least,
    maximumFractionDigits: most,
    useGrouping: false,
  });
  // rounded first, so that what is printed as nought carries no sign
  const rounded = Number(value.toFixed(most));
  return format.format(rounded === 0 ? 0 : rounded).replace('-', '−');
}

/** A number with fixed decimals; "not measured" for null and for anything not finite, never "-0". */
export function number(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return notMeasured();
  return written(value, decimals, decimals);
}

/** A number with its unit behind a space that does not break; "not measured" stands alone. */
export function quantity(value: number | null | undefined, decimals: number, unit: string): string {
  const text = number(value, decimals);
  if (text === notMeasured() || unit === '') return text;
  return unit === 'degrees' ? `${text}°` : `${text}\u00a0${textOf(unit)}`;
}

/** A plain number without needless zeros: 4.5, 22, 0.62. */
export const plain = (value: number): string => (Number.isFinite(value) ? written(value, 0, 3) : notMeasured());

/** Minutes and seconds: "0:45", "12:03". */
export function duration(time_s: number): string {
  if (!Number.isFinite(time_s)) return notMeasured();
  const whole = Math.round(time_s);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** A date and time in words, in a time zone or the machine's own; the zone is named. In a table the month is cut short. */
export function moment(iso: string | null, timeZone?: string, month: 'long' | 'short' = 'long'): string {
  const time = iso === null ? Number.NaN : Date.parse(iso);
  if (!Number.isFinite(time)) return t('report.notKnown');
  const format = new Intl.DateTimeFormat(DATES[spokenLanguage()], {
    day: 'numeric',
    month,
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZoneName: 'short',
    timeZone,
  });
  return format.format(time);
}

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Ranges of clock hours: "from 2 o'clock to half past 4"; "nowhere" when there are none. */
export function clockRanges(ranges: readonly (readonly [number, number])[]): string {
  if (ranges.length === 0) return t('report.nowhere');
  return ranges.map(([from, to]) => t('report.range', { from: clockOf(from), to: clockOf(to) })).join(', ');
}

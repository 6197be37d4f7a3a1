/** Numbers, times and directions as they are printed. */
import { clockWords } from '../../physics/index.ts';

/** What is printed where there is no number. */
export const NOT_MEASURED = 'not measured';

/** A number with fixed decimals; "not measured" for null and for anything not finite, never "-0". */
export function number(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return NOT_MEASURED;
  const text = value.toFixed(decimals);
  return (Number(text) === 0 ? (0).toFixed(decimals) : text).replace('-', '−');
}

/** A number with its unit behind a space that does not break; "not measured" stands alone. */
export function quantity(value: number | null | undefined, decimals: number, unit: string): string {
  const text = number(value, decimals);
  if (text === NOT_MEASURED || unit === '') return text;
  return unit === 'degrees' ? `${text}°` : `${text}\u00a0${unit}`;
}

/** A plain number without needless zeros: 4.5, 22, 0.62. */
export const plain = (value: number): string =>
  Number.isFinite(value) ? String(Number(value.toFixed(3))).replace('-', '−') : NOT_MEASURED;

/** Minutes and seconds: "0:45", "12:03". */
export function duration(time_s: number): string {
  if (!Number.isFinite(time_s)) return NOT_MEASURED;
  const whole = Math.round(time_s);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** A date and time in words, in a time zone or the machine's own; the zone is named. */
export function moment(iso: string | null, timeZone?: string): string {
  const time = iso === null ? Number.NaN : Date.parse(iso);
  if (!Number.isFinite(time)) return 'not known';
  const format = new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    timeZoneName: 'short',
    timeZone,
  });
  return format.format(time);
}

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Ranges of clock hours: "from 2 o'clock to half past 4"; "nowhere" when there are none. */
export function clockRanges(ranges: readonly (readonly [number, number])[]): string {
  if (ranges.length === 0) return 'nowhere';
  return ranges.map(([from, to]) => `${clockWords(from)} to ${clockWords(to)}`).join(', ');
}

import { t, useLanguage } from '../i18n/text.ts';

/** What stands where there is no number. */
export const DASH = '–';

const formats = new Map<string, Intl.NumberFormat>();

/** Western digits in every language: they are the ones on the instruments. No grouping, as in the papers. */
function formatOf(decimals: number): Intl.NumberFormat {
  const { language } = useLanguage.getState();
  const key = `${language} ${decimals}`;
  const known = formats.get(key);
  if (known !== undefined) return known;
  const made = new Intl.NumberFormat(`${language}-u-nu-latn`, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  });
  formats.set(key, made);
  return made;
}

/** A number with fixed decimals as the language writes it, a dash for null or anything not finite; never "NaN" and never "-0". */
export function number(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return DASH;
  // rounded first, so that what is shown as nought carries no sign
  const rounded = Number(value.toFixed(decimals));
  return formatOf(decimals)
    .format(rounded === 0 ? 0 : rounded)
    .replace('-', '−');
}

/** A number with its unit; the dash stands alone. */
export function quantity(value: number | null | undefined, decimals: number, unit: string): string {
  const text = number(value, decimals);
  if (text === DASH || unit === '') return text;
  return unit === '°' ? `${text}°` : `${text}\u00a0${unit}`;
}

/** Minutes and seconds of an attempt. */
export function clockTime(time_s: number): string {
  if (!Number.isFinite(time_s)) return DASH;
  const tenths = Math.floor(10 * time_s + 1e-6);
  const minutes = Math.floor(tenths / 600);
  const seconds = String(Math.floor((tenths % 600) / 10)).padStart(2, '0');
  // the mark before the tenths is the one of the language
  return `${minutes}:${seconds}${number((tenths % 10) / 10, 1).slice(1)}`;
}

/** A clock hour as people say it: whole or half hours. */
export function clockHour(clock_h: number | null): string {
  if (clock_h === null || !Number.isFinite(clock_h)) return DASH;
  const halves = ((Math.round(2 * clock_h) % 24) + 24) % 24;
  const count = Math.floor(halves / 2) === 0 ? 12 : Math.floor(halves / 2);
  return halves % 2 === 1 ? t('common.clock.half', { count }) : t('common.clock.whole', { count });
}

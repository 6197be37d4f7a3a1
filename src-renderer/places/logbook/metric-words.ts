import {
  type AttemptResult,
  METRIC_LABELS,
  type MetricKey,
  type MetricLabel,
  type OpeningMetrics,
  type ToleranceItem,
} from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { DASH, number, quantity } from '../../ui/format.ts';

export const isMetric = (key: string): key is MetricKey => Object.hasOwn(METRIC_LABELS, key);

/** How a metric is printed; one that this program does not know has no unit. */
export const metricLabel = (key: string): MetricLabel =>
  isMetric(key) ? METRIC_LABELS[key] : { label: key, unit: '', decimals: 2, of: 'work' };

/** What a metric is called; one that this program does not know keeps its key. */
export const metricTitle = (key: string): string =>
  isMetric(key) || key === 'opticUncovered_clock_h' ? t(`numbers.${key}.name`) : key;

/** Unit as it stands behind a number. */
export const unitOf = (key: string): string => metricLabel(key).unit.replace('degrees', '°');

/** A value with its unit; a direction is said as an hour of the clock. */
export function metricText(key: string, value: number | null | undefined): string {
  const { decimals } = metricLabel(key);
  if (!key.endsWith('_clock_h')) return quantity(value, decimals, unitOf(key));
  const hour = number(value, decimals);
  return hour === DASH ? hour : t('logbook.unit.clock', { value: hour });
}

/** A difference with its sign. */
export function differenceText(key: string, difference: number | null): string {
  if (difference === null || !Number.isFinite(difference)) return DASH;
  const { decimals } = metricLabel(key);
  const text = key.endsWith('_clock_h') ? quantity(difference, decimals, 'h') : metricText(key, difference);
  return Number(difference.toFixed(decimals)) > 0 ? `+${text}` : text;
}

/** What a tolerance allows, in words, with its unit. */
export function limitWords({ metric, atLeast, atMost }: ToleranceItem): string {
  if (atLeast !== undefined && atMost !== undefined) {
    const from = number(atLeast, metricLabel(metric).decimals);
    return t('logbook.limits.range', { from, to: metricText(metric, atMost) });
  }
  if (atLeast !== undefined) return t('logbook.limits.atLeast', { value: metricText(metric, atLeast) });
  return atMost === undefined ? '' : t('logbook.limits.atMost', { value: metricText(metric, atMost) });
}

/** Clock hours at which the optic has no cover, "none" where it is covered all round. */
export function uncoveredWords({ opticUncovered_clock_h }: OpeningMetrics): string {
  const ranges = opticUncovered_clock_h.map(([from, to]) =>
    t('logbook.limits.range', { from: number(from, 1), to: number(to, 1) }),
  );
  if (ranges.length === 0) return t('logbook.attempt.uncoveredNone');
  return t('logbook.attempt.uncoveredRanges', { ranges: ranges.join(', ') });
}

/** The value of a metric of an attempt; null where it was not measured. */
export function metricValue(key: string, { opening, work }: MeasuredAttempt): number | null {
  if (!isMetric(key)) return null;
  const from = (METRIC_LABELS[key].of === 'opening' ? opening : work) as unknown as Record<string, unknown> | null;
  const value = from?.[key];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

export interface MeasuredAttempt {
  readonly opening: AttemptResult['opening'];
  readonly work: AttemptResult['work'] | null;
}

/** Every metric that is a number, the graded ones first. */
export function metricKeys(tolerances: readonly ToleranceItem[]): MetricKey[] {
  const graded = tolerances.map(({ metric }) => metric).filter(isMetric);
  return [...new Set([...graded, ...(Object.keys(METRIC_LABELS) as MetricKey[])])];
}

import {
  type AttemptResult,
  METRIC_LABELS,
  type MetricKey,
  type MetricLabel,
  type ToleranceItem,
} from '../../../physics/index.ts';
import { number, quantity } from '../../ui/format.ts';

export const isMetric = (key: string): key is MetricKey => Object.hasOwn(METRIC_LABELS, key);

/** How a metric is named and printed; one that this program does not know keeps its key. */
export const metricLabel = (key: string): MetricLabel =>
  isMetric(key) ? METRIC_LABELS[key] : { label: key, unit: '', decimals: 2, of: 'work' };

export function metricTitle(key: string): string {
  const { label } = metricLabel(key);
  return `${label.charAt(0).toUpperCase()}${label.slice(1)}`;
}

/** Unit as it stands behind a number. */
export const unitOf = (key: string): string => metricLabel(key).unit.replace('degrees', '°');

export const metricText = (key: string, value: number | null | undefined): string =>
  quantity(value, metricLabel(key).decimals, unitOf(key));

/** A difference with its sign. */
export function differenceText(key: string, difference: number | null): string {
  if (difference === null || !Number.isFinite(difference)) return '–';
  const text = metricText(key, difference);
  return difference > 0 && !/^[0.,\s]+(\D.*)?$/.test(text) ? `+${text}` : text;
}

export function limitWords({ metric, atLeast, atMost }: ToleranceItem): string {
  const { decimals } = metricLabel(metric);
  const unit = unitOf(metric);
  if (atLeast !== undefined && atMost !== undefined)
    return `${number(atLeast, decimals)} to ${quantity(atMost, decimals, unit)}`;
  if (atLeast !== undefined) return `at least ${quantity(atLeast, decimals, unit)}`;
  return atMost === undefined ? '' : `at most ${quantity(atMost, decimals, unit)}`;
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

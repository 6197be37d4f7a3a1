import {
  type AttemptResult,
  METRIC_LABELS,
  type MetricKey,
  type OpeningMetrics,
  type ToleranceItem,
  type WorkMetrics,
} from '../../../physics/index.ts';
import { gradeSentence } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import type { NumberId } from '../../ui/Explained.tsx';
import { number, quantity } from '../../ui/format.ts';

export interface MetricRow {
  readonly key: string;
  /** What explains the number; null for one that this program does not know. */
  readonly of: NumberId | null;
  readonly label: string;
  readonly text: string;
  /** The number itself, for reading by machine; empty where there is none. */
  readonly value: string;
}

export interface GradedRow extends MetricRow {
  readonly met: boolean;
  readonly limits: string;
  readonly reason: string;
}

const isKey = (key: string): key is MetricKey => Object.hasOwn(METRIC_LABELS, key);

const labelOf = (key: string) => (isKey(key) ? METRIC_LABELS[key] : { unit: '', decimals: 2 });

/** Unit as it stands behind a number. */
export function unitOf(key: string): string {
  const { unit } = labelOf(key);
  if (unit === 'degrees') return '°';
  return unit === "o'clock" ? t('bench.unit.oclock') : unit;
}

/** How a metric is named, in the language; one that this program does not know keeps its key. */
export const metricTitle = (key: string): string => (isKey(key) ? t(`numbers.${key}.name`) : key);

function row(key: string, value: number | null): MetricRow {
  return {
    key,
    of: isKey(key) ? key : null,
    label: metricTitle(key),
    text: quantity(value, labelOf(key).decimals, unitOf(key)),
    value: value !== null && Number.isFinite(value) ? String(value) : '',
  };
}

/** What a tolerance allows, in words, with its unit. */
export function limitWords({ metric, atLeast, atMost }: ToleranceItem): string {
  const { decimals } = labelOf(metric);
  const text = (value: number) => quantity(value, decimals, unitOf(metric));
  if (atLeast !== undefined && atMost !== undefined)
    return t('bench.result.between', { low: number(atLeast, decimals), high: text(atMost) });
  if (atLeast !== undefined) return t('bench.result.atLeast', { low: text(atLeast) });
  return atMost === undefined ? '' : t('bench.result.atMost', { high: text(atMost) });
}

export const gradedRows = (result: AttemptResult): readonly GradedRow[] =>
  result.graded.map((item) => ({
    ...row(item.metric, item.value),
    met: item.met,
    limits: limitWords(item),
    reason: gradeSentence(item),
  }));

const rowsOf = (metrics: OpeningMetrics | WorkMetrics): readonly MetricRow[] =>
  Object.entries(metrics).flatMap(([key, value]) => (typeof value === 'number' ? [row(key, value)] : []));

/** Clock hours without cover as "2 to 4.5 o'clock"; "none" where the optic is covered all round. */
export function uncoveredWords(opening: OpeningMetrics): string {
  const ranges = opening.opticUncovered_clock_h.map(([from, to]) =>
    t('bench.result.hours', { from: number(from, 1), to: number(to, 1) }),
  );
  return ranges.length === 0 ? t('bench.result.uncoveredNone') : t('bench.result.oclock', { hours: ranges.join(', ') });
}

export const openingRows = (opening: OpeningMetrics): readonly MetricRow[] => [
  ...rowsOf(opening),
  {
    key: 'opticUncovered_clock_h',
    of: 'opticUncovered_clock_h',
    label: t('numbers.opticUncovered_clock_h.name'),
    text: uncoveredWords(opening),
    value: opening.opticUncovered_clock_h.map(([from, to]) => `${from.toFixed(1)}-${to.toFixed(1)}`).join(' '),
  },
];

export const workRows = (work: WorkMetrics): readonly MetricRow[] => rowsOf(work);

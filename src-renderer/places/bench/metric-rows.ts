import {
  type AttemptResult,
  type GradedItem,
  METRIC_LABELS,
  type MetricKey,
  type OpeningMetrics,
  type WorkMetrics,
} from '../../../physics/index.ts';
import { number, quantity } from '../../ui/format.ts';

export interface MetricRow {
  readonly key: string;
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

function row(key: string, value: number | null): MetricRow {
  const known = isKey(key) ? METRIC_LABELS[key] : { label: key, unit: '', decimals: 2 };
  return {
    key,
    label: known.label.charAt(0).toUpperCase() + known.label.slice(1),
    text: quantity(value, known.decimals, known.unit.replace('degrees', '°')),
    value: value !== null && Number.isFinite(value) ? String(value) : '',
  };
}

function limits({ metric, atLeast, atMost }: GradedItem): string {
  const { decimals } = isKey(metric) ? METRIC_LABELS[metric] : { decimals: 2 };
  if (atLeast !== undefined && atMost !== undefined)
    return `${number(atLeast, decimals)} to ${number(atMost, decimals)}`;
  if (atLeast !== undefined) return `at least ${number(atLeast, decimals)}`;
  return atMost === undefined ? '' : `at most ${number(atMost, decimals)}`;
}

export const gradedRows = (result: AttemptResult): readonly GradedRow[] =>
  result.graded.map((item) => ({
    ...row(item.metric, item.value),
    met: item.met,
    limits: limits(item),
    reason: item.reason,
  }));

const rowsOf = (metrics: OpeningMetrics | WorkMetrics): readonly MetricRow[] =>
  Object.entries(metrics).flatMap(([key, value]) => (typeof value === 'number' ? [row(key, value)] : []));

/** Clock hours without cover as "2 to 4.5 o'clock"; "none" where the optic is covered all round. */
export function uncoveredWords(opening: OpeningMetrics): string {
  const ranges = opening.opticUncovered_clock_h.map(([from, to]) => `${number(from, 1)} to ${number(to, 1)}`);
  return ranges.length === 0 ? 'none' : `${ranges.join(', ')} o’clock`;
}

export const openingRows = (opening: OpeningMetrics): readonly MetricRow[] => [
  ...rowsOf(opening),
  {
    key: 'opticUncovered_clock_h',
    label: 'Optic without cover',
    text: uncoveredWords(opening),
    value: uncoveredWords(opening),
  },
];

export const workRows = (work: WorkMetrics): readonly MetricRow[] => rowsOf(work);

import type { ToleranceItem } from '../scenario/scenario.ts';
import { isMetricKey, METRIC_LABELS, type MetricLabel } from './metric-labels.ts';
import type { GradedItem, OpeningMetrics, WorkMetrics } from './metrics.ts';

/**
 * Judges an attempt by the tolerances of its scenario, in their order.
 *
 * @param opening null when the opening is not complete: every tolerance on the opening is then missed
 * @returns one item per tolerance, with the reason in a plain sentence. A limit itself is within.
 */
export function gradeAttempt(
  tolerances: readonly ToleranceItem[],
  opening: OpeningMetrics | null,
  work: WorkMetrics,
): GradedItem[] {
  return tolerances.map((tolerance) => gradeItem(tolerance, opening, work));
}

function gradeItem(tolerance: ToleranceItem, opening: OpeningMetrics | null, work: WorkMetrics): GradedItem {
  const { metric, atLeast, atMost } = tolerance;
  // Parsing lets only known metrics through; one that is not known is never met.
  if (!isMetricKey(metric)) {
    return { ...tolerance, value: null, met: false, reason: `There is no metric named ${metric}.` };
  }
  const text = METRIC_LABELS[metric];
  const source: Partial<Record<string, unknown>> | null = text.of === 'opening' ? (opening as never) : (work as never);
  const value = source?.[metric];
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    const reason = `The opening is not complete, so its ${text.label} was not measured.`;
    return { ...tolerance, value: null, met: false, reason };
  }
  const met = (atLeast === undefined || value >= atLeast) && (atMost === undefined || value <= atMost);
  return { ...tolerance, value, met, reason: reasonFor(text, value, tolerance, met) };
}

function reasonFor(text: MetricLabel, value: number, { atLeast, atMost }: ToleranceItem, met: boolean): string {
  const unit = text.unit === '' ? '' : ` ${text.unit}`;
  const decimals = tellingDecimals(text.decimals, value, atLeast, atMost);
  const print = (number: number) => `${number.toFixed(decimals)}${unit}`;
  const limits =
    atLeast !== undefined && atMost !== undefined
      ? `between ${atLeast.toFixed(decimals)} and ${print(atMost)}`
      : atMost !== undefined
        ? `at most ${print(atMost)}`
        : `at least ${print(atLeast ?? 0)}`;
  const name = `${text.label[0].toUpperCase()}${text.label.slice(1)}`;
  return `${name} is ${print(value)}; ${met ? 'asked for, and kept:' : 'missed: it should be'} ${limits}.`;
}

/** Enough decimals that a missed limit also looks missed: 5.304 against at most 5.30. */
function tellingDecimals(usual: number, value: number, atLeast?: number, atMost?: number): number {
  for (let decimals = usual; decimals < 6; decimals++) {
    const print = (number: number) => Number(number.toFixed(decimals));
    const same = [atLeast, atMost].some(
      (limit) => limit !== undefined && limit !== value && print(limit) === print(value),
    );
    const rounded = [atLeast, atMost].some((limit) => limit !== undefined && print(limit) !== limit);
    if (!same && !rounded) return decimals;
  }
  return 6;
}

import type { ToleranceItem } from '../../../physics/index.ts';
import {
  differenceText,
  limitWords,
  type MeasuredAttempt,
  metricKeys,
  metricText,
  metricValue,
} from './metric-words.ts';

export interface ComparedMetric {
  readonly key: string;
  /** What the tolerance allows; empty where there is none. */
  readonly limits: string;
  readonly a: string;
  readonly b: string;
  readonly difference: string;
}

/** Directions go round: their difference is the shorter way. */
const ROUND: Readonly<Partial<Record<string, number>>> = {
  largestDiameterAxis_deg: 180,
  smallestDiameterAxis_deg: 180,
  centroidDirection_clock_h: 12,
};

/** B less A; for directions the shorter way round. Null where either was not measured. */
export function metricDifference(key: string, a: number | null, b: number | null): number | null {
  if (a === null || b === null) return null;
  const round = ROUND[key];
  if (round === undefined) return b - a;
  const way = (((b - a) % round) + 1.5 * round) % round;
  return way - round / 2;
}

/** Every metric of two attempts side by side, the graded ones first; those that neither has are left out. */
export function comparedMetrics(
  a: MeasuredAttempt,
  b: MeasuredAttempt,
  tolerances: readonly ToleranceItem[],
): ComparedMetric[] {
  return metricKeys(tolerances).flatMap((key) => {
    const [left, right] = [metricValue(key, a), metricValue(key, b)];
    const tolerance = tolerances.find(({ metric }) => metric === key);
    if (left === null && right === null && tolerance === undefined) return [];
    return [
      {
        key,
        limits: tolerance === undefined ? '' : limitWords(tolerance),
        a: metricText(key, left),
        b: metricText(key, right),
        difference: differenceText(key, metricDifference(key, left, right)),
      },
    ];
  });
}

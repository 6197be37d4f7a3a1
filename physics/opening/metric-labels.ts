import type { OpeningMetrics, WorkMetrics } from './metrics.ts';

/** How a metric is named and printed for a person. */
export interface MetricLabel {
  /** In plain words, lower case, as it stands at the start of a sentence. */
  readonly label: string;
  /** Unit as printed; empty for a pure number. */
  readonly unit: string;
  readonly decimals: number;
  readonly of: 'opening' | 'work';
}

type NumericKey<T> = { [K in keyof T]: T[K] extends number ? K : never }[keyof T];
export type OpeningMetricKey = NumericKey<OpeningMetrics>;
export type WorkMetricKey = NumericKey<WorkMetrics>;
export type MetricKey = OpeningMetricKey | WorkMetricKey;

const opening = (label: string, unit: string, decimals: number): MetricLabel => ({
  label,
  unit,
  decimals,
  of: 'opening',
});
const work = (label: string, unit: string, decimals: number): MetricLabel => ({ label, unit, decimals, of: 'work' });

/** Every metric that is one number; a tolerance may name any of these and nothing else. */
export const METRIC_LABELS: Readonly<Record<MetricKey, MetricLabel>> = {
  equivalentDiameter_mm: opening('equivalent diameter', 'mm', 2),
  largestDiameter_mm: opening('largest diameter', 'mm', 2),
  largestDiameterAxis_deg: opening('axis of the largest diameter', 'degrees', 0),
  smallestDiameter_mm: opening('smallest diameter', 'mm', 2),
  smallestDiameterAxis_deg: opening('axis of the smallest diameter', 'degrees', 0),
  area_mm2: opening('area', 'mm²', 1),
  perimeter_mm: opening('perimeter', 'mm', 2),
  centroidDistance_mm: opening('distance of the centroid from the centre', 'mm', 2),
  centroidDirection_clock_h: opening('direction of the centroid', "o'clock", 1),
  circularity: opening('circularity', '', 2),
  axisRatio: opening('axis ratio', '', 2),
  rmsDeviation_mm: opening('RMS deviation from the target circle', 'mm', 2),
  peakDeviation_mm: opening('peak deviation from the target circle', 'mm', 2),
  opticOverlapSmallest_mm: opening('smallest overlap of the optic', 'mm', 2),
  largestKink_deg: opening('largest kink of the margin', 'degrees', 0),
  radialNicks: opening('number of radial nicks', '', 0),
  longestNick_mm: opening('longest radial nick', 'mm', 2),
  time_s: work('time', 's', 0),
  grasps: work('number of grasps', '', 0),
  arcPerGrasp_deg: work('arc torn per grasp', 'degrees', 0),
  tornLength_mm: work('length torn', 'mm', 1),
  gripToTipMean_mm: work('mean distance from grip to tip', 'mm', 2),
  peakForce_mN: work('peak force', 'mN', 1),
  rmsForce_mN: work('RMS force while holding tissue', 'mN', 1),
  handPath_mm: work('path of the hand', 'mm', 1),
  handPathOverTorn: work('path of the hand over length torn', '', 1),
  shearShare: work('share torn mostly along the tear', '', 2),
  stretchShare: work('share torn mostly across the tear', '', 2),
  tensionWithoutTear_s: work('time under tension without tearing', 's', 1),
  refills: work('number of refills', '', 0),
  fluidLost_share: work('share of the fluid lost', '', 2),
  peakSideLoad_mN: work('peak side load on the incision', 'mN', 1),
  nearRunOuts: work('number of near run-outs', '', 0),
  rescues: work('number of rescues', '', 0),
};

/** True for a key that a tolerance may name. */
export function isMetricKey(key: string): key is MetricKey {
  return Object.hasOwn(METRIC_LABELS, key);
}

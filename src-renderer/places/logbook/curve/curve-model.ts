/** The charts of one person's attempts in one eye, as plain data. */
import {
  type CourseLimits,
  CUSUM_EXPLAINED,
  type GradedItem,
  learningCusum,
  type SimulatedLimit,
  twoBoundaryCusum,
} from '../../../../physics/index.ts';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import type { ChartPoint, ChartSpec } from '../../../charts/chart-spec.ts';
import { number } from '../../../ui/format.ts';
import { passedWords, whenWords } from '../attempt-columns.ts';
import { limitWords, metricLabel, metricText, metricTitle, metricValue, unitOf } from '../metric-words.ts';

export interface CurveChoice {
  readonly personId: string;
  readonly scenarioId: string;
  /** Null takes both. */
  readonly place: AttemptSummary['place'] | null;
}

/** The closed attempts that a curve is made of, oldest first. */
export const curveAttempts = (
  attempts: readonly AttemptSummary[],
  { personId, scenarioId, place }: CurveChoice,
): AttemptSummary[] =>
  attempts
    .filter(
      (one) =>
        one.personId === personId &&
        one.scenarioId === scenarioId &&
        one.passed !== null &&
        (place === null || one.place === place),
    )
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : a.startedAt > b.startedAt ? 1 : 0));

/** The tolerances of the latest attempt; an eye whose tolerances were changed is judged by the last ones. */
export const latestGraded = (attempts: readonly AttemptSummary[]): readonly GradedItem[] =>
  attempts.at(-1)?.graded ?? [];

/** True where the eye or its tolerances were changed between attempts. */
export const eyeChanged = (attempts: readonly AttemptSummary[]): boolean =>
  new Set(attempts.map(({ scenarioDigest }) => scenarioDigest)).size > 1;

const seconds = (iso: string): number => Date.parse(iso) / 1000;

const fits = (value: number, { atLeast, atMost }: Pick<GradedItem, 'atLeast' | 'atMost'>): boolean =>
  (atLeast === undefined || value >= atLeast) && (atMost === undefined || value <= atMost);

/** One metric from attempt to attempt, with the band of its tolerance where it has one. */
export function metricChart(
  key: string,
  attempts: readonly AttemptSummary[],
  tolerance: GradedItem | undefined,
  byDate: boolean,
): ChartSpec {
  const points = attempts.map((attempt, at): ChartPoint => {
    const value = metricValue(key, attempt);
    const met = value !== null && (tolerance === undefined || fits(value, tolerance));
    const came = value === null ? 'not measured, the opening was not complete' : metricText(key, value);
    return {
      x: byDate ? seconds(attempt.startedAt) : at + 1,
      y: value,
      mark: met ? 'dot' : 'cross',
      words: `Attempt ${at + 1}, ${whenWords(attempt.startedAt)}: ${came}${tolerance === undefined || value === null ? '' : met ? ', within' : ', outside'}`,
    };
  });
  const unit = unitOf(key);
  return {
    title: tolerance === undefined ? metricTitle(key) : `${metricTitle(key)}, allowed ${limitWords(tolerance)}`,
    xLabel: byDate ? 'Date' : 'Attempt',
    yLabel: unit,
    xIsTime: byDate,
    points,
    joined: true,
    band:
      tolerance === undefined || (tolerance.atLeast === undefined && tolerance.atMost === undefined)
        ? null
        : { axis: 'y', from: tolerance.atLeast ?? null, to: tolerance.atMost ?? null },
    levels: [],
    rows: null,
    decimals: metricLabel(key).decimals,
  };
}

export interface CusumChart {
  readonly spec: ChartSpec;
  /** What kind of chart it is, in one sentence. */
  readonly explained: string;
  /** What it says now, in one sentence. */
  readonly says: string;
}

const cusumSpec = (
  title: string,
  attempts: readonly AttemptSummary[],
  curve: readonly number[],
  levels: ChartSpec['levels'],
): ChartSpec => ({
  title,
  xLabel: 'Attempt',
  yLabel: 'sum',
  xIsTime: false,
  points: attempts.map(
    (attempt, at): ChartPoint => ({
      x: at + 1,
      y: curve[at] ?? null,
      mark: attempt.passed === true ? 'dot' : 'cross',
      words: `Attempt ${at + 1}, ${whenWords(attempt.startedAt)}: ${passedWords(attempt.passed)}, sum ${number(curve[at], 2)}`,
    }),
  ),
  joined: true,
  band: null,
  levels,
  rows: null,
  decimals: 1,
});

/** The two-boundary chart: is the share of misses good enough, not good enough, or not known yet? */
export function twoBoundaryChart(attempts: readonly AttemptSummary[], { rates, risks }: CourseLimits): CusumChart {
  const passed = attempts.map((one) => one.passed === true);
  const chart = twoBoundaryCusum(passed, rates, risks);
  const { acceptableAt, unacceptableAt } = chart;
  const levels = [
    { at: chart.upper, label: 'not good enough above' },
    { at: chart.lower, label: 'good enough below' },
  ];
  const first =
    acceptableAt !== null && (unacceptableAt === null || acceptableAt < unacceptableAt) ? 'good' : 'not good';
  const at = first === 'good' ? acceptableAt : unacceptableAt;
  const says =
    at === null
      ? `Not enough evidence yet after ${attempts.length} attempts.`
      : first === 'good'
        ? `From attempt ${at + 1} on, the share of misses was good enough.`
        : `From attempt ${at + 1} on, the share of misses was not good enough.`;
  return {
    spec: cusumSpec('Two-boundary chart', attempts, chart.curve, levels),
    explained: CUSUM_EXPLAINED.twoBoundary,
    says,
  };
}

/** The learning-curve chart: is there evidence of competence? */
export function learningChart(
  attempts: readonly AttemptSummary[],
  { rates }: CourseLimits,
  { limit }: SimulatedLimit,
): CusumChart {
  const passed = attempts.map((one) => one.passed === true);
  const { curve, competentAt } = learningCusum(passed, rates, limit);
  const says =
    competentAt === null
      ? `No evidence of it yet after ${attempts.length} attempts.`
      : `Reached at attempt ${competentAt + 1}.`;
  return {
    spec: cusumSpec('Learning-curve chart', attempts, curve, [{ at: limit, label: `there from ${number(limit, 2)}` }]),
    explained: CUSUM_EXPLAINED.learningCurve,
    says,
  };
}

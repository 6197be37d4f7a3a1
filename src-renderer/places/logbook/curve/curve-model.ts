/** The charts of one person's attempts in one eye, as plain data. */
import {
  type CourseLimits,
  type GradedItem,
  learningCusum,
  type SimulatedLimit,
  twoBoundaryCusum,
} from '../../../../physics/index.ts';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import type { ChartPoint, ChartSpec } from '../../../charts/chart-spec.ts';
import { t } from '../../../i18n/text.ts';
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

/** A metric's name with what its tolerance allows, where it has one. */
export const titleWithLimits = (key: string, tolerance: GradedItem | undefined): string =>
  tolerance === undefined
    ? metricTitle(key)
    : t('logbook.class.allowed', { metric: metricTitle(key), limits: limitWords(tolerance) });

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
    const said = { n: at + 1, when: whenWords(attempt.startedAt), came: metricText(key, value) };
    const words =
      value === null
        ? t('logbook.curve.pointNone', said)
        : tolerance === undefined
          ? t('logbook.curve.point', said)
          : t(met ? 'logbook.curve.pointWithin' : 'logbook.curve.pointOutside', said);
    return { x: byDate ? seconds(attempt.startedAt) : at + 1, y: value, mark: met ? 'dot' : 'cross', words };
  });
  const unit = unitOf(key);
  return {
    title: titleWithLimits(key, tolerance),
    xLabel: t(byDate ? 'logbook.curve.xDate' : 'logbook.curve.xAttempt'),
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
  xLabel: t('logbook.curve.xAttempt'),
  yLabel: t('logbook.curve.ySum'),
  xIsTime: false,
  points: attempts.map(
    (attempt, at): ChartPoint => ({
      x: at + 1,
      y: curve[at] ?? null,
      mark: attempt.passed === true ? 'dot' : 'cross',
      words: t('logbook.curve.pointSum', {
        n: at + 1,
        when: whenWords(attempt.startedAt),
        passed: passedWords(attempt.passed),
        sum: number(curve[at], 2),
      }),
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
    { at: chart.upper, label: t('logbook.curve.notGoodAbove') },
    { at: chart.lower, label: t('logbook.curve.goodBelow') },
  ];
  const first =
    acceptableAt !== null && (unacceptableAt === null || acceptableAt < unacceptableAt) ? 'good' : 'not good';
  const at = first === 'good' ? acceptableAt : unacceptableAt;
  const says =
    at === null
      ? t('logbook.curve.notYet', { count: attempts.length })
      : t(first === 'good' ? 'logbook.curve.goodFrom' : 'logbook.curve.notGoodFrom', { n: at + 1 });
  return {
    spec: cusumSpec(t('logbook.curve.twoBoundary'), attempts, chart.curve, levels),
    explained: t('logbook.curve.twoBoundaryExplained'),
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
      ? t('logbook.curve.noEvidence', { count: attempts.length })
      : t('logbook.curve.reached', { n: competentAt + 1 });
  return {
    spec: cusumSpec(t('logbook.curve.learning'), attempts, curve, [
      { at: limit, label: t('logbook.curve.thereFrom', { limit: number(limit, 2) }) },
    ]),
    explained: t('logbook.curve.learningExplained'),
    says,
  };
}

/** The plots that grow with the motion, as plain data. */

import { STEP_S } from '../../../../physics/index.ts';
import type { ChartLine, ChartSpec } from '../../../charts/chart-spec.ts';
import { t } from '../../../i18n/text.ts';
import type { SeriesPoint } from '../contract.ts';

export type PlotId = 'radius' | 'driving' | 'heading' | 'grip' | 'pressure';

/** What the plots need to know of an eye. */
export interface PlottedEye {
  readonly label: string;
  readonly series: readonly SeriesPoint[];
}

interface PlotInfo {
  readonly along: 'time' | 'arc';
  readonly decimals: number;
  /** A level of its own, and the message that says what it is. */
  readonly level: { readonly at: number; readonly words: 'goes' | 'stays' } | null;
  readonly alwaysY: readonly number[];
  /** Values closer together than this are not spread over the whole height, as if they differed much; 0 for any. */
  readonly leastSpanY: number;
  value(point: SeriesPoint): number | null;
}

export const PLOTS: Readonly<Record<PlotId, PlotInfo>> = {
  radius: {
    along: 'arc',
    decimals: 1,
    level: null,
    alwaysY: [],
    leastSpanY: 0.2,
    value: (point) => point.tipRadius_mm,
  },
  driving: {
    along: 'time',
    decimals: 1,
    level: { at: 1, words: 'goes' },
    alwaysY: [0, 1.2],
    leastSpanY: 0,
    value: (point) => point.drivingRatio,
  },
  heading: {
    along: 'time',
    decimals: 0,
    level: { at: 0, words: 'stays' },
    alwaysY: [-10, 10],
    leastSpanY: 0,
    value: (point) => point.headingError_deg,
  },
  grip: {
    along: 'time',
    decimals: 0,
    level: null,
    alwaysY: [0, 5],
    leastSpanY: 0,
    value: (point) => point.gripForce_mN,
  },
  pressure: {
    along: 'time',
    decimals: 1,
    level: null,
    alwaysY: [0, 2],
    leastSpanY: 0,
    value: (point) => point.netPressure_mmHg,
  },
};

export const PLOT_IDS = Object.keys(PLOTS) as readonly PlotId[];

export const plotTitle = (id: PlotId): string => t(`lecture.plots.${id}.title`);

/** Arc torn is told apart this finely, degrees. */
const ARC_STEP_deg = 0.5;

/** Two eyes of the same name still need two names. */
export const namesOf = (eyes: readonly PlottedEye[]): readonly string[] =>
  eyes.length === 2 && eyes[0]!.label === eyes[1]!.label
    ? [t('lecture.plots.leftOf', { label: eyes[0]!.label }), t('lecture.plots.rightOf', { label: eyes[1]!.label })]
    : eyes.map(({ label }) => label);

function timeLine(name: string, series: readonly SeriesPoint[], value: PlotInfo['value']): ChartLine {
  return { name, xs: series.map(({ time_s }) => time_s), ys: series.map(value) };
}

/** One value for each half degree, the latest; a tear goes on and never back, but rests at one place for long. */
function arcLine(name: string, series: readonly SeriesPoint[], value: PlotInfo['value']): ChartLine {
  const latest = new Map<number, number>();
  for (const point of series) {
    const y = value(point);
    if (point.arcTorn_deg === null || y === null) continue;
    latest.set(Math.round(point.arcTorn_deg / ARC_STEP_deg), y);
  }
  const steps = [...latest.keys()].sort((a, b) => a - b);
  return { name, xs: steps.map((step) => step * ARC_STEP_deg), ys: steps.map((step) => latest.get(step)!) };
}

/** The ends of a span of that length about the values, where they lie closer together. */
function roomFor(lines: readonly ChartLine[], least: number): readonly number[] {
  const ys = lines.flatMap((line) => line.ys.filter((y) => y !== null));
  if (least === 0 || ys.length === 0) return [];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const missing = Math.max(0, least - (high - low));
  return [low - missing / 2, high + missing / 2];
}

/** @param eyes one or two */
export function plotSpec(id: PlotId, eyes: readonly PlottedEye[]): ChartSpec {
  const { along, decimals, level, alwaysY, leastSpanY, value } = PLOTS[id];
  const names = namesOf(eyes);
  const line = along === 'time' ? timeLine : arcLine;
  const lines = eyes.map(({ series }, at) => line(names[at]!, series, value));
  return {
    title: plotTitle(id),
    xLabel: along === 'time' ? t('lecture.plots.time') : t('lecture.plots.arc'),
    yLabel: t(`lecture.plots.${id}.unit`),
    xIsTime: false,
    points: [],
    joined: true,
    band: null,
    levels: level === null ? [] : [{ at: level.at, label: t(`lecture.plots.${level.words}`) }],
    rows: null,
    decimals,
    lines,
    alwaysX: along === 'time' ? [0, 1] : [0, 10],
    alwaysY: [...alwaysY, ...roomFor(lines, leastSpanY)],
    xDecimals: along === 'time' ? 1 : 0,
  };
}

/** The latest point that is not after a step; null before the first. Points are one for each step, or fewer. */
export function pointAt(series: readonly SeriesPoint[], step: number): SeriesPoint | null {
  let low = 0;
  let high = series.length - 1;
  if (high < 0 || series[0]!.step > step) return null;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (series[middle]!.step <= step) low = middle;
    else high = middle - 1;
  }
  return series[low]!;
}

/** Where the moment shown lies on each eye's curve, in x of the plot. */
export function headsOf(id: PlotId, eyes: readonly PlottedEye[], step: number): readonly (number | null)[] {
  if (PLOTS[id].along === 'time') return eyes.map(({ series }) => (series.length === 0 ? null : step * STEP_S));
  return eyes.map(({ series }) => {
    const arc_deg = pointAt(series, step)?.arcTorn_deg ?? null;
    return arc_deg === null ? null : Math.round(arc_deg / ARC_STEP_deg) * ARC_STEP_deg;
  });
}

/** The step that a place along a plot stands for: the first eye's where the plot runs along the arc. */
export function stepAt(id: PlotId, eyes: readonly PlottedEye[], x: number, lastStep: number): number {
  const within = (step: number) => Math.max(0, Math.min(lastStep, Math.round(step)));
  if (PLOTS[id].along === 'time') return within(x / STEP_S);
  let best: SeriesPoint | null = null;
  for (const { series } of eyes) {
    for (const point of series) {
      if (point.arcTorn_deg === null) continue;
      if (best === null || Math.abs(point.arcTorn_deg - x) < Math.abs(best.arcTorn_deg! - x) - 1e-9) best = point;
    }
  }
  return within(best?.step ?? 0);
}

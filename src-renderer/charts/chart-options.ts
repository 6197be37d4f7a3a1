/** What uPlot is told about a chart. */
import uPlot from 'uplot';
import { t } from '../i18n/text.ts';
import { number } from '../ui/format.ts';
import type { ChartColours } from './chart-colours.ts';
import { drawBand, drawLevels, drawMarks } from './chart-drawing.ts';
import { type ChartSpec, rangesOf, valueNear } from './chart-spec.ts';
import { drawHeads, drawLineMarks, drawPublished } from './curve-drawing.ts';
import { lineLook } from './line-looks.ts';

/** What the drawing reads each time it draws. */
export interface Shown {
  readonly spec: ChartSpec;
  /** Place of the moment shown on each curve, in x. */
  readonly heads: readonly (number | null)[];
}

export interface Drawn {
  readonly width_px: number;
  readonly height_px: number;
  readonly colours: ChartColours;
  /** Gives what is to be drawn now. */
  shown(): Shown;
  /** Told what lies under the pointer, '' when it has left. */
  setWords(words: string): void;
}

/** Changes when the chart has to be made anew, and not when only its numbers change. */
export const structureOf = ({ xLabel, yLabel, xIsTime, joined, rows, decimals, xDecimals, lines }: ChartSpec): string =>
  JSON.stringify([xLabel, yLabel, xIsTime, joined, rows, decimals, xDecimals, lines?.map(({ name }) => name)]);

export function chartData({ points, lines }: ChartSpec): uPlot.AlignedData {
  if (lines === undefined) return [points.map(({ x }) => x), points.map(({ y }) => y)];
  const first = lines[0]?.xs;
  if (first === undefined) return [[], []];
  const sameXs = lines.every(({ xs }) => xs.length === first.length && xs.every((x, k) => x === first[k]));
  return sameXs
    ? [first as number[], ...lines.map(({ ys }) => ys as (number | null)[])]
    : uPlot.join(lines.map(({ xs, ys }) => [xs as number[], ys as (number | null)[]]));
}

export function chartOptions(drawn: Drawn): uPlot.Options {
  const { spec } = drawn.shown();
  const { colours } = drawn;
  const ranges = () => rangesOf(drawn.shown().spec);
  return {
    width: Math.max(120, drawn.width_px),
    height: drawn.height_px,
    padding: [8, 10, 0, 0],
    legend: { show: false },
    cursor: {
      y: spec.rows === null,
      drag: { x: false, y: false },
      points: spec.lines === undefined ? { size: 13, width: 2 } : { show: false },
    },
    scales: {
      x: { time: spec.xIsTime, range: () => [...ranges().x] as [number, number] },
      y: { range: () => [...ranges().y] as [number, number] },
    },
    axes: [xAxis(spec, colours), yAxis(spec, colours)],
    series: [{}, ...seriesOf(spec, colours)],
    hooks: {
      drawClear: [(plot) => drawBand(plot, drawn.shown().spec, colours)],
      draw: [(plot) => drawOver(plot, drawn)],
      setCursor: [(plot) => drawn.setWords(wordsUnder(plot, drawn.shown().spec))],
    },
  };
}

function drawOver(plot: uPlot, { shown, colours }: Drawn): void {
  const { spec, heads } = shown();
  drawLevels(plot, spec, colours);
  drawPublished(plot, spec, colours);
  drawMarks(plot, spec, colours);
  drawLineMarks(plot, spec, colours);
  drawHeads(plot, spec, heads, colours);
}

function seriesOf(spec: ChartSpec, colours: ChartColours): uPlot.Series[] {
  const { lines } = spec;
  if (lines === undefined)
    return [{ stroke: colours.line, width: spec.joined ? 2 : 0, points: { show: false }, spanGaps: true }];
  return lines.map((_, at) => ({
    stroke: colours.lines[at],
    dash: [...lineLook(at).dash],
    width: spec.joined ? 2 : 0,
    points: { show: false },
    spanGaps: spec.marked === true,
  }));
}

/** What lies under the pointer, in words. */
function wordsUnder(plot: uPlot, spec: ChartSpec): string {
  const { idx, left } = plot.cursor;
  if (spec.lines === undefined) return idx == null ? '' : (spec.points[idx]?.words ?? '');
  if (idx == null || left === undefined || left < 0) return '';
  const x = plot.data[0][idx]!;
  const [low, high] = rangesOf(spec).x;
  const values = spec.lines.map((line) => {
    const value = valueNear(line, x, (high - low) / 40);
    return `${line.name}: ${value === null ? t('common.chart.noValue') : number(value, spec.decimals)}`;
  });
  const at = number(x, spec.xDecimals ?? spec.decimals);
  return t('common.chart.at', { axis: spec.xLabel, x: at, values: values.join('; ') });
}

/** Room for ticks and names of an axis, CSS pixels: with the size of the letters, so that on a large screen they stay apart. */
function axisRoom({ font }: ChartColours) {
  const letters_px = Number.parseFloat(font);
  return {
    label: Math.max(20, 1.4 * letters_px),
    x: Math.max(32, 15 + 1.3 * letters_px),
    y: Math.max(48, 15 + 2.7 * letters_px),
    /** Least from one tick to the next, across and upward. */
    across: Math.max(50, 3.6 * letters_px),
    upward: Math.max(30, 1.9 * letters_px),
  };
}

const axisLook = (colours: ChartColours): uPlot.Axis => ({
  stroke: colours.soft,
  font: colours.font,
  labelFont: colours.font,
  grid: { stroke: colours.grid, width: 1 },
  ticks: { stroke: colours.grid, width: 1 },
});

function xAxis(spec: ChartSpec, colours: ChartColours): uPlot.Axis {
  // attempts are counted: there is nothing between two of them
  const whole =
    !spec.xIsTime &&
    spec.lines === undefined &&
    spec.points.every(({ x }) => Number.isInteger(x)) &&
    spec.rows === null;
  const decimals = (at: number[]) => (whole ? 0 : spec.lines === undefined ? spec.decimals : decimalsOf(at));
  const values = (_: uPlot, at: number[]) => at.map((x) => tickText(x, decimals(at)));
  return {
    ...axisLook(colours),
    label: spec.xLabel,
    labelSize: axisRoom(colours).label,
    size: axisRoom(colours).x,
    space: axisRoom(colours).across,
    ...(spec.xIsTime ? {} : { values }),
    ...(whole ? { incrs: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] } : {}),
  };
}

/** Fewest decimals that tell these ticks apart, two at most. */
const decimalsOf = (ticks: readonly number[]): number =>
  [0, 1].find((places) => ticks.every((tick) => Math.abs(tick - Number(tick.toFixed(places))) < 1e-9)) ?? 2;

/** An en-dash minus and no "-0"; ticks between two whole attempts are left blank. */
const tickText = (value: number, decimals: number): string =>
  decimals === 0 && !Number.isInteger(value) ? '' : number(value, decimals);

function yAxis(spec: ChartSpec, colours: ChartColours): uPlot.Axis {
  const { rows } = spec;
  if (rows === null)
    return {
      ...axisLook(colours),
      label: spec.yLabel,
      labelSize: axisRoom(colours).label,
      size: axisRoom(colours).y,
      space: axisRoom(colours).upward,
      values: (_, at) => at.map((y) => number(y, spec.lines === undefined ? spec.decimals : decimalsOf(at))),
    };
  const longest = rows.reduce((most, name) => Math.max(most, name.length), 4);
  return {
    ...axisLook(colours),
    size: Math.min(150, 14 + 7.5 * longest),
    splits: () => rows.map((_, at) => -at),
    values: (_, at) => at.map((y) => shortName(rows[-y] ?? '')),
  };
}

const shortName = (name: string): string => (name.length > 18 ? `${name.slice(0, 17)}…` : name);

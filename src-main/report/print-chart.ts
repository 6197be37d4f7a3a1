/**
 * A small line chart for paper: attempts along the bottom, one value each. Drawn here rather than by a charting library, since it
 * needs no page to be drawn on and is a dozen lines of SVG; the charts on the screen are the window's own.
 */
import { notMeasured, number } from './figures.ts';
import { html, type Markup } from './html.ts';

export interface ChartLevel {
  readonly at: number;
  readonly words: string;
}

export interface PrintChart {
  readonly title: string;
  /** One per attempt, oldest first; null where nothing was measured. */
  readonly values: readonly (number | null)[];
  /** One per attempt: a dot where it is so, a cross where not. */
  readonly good: readonly boolean[];
  readonly decimals: number;
  /** Grey band of what is allowed; an open end reaches the edge of the chart. */
  readonly band?: { readonly from?: number; readonly to?: number };
  /** Dashed lines across. */
  readonly levels?: readonly ChartLevel[];
  readonly width_mm: number;
  readonly height_mm: number;
}

const LEFT_mm = 10;
const RIGHT_mm = 1.5;
const BOTTOM_mm = 4;
const TOP_mm = 1.5;
/** More marks than this would run into one another. */
const MOST_MARKS = 80;

const isNumber = (value: number | null | undefined): value is number =>
  typeof value === 'number' && Number.isFinite(value);

/** Lowest and highest value to be shown, with a little air; never a span of zero. */
function spanOf({ values, band, levels = [] }: PrintChart): readonly [number, number] {
  const all = [...values, band?.from, band?.to, ...levels.map(({ at }) => at)].filter(isNumber);
  if (all.length === 0) return [0, 1];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const air = high > low ? 0.08 * (high - low) : Math.max(0.05 * Math.abs(high), 0.5);
  return [low - air, high + air];
}

const f = (value: number): string => value.toFixed(2);

/** Runs of neighbouring values; what was not measured parts them. */
function linePath(values: readonly (number | null)[], x: (at: number) => number, y: (value: number) => number): string {
  return values
    .map((value, at) => {
      if (!isNumber(value)) return '';
      return `${isNumber(values[at - 1]) ? 'L' : 'M'}${f(x(at))} ${f(y(value))}`;
    })
    .join('');
}

/** Whether the curve keeps farther from a level in its first third than in its last: there the level's words stand. */
function isFreeAtStart(values: readonly (number | null)[], level: number): boolean {
  const third = Math.ceil(values.length / 3);
  const nearest = (part: readonly (number | null)[]) =>
    part.filter(isNumber).reduce((least, value) => Math.min(least, Math.abs(value - level)), Infinity);
  return nearest(values.slice(0, third)) > nearest(values.slice(-third));
}

function markAt(x: number, y: number, good: boolean): Markup {
  if (good) return html`<circle cx="${f(x)}" cy="${f(y)}" r="0.7" fill="#111"/>`;
  return html`<path d="M${f(x - 0.8)} ${f(y - 0.8)}l1.6 1.6m0 -1.6l-1.6 1.6" stroke="#111" stroke-width="0.35"/>`;
}

/** The chart under its title. Values that are not finite are left out. */
export function printChart(chart: PrintChart): Markup {
  const { title, values, good, decimals, band, levels = [], width_mm, height_mm } = chart;
  const [low, high] = spanOf(chart);
  const [right, bottom] = [width_mm - RIGHT_mm, height_mm - BOTTOM_mm];
  const x = (at: number) => LEFT_mm + 1 + ((right - LEFT_mm - 2) * (at + 0.5)) / Math.max(1, values.length);
  const y = (value: number) => bottom - ((bottom - TOP_mm) * (value - low)) / (high - low);
  const [bandTop, bandBottom] = [
    isNumber(band?.to) ? y(band.to) : TOP_mm,
    isNumber(band?.from) ? y(band.from) : bottom,
  ];
  const shade =
    band !== undefined &&
    html`<rect x="${LEFT_mm}" y="${f(bandTop)}" width="${right - LEFT_mm}" height="${f(Math.max(0, bandBottom - bandTop))}" fill="#dcdcdc"/>`;
  const lines = levels.map(({ at, words }) => {
    const [place, anchor] = isFreeAtStart(values, at) ? [LEFT_mm + 0.8, 'start'] : [right - 0.5, 'end'];
    return html`<path d="M${LEFT_mm} ${f(y(at))}H${right}" stroke="#111" stroke-width="0.25" stroke-dasharray="1.5 1"/><text x="${place}" y="${f(y(at) - 0.7)}" font-size="2.2" text-anchor="${anchor}">${words}</text>`;
  });
  const every = Math.max(1, Math.ceil(values.length / MOST_MARKS));
  const marks = values.map((value, at) =>
    isNumber(value) && (at % every === 0 || !good[at]) ? markAt(x(at), y(value), good[at] ?? false) : null,
  );
  const axis = (value: number) =>
    html`<text x="${LEFT_mm - 1}" y="${f(y(value))}" font-size="2.3" text-anchor="end" dominant-baseline="central">${number(value, decimals)}</text>`;
  const measured = values.filter(isNumber);
  const ends =
    measured.length === 0
      ? null
      : [Math.min(...measured, ...levels.map(({ at }) => at)), Math.max(...measured, ...levels.map(({ at }) => at))];
  return html`<figure><figcaption>${title}</figcaption><svg width="${width_mm}mm" height="${height_mm}mm" viewBox="0 0 ${width_mm} ${height_mm}" role="img" aria-label="${title}">
${shade}<path d="M${LEFT_mm} ${TOP_mm}V${bottom}H${right}" fill="none" stroke="#111" stroke-width="0.2"/>
<path d="${linePath(values, x, y)}" fill="none" stroke="#111" stroke-width="0.3"/>${marks}${lines}
${ends === null ? html`<text x="${(LEFT_mm + right) / 2}" y="${height_mm / 2}" font-size="2.6" text-anchor="middle">${notMeasured()}</text>` : [axis(ends[0]), ends[1] > ends[0] ? axis(ends[1]) : null]}
<text x="${f(x(0))}" y="${height_mm - 0.8}" font-size="2.3" text-anchor="middle">1</text>${values.length > 1 && html`<text x="${f(x(values.length - 1))}" y="${height_mm - 0.8}" font-size="2.3" text-anchor="middle">${values.length}</text>`}
</svg></figure>`;
}

import * as Plot from '@observablehq/plot';
import { t } from '../i18n/text.ts';
import type { ChartColours } from './chart-colours.ts';
import { type ChartSpec, rangesOf, spreadOf, valueNear } from './chart-spec.ts';
import { lineLook, MARK_CORNERS } from './line-looks.ts';

export interface SvgLook {
  readonly width_px: number;
  readonly height_px: number;
  readonly colours: ChartColours;
  readonly fontSize_px: number;
}

/** Room above the axes for title and names of the curves, below for the note, in sizes of the letters. */
const ABOVE = 3.6;
const BELOW = 2.9;
/** Height of a line of words. */
const LINE = 1.3;
const SVG = 'http://www.w3.org/2000/svg';

/**
 * A chart as a vector drawing of its own: axes, curves with dash and mark, published values, names and a note.
 *
 * @param heads place of the moment shown on each curve, in x
 * @param note set below the chart
 * @returns SVG as text, well formed, higher than asked by a line for each source; needs a document
 */
export function chartSvg(spec: ChartSpec, heads: readonly (number | null)[], note: string, look: SvgLook): string {
  const { width_px, height_px, colours, fontSize_px } = look;
  const { x, y } = rangesOf(spec);
  const below_px = LINE * fontSize_px * (sourceLines(spec).length + (note === '' ? 0 : 1));
  const drawn = Plot.plot({
    width: width_px,
    height: height_px + below_px,
    marginTop: ABOVE * fontSize_px,
    marginBottom: BELOW * fontSize_px + below_px,
    marginLeft: 4.2 * fontSize_px,
    marginRight: 1.6 * fontSize_px,
    style: {
      background: colours.card,
      color: colours.ink,
      fontFamily: 'system-ui, sans-serif',
      fontSize: `${fontSize_px}px`,
    },
    x: { label: spec.xLabel, labelAnchor: 'center', labelArrow: 'none', domain: x, grid: true, nice: false },
    y: { label: spec.yLabel, labelAnchor: 'center', labelArrow: 'none', domain: y, grid: true, nice: false },
    marks: [
      ...levelMarks(spec, look),
      ...lineMarks(spec, look),
      ...publishedMarks(spec, look),
      ...headMarks(spec, heads, look),
    ],
  });
  if (!(drawn instanceof SVGSVGElement)) throw new Error('the chart could not be drawn');
  writeWords(drawn, spec, note, look);
  drawn.setAttribute('xmlns', SVG);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(drawn)}\n`;
}

function levelMarks({ levels }: ChartSpec, { colours }: SvgLook): Plot.Markish[] {
  return [
    Plot.ruleY(levels, { y: 'at', stroke: colours.ink, strokeWidth: 1.5, strokeDasharray: '8 4' }),
    Plot.text(levels, {
      y: 'at',
      text: 'label',
      frameAnchor: 'left',
      textAnchor: 'start',
      dx: 4,
      dy: -7,
      fill: colours.ink,
    }),
  ];
}

function lineMarks({ lines = [], marked = false, joined }: ChartSpec, { colours }: SvgLook): Plot.Markish[] {
  return lines.flatMap(({ xs, ys }, at) => {
    const { dash, mark } = lineLook(at);
    const values = xs.map((x, k) => ({ x, y: ys[k] ?? Number.NaN }));
    // a gap of a marked chart is a point not computed yet; the curve goes on across it, as on the page
    const kept = marked ? values.filter((one) => Number.isFinite(one.y)) : values;
    const line = Plot.line(kept, {
      x: 'x',
      y: 'y',
      stroke: colours.lines[at],
      strokeWidth: 2,
      strokeDasharray: dash.join(' ') || 'none',
    });
    const dots = Plot.dot(kept, { x: 'x', y: 'y', fill: colours.lines[at], symbol: mark, r: 4 });
    return [...(joined ? [line] : []), ...(marked || kept.length === 1 ? [dots] : [])];
  });
}

function publishedMarks({ published = [] }: ChartSpec, { colours }: SvgLook): Plot.Markish[] {
  if (published.length === 0) return [];
  const values = published.map((one, at) => {
    const [low, high] = spreadOf(one);
    return { from: one.x[0], to: one.x[1], x: (one.x[0] + one.x[1]) / 2, y: one.y, low, high, text: String(at + 1) };
  });
  const stroke = colours.missed;
  return [
    Plot.ruleY(values, { y: 'y', x1: 'from', x2: 'to', stroke, strokeWidth: 1.5 }),
    Plot.ruleX(values, { x: 'x', y1: 'low', y2: 'high', stroke, strokeWidth: 1.5 }),
    Plot.dot(values, { x: 'x', y: 'y', stroke, fill: colours.card, strokeWidth: 1.5, r: 5 }),
    Plot.text(values, { x: 'x', y: 'y', text: 'text', dx: 10, dy: -8, fill: stroke }),
  ];
}

function headMarks({ lines = [] }: ChartSpec, heads: readonly (number | null)[], { colours }: SvgLook): Plot.Markish[] {
  const places = [...new Set(heads.filter((x) => x !== null))];
  if (places.length === 0) return [];
  const rings = lines.map((line, at) => {
    const x = heads[at] ?? null;
    const y = x === null ? null : valueNear(line, x, Number.POSITIVE_INFINITY);
    const places = x === null || y === null ? [] : [{ x, y }];
    const look = { stroke: colours.lines[at], fill: colours.card, strokeWidth: 2.5, symbol: lineLook(at).mark, r: 5 };
    return Plot.dot(places, { x: 'x', y: 'y', ...look });
  });
  return [Plot.ruleX(places, { stroke: colours.soft, strokeWidth: 1.5 }), ...rings];
}

/** Title, names of the curves, sources of the published values and the note, as elements of the drawing. */
function writeWords(svg: SVGSVGElement, spec: ChartSpec, note: string, look: SvgLook): void {
  const { fontSize_px, colours, height_px } = look;
  const left = 0.8 * fontSize_px;
  const text = (words: string, x: number, y: number, weight: number) => {
    const element = document.createElementNS(SVG, 'text');
    const attributes = { x, y, fill: colours.ink, 'font-weight': weight, 'text-anchor': 'start' };
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
    element.textContent = words;
    svg.append(element);
  };
  text(spec.title, left, 1.4 * fontSize_px, 700);
  let x = left;
  for (const [at, { name }] of (spec.lines ?? []).entries()) {
    swatch(svg, at, x, 2.5 * fontSize_px, colours.lines[at]!);
    text(name, x + 40, 2.8 * fontSize_px, 400);
    // letters are about half as wide as they are high
    x += 56 + 0.56 * fontSize_px * name.length;
  }
  const sources = sourceLines(spec);
  const foot = height_px + LINE * fontSize_px * (sources.length + (note === '' ? 0 : 1));
  for (const [at, line] of sources.entries())
    text(line, left, foot - (0.6 + LINE * (sources.length - at - (note === '' ? 1 : 0))) * fontSize_px, 400);
  text(note, left, foot - 0.6 * fontSize_px, 400);
  describe(svg, spec);
}

function swatch(svg: SVGSVGElement, at: number, x: number, y: number, colour: string): void {
  const { dash, mark } = lineLook(at);
  const add = (name: string, attributes: Readonly<Record<string, string | number>>) => {
    const element = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
    svg.append(element);
  };
  add('line', {
    x1: x,
    y1: y,
    x2: x + 32,
    y2: y,
    stroke: colour,
    'stroke-width': 2,
    'stroke-dasharray': dash.join(' ') || 'none',
  });
  const corners = MARK_CORNERS[mark];
  if (corners === null) add('circle', { cx: x + 16, cy: y, r: 4, fill: colour });
  else
    add('polygon', { points: corners.map(([dx, dy]) => `${x + 16 + 4 * dx},${y + 4 * dy}`).join(' '), fill: colour });
}

/** The published values by source, with the numbers that they have in the chart. */
function sourceLines({ published = [] }: ChartSpec): readonly string[] {
  const numbers = new Map<string, number[]>();
  for (const [at, { source }] of published.entries()) numbers.set(source, [...(numbers.get(source) ?? []), at + 1]);
  return [...numbers].map(([source, at]) => t('common.chart.publishedNote', { numbers: at.join(', '), source }));
}

/** For who cannot see the drawing. */
function describe(svg: SVGSVGElement, spec: ChartSpec): void {
  const element = document.createElementNS(SVG, 'title');
  element.textContent = spec.title;
  svg.prepend(element);
}

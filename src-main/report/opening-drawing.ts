/** The opening drawn to scale, as the surgeon sees it: 12 o'clock above, x to the right. */
import type { AttemptResult, Scenario } from '../../physics/index.ts';
import { t } from '../words/words.ts';
import { plain } from './figures.ts';
import { type HtmlValue, html, type Markup } from './html.ts';

type Point = readonly [number, number];

/** Millimetres on paper per millimetre of the eye: the largest at which the opening fits. */
const SCALES = [10, 8, 6, 5, 4] as const;
/** Side of the drawing on paper, mm. */
const SIDE_mm = 84;
/** Room for the clock hours around what is drawn, mm on paper. */
const RIM_mm = 6.5;
const GREY = '#8a8a8a';
const BAND = '#dcdcdc';
const OPTIC_DASH = '2.4 1 0.4 1';
const TARGET_DASH = '1.2 0.9';

/** Coordinates are in mm on paper about the target's centre, y down. */
const place = (scale: number, [x, y]: Point): string => `${(scale * x).toFixed(2)} ${(-scale * y).toFixed(2)}`;

function path(scale: number, points: readonly Point[], closed: boolean): string {
  if (points.length === 0) return '';
  return `M${points.map((point) => place(scale, point)).join('L')}${closed ? 'Z' : ''}`;
}

/** A ring as one path that is filled between its two circles. */
function ring(inner_mm: number, outer_mm: number): string {
  const circle = (r: number) => `M${r} 0A${r} ${r} 0 1 0 ${-r} 0A${r} ${r} 0 1 0 ${r} 0Z`;
  return `${circle(outer_mm)}${circle(inner_mm)}`;
}

export interface ToleranceBand {
  readonly inner_mm: number;
  readonly outer_mm: number;
  readonly words: string;
}

/**
 * Radii between which the scenario wants the margin: by its limit on the peak deviation from the target circle, else by its
 * limits on the diameter. Null when it sets neither.
 */
export function toleranceBand({ target, tolerances }: Scenario): ToleranceBand | null {
  const radius_mm = target.diameter_mm / 2;
  const peak = tolerances.find(({ metric }) => metric === 'peakDeviation_mm')?.atMost;
  if (peak !== undefined) {
    const inner_mm = Math.max(0, radius_mm - peak);
    return { inner_mm, outer_mm: radius_mm + peak, words: t('report.drawing.withinTarget', { mm: plain(peak) }) };
  }
  const diameter = tolerances.find(({ metric }) => metric === 'equivalentDiameter_mm');
  if (diameter?.atLeast === undefined || diameter.atMost === undefined) return null;
  const words = t('report.drawing.diameters', { low: plain(diameter.atLeast), high: plain(diameter.atMost) });
  return { inner_mm: diameter.atLeast / 2, outer_mm: diameter.atMost / 2, words };
}

function clockFace(radius: number): Markup[] {
  return Array.from({ length: 12 }, (_, k) => {
    const hour = k + 1;
    const angle = Math.PI / 2 - (hour * Math.PI) / 6;
    const at = (r: number) => [(r * Math.cos(angle)).toFixed(2), (-r * Math.sin(angle)).toFixed(2)] as const;
    const [from, to, word] = [at(radius), at(radius + 1.6), at(radius + 4)];
    return html`<line x1="${from[0]}" y1="${from[1]}" x2="${to[0]}" y2="${to[1]}" stroke="#111" stroke-width="0.25"/><text x="${word[0]}" y="${word[1]}" font-size="2.9" text-anchor="middle" dominant-baseline="central">${hour}</text>`;
  });
}

function scaleBar(scale: number): Markup {
  const [x, y] = [-SIDE_mm / 2 + 1, SIDE_mm / 2 - 2];
  return html`<path d="M${x} ${y - 1.2}v2.4M${x} ${y}h${scale}M${x + scale} ${y - 1.2}v2.4" stroke="#111" stroke-width="0.4" fill="none"/><text x="${x}" y="${y - 2}" font-size="2.9">1 mm</text>`;
}

/** Where the centroid lies: metrics give it as a distance and a clock hour. */
function centroidOf({ opening }: AttemptResult): Point | null {
  if (opening === null) return null;
  const angle = Math.PI / 2 - (opening.centroidDirection_clock_h * Math.PI) / 6;
  const point: Point = [opening.centroidDistance_mm * Math.cos(angle), opening.centroidDistance_mm * Math.sin(angle)];
  return point.every(Number.isFinite) ? point : null;
}

const reach = (points: readonly Point[]): number =>
  points.reduce((most, [x, y]) => Math.max(most, Math.hypot(x, y)), 0);
const finite = (points: readonly Point[]): readonly Point[] => points.filter((point) => point.every(Number.isFinite));

function scaleFor(reach_mm: number): number {
  return SCALES.find((scale) => scale * reach_mm + RIM_mm <= SIDE_mm / 2) ?? SCALES[SCALES.length - 1];
}

/** One line of the key under the drawing. */
function key(sample: Markup, words: HtmlValue): Markup {
  return html`<svg width="8mm" height="3mm" viewBox="0 0 8 3" aria-hidden="true">${sample}</svg><span>${words}</span>`;
}

/** A line that is drawn on the face. */
interface DrawnLine {
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly stroke: string;
  readonly width_mm: number;
}

const lineMarkup = (scale: number, { points, closed, stroke, width_mm }: DrawnLine): Markup =>
  html`<path d="${path(scale, points, closed)}" fill="none" stroke="${stroke}" stroke-width="${width_mm}" stroke-linejoin="round"/>`;

function centroidMarkup(scale: number, centroid: Point): Markup {
  const [x, y] = [(scale * centroid[0]).toFixed(2), (-scale * centroid[1]).toFixed(2)];
  return html`<path d="M0 0L${x} ${y}" stroke="#111" stroke-width="0.2"/><circle cx="${x}" cy="${y}" r="0.9" fill="#fff" stroke="#111" stroke-width="0.35"/>`;
}

/** Clock face, target with its band, optic, lines and scale bar. */
function face(lines: readonly DrawnLine[], scenario: Scenario, centroid: Point | null, title: string): Markup {
  const band = toleranceBand(scenario);
  const optic_mm = scenario.target.opticDiameter_mm / 2;
  const target_mm = scenario.target.diameter_mm / 2;
  const scale = scaleFor(Math.max(optic_mm, band?.outer_mm ?? 0, ...lines.map(({ points }) => reach(points))));
  const half = SIDE_mm / 2;
  const radius = half - RIM_mm + 0.5;
  const grey =
    band && html`<path d="${ring(scale * band.inner_mm, scale * band.outer_mm)}" fill="${BAND}" fill-rule="evenodd"/>`;
  return html`<svg width="${SIDE_mm}mm" height="${SIDE_mm}mm" viewBox="${-half} ${-half} ${SIDE_mm} ${SIDE_mm}" role="img" aria-label="${t('report.drawing.face', { title, scale })}">
<circle r="${radius}" fill="none" stroke="#111" stroke-width="0.2"/>${clockFace(radius)}${grey}
<circle r="${scale * optic_mm}" fill="none" stroke="${GREY}" stroke-width="0.3" stroke-dasharray="${OPTIC_DASH}"/>
<circle r="${scale * target_mm}" fill="none" stroke="#111" stroke-width="0.25" stroke-dasharray="${TARGET_DASH}"/>
${lines.map((line) => lineMarkup(scale, line))}
<path d="M-1.6 0H1.6M0 -1.6V1.6" stroke="#111" stroke-width="0.25"/>${centroid && centroidMarkup(scale, centroid)}
${scaleBar(scale)}<text x="${half - 1}" y="${half - 1.5}" font-size="2.9" text-anchor="end">${scale} : 1</text>
</svg>`;
}

/** The lines of the key that every drawing has. */
function commonKeys(scenario: Scenario): Markup {
  const { target } = scenario;
  const band = toleranceBand(scenario);
  const dashed = html`<path d="M0 1.5H8" stroke="#111" stroke-width="0.25" stroke-dasharray="${TARGET_DASH}"/>`;
  const optic = html`<path d="M0 1.5H8" stroke="${GREY}" stroke-width="0.3" stroke-dasharray="${OPTIC_DASH}"/>`;
  return html`${key(dashed, t('report.drawing.target', { mm: plain(target.diameter_mm) }))}${band && key(html`<path d="M0 0H8V3H0Z" fill="${BAND}"/>`, band.words)}${key(optic, t('report.drawing.optic', { mm: plain(target.opticDiameter_mm) }))}`;
}

const sample = (stroke: string, width_mm: number): Markup =>
  html`<path d="M0 1.5H8" stroke="${stroke}" stroke-width="${width_mm}"/>`;

/**
 * One attempt's drawing with its key: the margin of the relaxed opening, or the tears of one that was not finished. Prints at the
 * scale it names, if the print is not shrunk to fit.
 */
export function openingDrawing(result: AttemptResult, scenario: Scenario): Markup {
  const { outline_mm, tears } = result;
  const closed = outline_mm !== null;
  const torn = outline_mm === null ? tears.map(({ relaxed_mm }) => relaxed_mm) : [outline_mm];
  const lines = torn.map((points) => ({ points: finite(points), closed, stroke: '#111', width_mm: 0.7 }));
  const centroid = centroidOf(result);
  const centres = html`<path d="M1 1.5H4M2.5 0V3" stroke="#111" stroke-width="0.25"/><circle cx="6.5" cy="1.5" r="0.9" fill="#fff" stroke="#111" stroke-width="0.35"/>`;
  const words = t(closed ? 'report.drawing.margin' : 'report.drawing.tornSoFar');
  const centre = t(`report.centre.${scenario.target.reference}`);
  return html`${face(lines, scenario, centroid, t('report.drawing.opening'))}<div class="key">${key(sample('#111', 0.7), words)}${commonKeys(scenario)}${centroid && key(centres, t('report.drawing.centres', { centre }))}</div>`;
}

/** Several openings over each other, the last one heavy. `outlines` in order, oldest first. */
export function openingsDrawing(outlines: readonly (readonly Point[])[], scenario: Scenario): Markup {
  const lines = outlines.map((points, at): DrawnLine => {
    const last = at === outlines.length - 1;
    return { points: finite(points), closed: true, stroke: last ? '#111' : '#666', width_mm: last ? 0.8 : 0.25 };
  });
  const earlier =
    outlines.length > 1 && key(sample('#666', 0.25), t('report.drawing.earlier', { count: outlines.length - 1 }));
  const last = outlines.length > 0 && key(sample('#111', 0.8), t('report.drawing.last'));
  return html`${face(lines, scenario, null, t('report.drawing.openings'))}<div class="key">${last}${earlier}${commonKeys(scenario)}</div>`;
}

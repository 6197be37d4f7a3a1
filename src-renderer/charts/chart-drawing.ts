/** What is drawn over and under uPlot's own axes. All lengths in canvas pixels. */
import type uPlot from 'uplot';
import type { ChartColours } from './chart-colours.ts';
import type { ChartSpec } from './chart-spec.ts';

/** Half the size of a mark, CSS pixels. */
const MARK_px = 4;

/** The band of tolerance, under everything else, with its two edges drawn so that it needs no colour. */
export function drawBand(plot: uPlot, { band }: ChartSpec, colours: ChartColours): void {
  if (band === null) return;
  const { ctx, bbox } = plot;
  const clamp = (value: number, from: number, size: number) => Math.max(from, Math.min(from + size, value));
  const upright = band.axis === 'x';
  const at = (value: number | null, open: number): number =>
    value === null
      ? open
      : upright
        ? clamp(plot.valToPos(value, 'x', true), bbox.left, bbox.width)
        : clamp(plot.valToPos(value, 'y', true), bbox.top, bbox.height);
  const [a, b] = upright
    ? [at(band.from, bbox.left), at(band.to, bbox.left + bbox.width)]
    : [at(band.to, bbox.top), at(band.from, bbox.top + bbox.height)];
  ctx.save();
  ctx.fillStyle = colours.band;
  ctx.strokeStyle = colours.met;
  ctx.lineWidth = devicePixelRatio;
  ctx.setLineDash([6 * devicePixelRatio, 4 * devicePixelRatio]);
  if (upright) ctx.fillRect(a, bbox.top, b - a, bbox.height);
  else ctx.fillRect(bbox.left, a, bbox.width, b - a);
  ctx.beginPath();
  for (const [value, edge] of [
    [band.from, upright ? a : b],
    [band.to, upright ? b : a],
  ] as const) {
    if (value === null) continue;
    if (upright) {
      ctx.moveTo(edge, bbox.top);
      ctx.lineTo(edge, bbox.top + bbox.height);
    } else {
      ctx.moveTo(bbox.left, edge);
      ctx.lineTo(bbox.left + bbox.width, edge);
    }
  }
  ctx.stroke();
  ctx.restore();
}

/** Lines that a curve is judged by, each with its name. */
export function drawLevels(plot: uPlot, { levels, lines }: ChartSpec, colours: ChartColours): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.strokeStyle = colours.ink;
  ctx.fillStyle = colours.ink;
  ctx.lineWidth = 1.5 * devicePixelRatio;
  ctx.font = scaledFont(colours.font);
  ctx.textAlign = lines === undefined ? 'right' : 'left';
  ctx.textBaseline = 'bottom';
  ctx.setLineDash([8 * devicePixelRatio, 4 * devicePixelRatio]);
  for (const { at, label } of levels) {
    const y = plot.valToPos(at, 'y', true);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    // curves begin low and end at the level: their name of it stands where they begin
    const x = lines === undefined ? bbox.left + bbox.width - 4 * devicePixelRatio : bbox.left + 4 * devicePixelRatio;
    ctx.fillText(label, x, y - 2 * devicePixelRatio);
  }
  ctx.restore();
}

/** The points: dots for what was met, crosses for what was not; what was not measured stands at the foot. */
export function drawMarks(plot: uPlot, { points }: ChartSpec, colours: ChartColours): void {
  const { ctx, bbox } = plot;
  const r = MARK_px * devicePixelRatio;
  ctx.save();
  ctx.lineWidth = 2 * devicePixelRatio;
  for (const point of points) {
    const x = plot.valToPos(point.x, 'x', true);
    const y = point.y === null ? bbox.top + bbox.height - 2 * r : plot.valToPos(point.y, 'y', true);
    ctx.beginPath();
    if (point.mark === 'dot') {
      ctx.fillStyle = colours.met;
      ctx.arc(x, y, r, 0, 2 * Math.PI);
      ctx.fill();
    } else {
      ctx.strokeStyle = colours.missed;
      ctx.moveTo(x - r, y - r);
      ctx.lineTo(x + r, y + r);
      ctx.moveTo(x - r, y + r);
      ctx.lineTo(x + r, y - r);
      ctx.stroke();
    }
  }
  ctx.restore();
}

/** A CSS font in canvas pixels. */
const scaledFont = (font: string): string =>
  font.replace(/^(\d+)px/, (_, size: string) => `${Math.round(Number(size) * devicePixelRatio)}px`);

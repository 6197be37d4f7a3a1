/** What belongs to several curves: their marks, the published values beside them, the moment shown. Canvas pixels. */
import type uPlot from 'uplot';
import type { ChartColours } from './chart-colours.ts';
import { type ChartSpec, spreadOf, valueNear } from './chart-spec.ts';
import { type LineLook, lineLook, MARK_CORNERS } from './line-looks.ts';

/** Half the size of a mark and of the cap of an error bar, CSS pixels. */
const MARK_px = 4;
const CAP_px = 5;

function markPath(ctx: CanvasRenderingContext2D, mark: LineLook['mark'], x: number, y: number, size: number): void {
  const corners = MARK_CORNERS[mark];
  ctx.beginPath();
  if (corners === null) ctx.arc(x, y, size, 0, 2 * Math.PI);
  else for (const [dx, dy] of corners) ctx.lineTo(x + size * dx, y + size * dy);
  ctx.closePath();
}

/** A mark at every value of the curves, for charts with few. */
export function drawLineMarks(plot: uPlot, { lines = [], marked = false }: ChartSpec, colours: ChartColours): void {
  if (!marked) return;
  const { ctx } = plot;
  ctx.save();
  for (const [at, { xs, ys }] of lines.entries()) {
    ctx.fillStyle = colours.lines[at]!;
    for (const [k, y] of ys.entries()) {
      if (y === null) continue;
      markPath(
        ctx,
        lineLook(at).mark,
        plot.valToPos(xs[k]!, 'x', true),
        plot.valToPos(y, 'y', true),
        MARK_px * devicePixelRatio,
      );
      ctx.fill();
    }
  }
  ctx.restore();
}

/** Published values: hollow rings with bars for the range of x and for the spread, numbered as in the list below. */
export function drawPublished(plot: uPlot, { published = [] }: ChartSpec, colours: ChartColours): void {
  const { ctx } = plot;
  const dpr = devicePixelRatio;
  ctx.save();
  ctx.setLineDash([]);
  ctx.strokeStyle = colours.missed;
  ctx.fillStyle = colours.missed;
  ctx.lineWidth = 1.5 * dpr;
  ctx.font = colours.font.replace(/^(\d+)px/, (_, size: string) => `${Math.round(Number(size) * dpr)}px`);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'bottom';
  for (const [at, one] of published.entries()) {
    const [left, right] = one.x.map((x) => plot.valToPos(x, 'x', true)) as [number, number];
    const [low, high] = spreadOf(one).map((y) => plot.valToPos(y, 'y', true)) as [number, number];
    const y = plot.valToPos(one.y, 'y', true);
    const x = (left + right) / 2;
    const bar = (fromX: number, fromY: number, toX: number, toY: number, capX: number, capY: number): void => {
      ctx.beginPath();
      ctx.moveTo(fromX, fromY);
      ctx.lineTo(toX, toY);
      for (const [cx, cy] of [
        [fromX, fromY],
        [toX, toY],
      ] as const) {
        ctx.moveTo(cx - capX, cy - capY);
        ctx.lineTo(cx + capX, cy + capY);
      }
      ctx.stroke();
    };
    if (right > left) bar(left, y, right, y, 0, CAP_px * dpr);
    if (low !== high) bar(x, low, x, high, CAP_px * dpr, 0);
    ctx.beginPath();
    ctx.arc(x, y, 5 * dpr, 0, 2 * Math.PI);
    ctx.fillStyle = colours.card;
    ctx.fill();
    ctx.stroke();
    ctx.fillStyle = colours.missed;
    // below where there is a bar of spread, so that a point of the same place without one can still be read
    ctx.fillText(String(at + 1), x + 7 * dpr, one.spread === null ? y - 2 * dpr : y + 18 * dpr);
  }
  ctx.restore();
}

/** The moment shown: an upright line through each curve's place there, with the curve's mark, hollow. */
export function drawHeads(
  plot: uPlot,
  { lines = [] }: ChartSpec,
  heads: readonly (number | null)[],
  colours: ChartColours,
): void {
  const { ctx, bbox } = plot;
  const dpr = devicePixelRatio;
  ctx.save();
  // a curve leaves its dash behind
  ctx.setLineDash([]);
  ctx.lineWidth = 1.5 * dpr;
  for (const [at, x] of heads.entries()) {
    if (x === null || !Number.isFinite(x)) continue;
    const place = plot.valToPos(x, 'x', true);
    // one line where both curves share the moment
    if (heads.indexOf(x) === at) {
      ctx.strokeStyle = colours.soft;
      ctx.beginPath();
      ctx.moveTo(place, bbox.top);
      ctx.lineTo(place, bbox.top + bbox.height);
      ctx.stroke();
    }
    const line = lines[at];
    const y = line === undefined ? null : valueNear(line, x, Number.POSITIVE_INFINITY);
    if (y === null) continue;
    markPath(ctx, lineLook(at).mark, place, plot.valToPos(y, 'y', true), 5.5 * dpr);
    ctx.fillStyle = colours.card;
    ctx.fill();
    ctx.strokeStyle = colours.lines[at]!;
    ctx.lineWidth = 2.5 * dpr;
    ctx.stroke();
  }
  ctx.restore();
}

import { getStroke } from 'perfect-freehand';

/** A place on the overlay as shares of its width and height, so that drawings keep their place when the window changes. */
export type Share = readonly [number, number];

/** One thing drawn over the eyes. */
export type DrawnShape =
  | { readonly id: number; readonly kind: 'pen'; readonly points: readonly Share[] }
  | { readonly id: number; readonly kind: 'arrow'; readonly from: Share; readonly to: Share };

export interface OverlaySize {
  readonly width_px: number;
  readonly height_px: number;
}

/** Widths on a screen 1000 px wide; they grow with it. */
const PEN_px = 7;
const SHAFT_px = 5;
const HEAD_px = 22;
/** An arrow shorter than this was a slip of the hand, px. */
const SHORTEST_px = 12;
/** How near the eraser must come, px on a screen 1000 px wide. */
const REACH_px = 14;

const scaleOf = ({ width_px }: OverlaySize): number => Math.max(0.6, width_px / 1000);
const onScreen = ([x, y]: Share, { width_px, height_px }: OverlaySize): Share => [x * width_px, y * height_px];

/** The outline of a shape as the path of an SVG; empty for an arrow too short to be meant. */
export function outlineOf(shape: DrawnShape, size: OverlaySize): string {
  const scale = scaleOf(size);
  if (shape.kind === 'arrow') return arrowOutline(onScreen(shape.from, size), onScreen(shape.to, size), scale);
  const points = shape.points.map((point) => [...onScreen(point, size)]);
  const outline = getStroke(points, { size: PEN_px * scale, thinning: 0.3, smoothing: 0.6, streamline: 0.4 });
  return polygon(outline.map(([x = 0, y = 0]) => [x, y] as const));
}

function arrowOutline([x0, y0]: Share, [x1, y1]: Share, scale: number): string {
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length < SHORTEST_px) return '';
  const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
  const at = (along: number, across: number): Share => [x0 + ux * along - uy * across, y0 + uy * along + ux * across];
  const head = Math.min(HEAD_px * scale, length);
  const half = (SHAFT_px * scale) / 2;
  const neck = length - head;
  return polygon([
    at(0, half),
    at(neck, half),
    at(neck, head / 2),
    [x1, y1],
    at(neck, -head / 2),
    at(neck, -half),
    at(0, -half),
  ]);
}

const polygon = (points: readonly Share[]): string =>
  points.length === 0 ? '' : `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;

/** The latest shape under a place, null where there is none. */
export function shapeAt(shapes: readonly DrawnShape[], at: Share, size: OverlaySize): DrawnShape | null {
  const reach = REACH_px * scaleOf(size);
  const place = onScreen(at, size);
  const near = (shape: DrawnShape) => {
    const line = shape.kind === 'arrow' ? [shape.from, shape.to] : shape.points;
    const points = line.map((point) => onScreen(point, size));
    return points.some((point, i) => distanceToLine(place, point, points[i + 1] ?? point) < reach);
  };
  return shapes.findLast(near) ?? null;
}

function distanceToLine([x, y]: Share, [ax, ay]: Share, [bx, by]: Share): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length2 = dx * dx + dy * dy;
  const along = length2 > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length2)) : 0;
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}

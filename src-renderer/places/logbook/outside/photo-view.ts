import type { Vec2 } from '../../../../physics/index.ts';

/** The part of a photograph that is looked at: its left upper corner and its width, in pixels of the photograph. */
export interface PhotoView {
  readonly x: number;
  readonly y: number;
  /** Screen pixels per pixel of the photograph. */
  readonly zoom: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

const LARGEST_ZOOM = 20;

/** The whole photograph in the middle of its frame. */
export function fitted(photo: Size, frame: Size): PhotoView {
  const zoom = Math.min(frame.width / photo.width, frame.height / photo.height) || 1;
  return { zoom, x: (photo.width - frame.width / zoom) / 2, y: (photo.height - frame.height / zoom) / 2 };
}

/** After a change of the frame: all of the photograph if all was in sight, else the same middle at the same zoom. */
export function resized(view: PhotoView, photo: Size, from: Size, to: Size): PhotoView {
  const all = fitted(photo, from);
  if (view.zoom === all.zoom && view.x === all.x && view.y === all.y) return fitted(photo, to);
  const x = view.x + (from.width - to.width) / view.zoom / 2;
  const y = view.y + (from.height - to.height) / view.zoom / 2;
  return kept({ zoom: view.zoom, x, y }, photo, to);
}

/** Nearer or farther by a factor, the place under `at` (screen pixels of the frame) staying where it is. */
export function zoomed(view: PhotoView, factor: number, at: Vec2, photo: Size, frame: Size): PhotoView {
  const smallest = fitted(photo, frame).zoom / 2;
  const zoom = Math.min(Math.max(LARGEST_ZOOM, smallest), Math.max(smallest, view.zoom * factor));
  const [px, py] = toPhoto(view, at);
  return kept({ zoom, x: px - at[0] / zoom, y: py - at[1] / zoom }, photo, frame);
}

export const panned = (view: PhotoView, dx: number, dy: number, photo: Size, frame: Size): PhotoView =>
  kept({ ...view, x: view.x - dx / view.zoom, y: view.y - dy / view.zoom }, photo, frame);

/** At least a part of the photograph stays in sight: the middle of the frame lies on it. */
function kept(view: PhotoView, photo: Size, frame: Size): PhotoView {
  const [halfX, halfY] = [frame.width / view.zoom / 2, frame.height / view.zoom / 2];
  const within = (value: number, high: number) => Math.min(high, Math.max(0, value));
  return {
    zoom: view.zoom,
    x: within(view.x + halfX, photo.width) - halfX,
    y: within(view.y + halfY, photo.height) - halfY,
  };
}

export const toPhoto = (view: PhotoView, [x, y]: Vec2): Vec2 => [view.x + x / view.zoom, view.y + y / view.zoom];
export const toFrame = (view: PhotoView, [x, y]: Vec2): Vec2 => [(x - view.x) * view.zoom, (y - view.y) * view.zoom];

import { type KeyboardEvent, type PointerEvent, type RefObject, useState } from 'react';
import type { Vec2 } from '../../../../physics/index.ts';
import type { PhotoBoardProps } from './PhotoBoard.tsx';
import type { MarkName } from './photo-marks.ts';
import { toPhoto } from './photo-view.ts';
import { type PhotoLook, placeIn, ZOOM_STEP } from './use-photo-view.ts';

/** A press that moves farther than this is a drag, screen pixels. */
const DRAG_px = 4;
/** Way of the crosshair per key, screen pixels; a tenth with Shift. */
const KEY_STEP_px = 10;
/** So near an edge of the margin a click means that edge, screen pixels. */
const REACH_px = 7;

export const ARROWS: Readonly<Record<string, Vec2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

interface Press {
  readonly from: Vec2;
  readonly last: Vec2;
  readonly mark: MarkName | null;
  readonly moved: boolean;
}

export const withinPhoto = ([x, y]: Vec2, { width, height }: PhotoBoardProps['photo']): Vec2 => [
  Math.min(width, Math.max(0, x)),
  Math.min(height, Math.max(0, y)),
];

/** Pointer on the photograph: a click places, a drag on a mark moves it, a drag on the picture moves the picture. */
export function usePhotoPointer(props: PhotoBoardProps, look: PhotoLook, element: RefObject<SVGSVGElement | null>) {
  const [press, setPress] = useState<Press | null>(null);
  const { photo } = props;
  const pressed = (event: PointerEvent, mark: MarkName | null) => {
    const svg = element.current;
    if (event.button !== 0 || svg === null) return;
    event.stopPropagation();
    svg.setPointerCapture(event.pointerId);
    const at = placeIn(svg, event);
    setPress({ from: at, last: at, mark, moved: false });
  };
  const dragged = (event: PointerEvent<SVGSVGElement>) => {
    if (press === null) return;
    const at = placeIn(event.currentTarget, event);
    const moved = press.moved || Math.hypot(at[0] - press.from[0], at[1] - press.from[1]) > DRAG_px;
    if (moved && press.mark !== null) props.onMove(press.mark, withinPhoto(toPhoto(look.view, at), photo));
    if (moved && press.mark === null) look.pan(at[0] - press.last[0], at[1] - press.last[1]);
    setPress({ ...press, last: at, moved });
  };
  const released = (event: PointerEvent<SVGSVGElement>) => {
    if (press === null) return;
    setPress(null);
    if (press.moved) return props.onMoved();
    if (press.mark !== null) return;
    const at = toPhoto(look.view, placeIn(event.currentTarget, event));
    const inside = withinPhoto(at, photo);
    if (at[0] === inside[0] && at[1] === inside[1]) props.onPlace(at, REACH_px / look.view.zoom);
  };
  return { pressed, dragged, released, dropped: () => setPress(null) };
}

/** Keyboard on the photograph: a crosshair that the arrows move and Enter places at; plus, minus and 0 zoom. */
export function usePhotoKeys(props: PhotoBoardProps, look: PhotoLook) {
  const [cross, setCross] = useState<Vec2 | null>(null);
  const { frame, view } = look;
  const keyed = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const onBoard = event.target === event.currentTarget;
    const way = ARROWS[event.key];
    if (event.key === '+' || event.key === '=') look.zoomBy(ZOOM_STEP, cross ?? undefined);
    else if (event.key === '-') look.zoomBy(1 / ZOOM_STEP, cross ?? undefined);
    else if (event.key === '0') look.showAll();
    else if (onBoard && event.key === 'Enter' && cross !== null) {
      props.onPlace(withinPhoto(toPhoto(view, cross), props.photo), REACH_px / view.zoom);
    } else if (onBoard && way !== undefined) {
      const step = event.shiftKey ? KEY_STEP_px / 10 : KEY_STEP_px;
      const [x, y] = cross ?? [frame.width / 2, frame.height / 2];
      const within = (value: number, high: number) => Math.min(high, Math.max(0, value));
      setCross([within(x + way[0] * step, frame.width), within(y + way[1] * step, frame.height)]);
    } else return;
    event.preventDefault();
  };
  return { cross, keyed, left: () => setCross(null) };
}

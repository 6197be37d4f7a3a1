import { type RefObject, useEffect, useLayoutEffect, useState } from 'react';
import type { Vec2 } from '../../../../physics/index.ts';
import type { Photo } from './open-photo.ts';
import { fitted, type PhotoView, panned, resized, type Size, zoomed } from './photo-view.ts';

export const ZOOM_STEP = 1.25;
/** Before the frame has been measured. */
const FIRST_FRAME: Size = { width: 600, height: 450 };

export interface PhotoLook {
  readonly view: PhotoView;
  readonly frame: Size;
  zoomBy(factor: number, at?: Vec2): void;
  pan(dx: number, dy: number): void;
  showAll(): void;
}

/** Place of an event in an element, screen pixels. */
export function placeIn(element: Element, event: { readonly clientX: number; readonly clientY: number }): Vec2 {
  const box = element.getBoundingClientRect();
  return [event.clientX - box.left, event.clientY - box.top];
}

/** Null while it takes no room. */
function sizeOf({ clientWidth, clientHeight }: Element): Size | null {
  return clientWidth === 0 || clientHeight === 0 ? null : { width: clientWidth, height: clientHeight };
}

/** What part of the photograph is in sight: all of it at first, then what the person chose; the wheel zooms. */
export function usePhotoView(photo: Photo, element: RefObject<SVGSVGElement | null>): PhotoLook {
  const [frame, setFrame] = useState<Size>(FIRST_FRAME);
  const [view, setView] = useState<PhotoView>(() => fitted(photo, FIRST_FRAME));

  // before the first picture is drawn: a click must never fall on a photograph that is about to move
  useLayoutEffect(() => {
    const svg = element.current;
    if (svg === null) return;
    let last = sizeOf(svg) ?? FIRST_FRAME;
    setFrame(last);
    setView(fitted(photo, last));
    const sizes = new ResizeObserver(() => {
      const size = sizeOf(svg);
      if (size === null || (size.width === last.width && size.height === last.height)) return;
      const from = last;
      last = size;
      setFrame(size);
      setView((now) => resized(now, photo, from, size));
    });
    sizes.observe(svg);
    return () => sizes.disconnect();
  }, [photo, element]);

  useEffect(() => {
    const svg = element.current;
    if (svg === null) return;
    const turned = (event: WheelEvent) => {
      event.preventDefault();
      const at = placeIn(svg, event);
      setView((now) => zoomed(now, event.deltaY < 0 ? ZOOM_STEP : 1 / ZOOM_STEP, at, photo, frame));
    };
    // React listens to wheels passively: the page would scroll along
    svg.addEventListener('wheel', turned, { passive: false });
    return () => svg.removeEventListener('wheel', turned);
  }, [photo, frame, element]);

  return {
    view,
    frame,
    zoomBy: (factor, at = [frame.width / 2, frame.height / 2]) =>
      setView((now) => zoomed(now, factor, at, photo, frame)),
    pan: (dx, dy) => setView((now) => panned(now, dx, dy, photo, frame)),
    showAll: () => setView(fitted(photo, frame)),
  };
}

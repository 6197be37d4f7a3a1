import type { Vec2 } from '../../../physics/index.ts';
import { toMm } from '../../stage/microscope.ts';
import type { AttemptSession } from './attempt-session.ts';
import type { StageMount } from './stage-mount.ts';
import { magnify } from './use-attempt-keys.ts';

/** Height per notch of the wheel, mm. A notch is 100 units in most browsers; touch pads give many small ones. */
const RAISE_PER_UNIT_mm = 0.0008;

/** Mouse, pen and touch on the stage. Returns what takes them off again. */
export function listenToHands(
  place: HTMLElement,
  session: Pick<AttemptSession, 'act'>,
  mount: () => StageMount | null,
  magnifyBy: (direction: 1 | -1) => void = magnify,
): () => void {
  const controller = new AbortController();
  const { signal } = controller;
  let pressing: number | null = null;
  const point = (event: PointerEvent) => {
    const frame = mount()?.stage?.frame;
    if (frame === undefined) return;
    const box = place.getBoundingClientRect();
    const at: Vec2 = [event.clientX - box.left, event.clientY - box.top];
    session.act({ kind: 'point', at_mm: toMm(frame, at) });
  };
  const onStage = (event: Event) => event.target === place || event.target instanceof HTMLCanvasElement;
  place.addEventListener(
    'pointerdown',
    (event) => {
      if (!onStage(event) || event.button !== 0 || pressing !== null) return;
      pressing = event.pointerId;
      place.setPointerCapture(event.pointerId);
      place.focus({ preventScroll: true });
      point(event);
      session.act({ kind: 'press' });
      event.preventDefault();
    },
    { signal },
  );
  place.addEventListener(
    'pointermove',
    (event) => {
      if (pressing === null ? onStage(event) : event.pointerId === pressing) point(event);
    },
    { signal },
  );
  const lift = (event: PointerEvent) => {
    if (event.pointerId !== pressing) return;
    pressing = null;
    session.act({ kind: 'release' });
  };
  place.addEventListener('pointerup', lift, { signal });
  place.addEventListener('pointercancel', lift, { signal });
  place.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  place.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      if (event.ctrlKey) magnifyBy(event.deltaY < 0 ? 1 : -1);
      else session.act({ kind: 'raise', by_mm: -event.deltaY * RAISE_PER_UNIT_mm });
    },
    { passive: false, signal },
  );
  return () => controller.abort();
}

import type { Vec2 } from '../../physics/index.ts';
import { useHands } from '../stores/hands-store.ts';
import type { HandEvent } from './hand.ts';
import { type MouseDeed, mouseAfter, RESTING_MOUSE } from './mouse-hand.ts';
import { penAfter, penGone, RESTING_PEN } from './pen-hand.ts';
import { NO_TOUCH, type TouchDeed, touchAfter } from './touch-hand.ts';

/** A touch so soon after a pen was near is the palm of its hand, ms. Assumed, 300 to 1000. */
const PALM_ms = 500;
/** How often a resting finger is looked at, ms. */
const REST_LOOK_ms = 40;
const BARREL = 2;

/** The stage that a pointer is on. */
export interface PointedStage {
  readonly place: HTMLElement;
  act(event: HandEvent): void;
  /** Stage pixels to the eye frame; null while nothing is drawn. */
  toMm(): ((at_px: Vec2) => Vec2) | null;
  magnifyBy(direction: 1 | -1): void;
}

/** One device's share in what the stage hears. */
interface Device {
  heard(event: PointerEvent, at_px: Vec2, toMm: (at_px: Vec2) => Vec2): void;
  /** Lets go of what it holds; when nobody listens any more. */
  gone(): void;
}

/** Mouse, pen and fingers on the stage. @returns what takes them off again */
export function listenToPointers(stage: PointedStage): () => void {
  const { place } = stage;
  const controller = new AbortController();
  const { signal } = controller;
  const mouse = mouseOn(stage);
  const pen = penOn(stage);
  const devices: Readonly<Record<string, Device>> = { mouse, pen, touch: fingersOn(stage, pen) };
  const onStage = (event: Event) => event.target === place || event.target instanceof HTMLCanvasElement;
  const heard = (event: PointerEvent) => {
    if (!(onStage(event) || place.hasPointerCapture(event.pointerId))) return;
    const device = devices[event.pointerType] ?? mouse;
    const toMm = stage.toMm();
    if (toMm === null) {
      // nothing is drawn just now: nobody can point at anything, but letting go must work
      if (event.type === 'pointerup' || event.type === 'pointercancel') device.gone();
      return;
    }
    const box = place.getBoundingClientRect();
    if (event.type === 'pointerdown' && !(device === mouse && event.button !== 0)) {
      place.setPointerCapture(event.pointerId);
      place.focus({ preventScroll: true });
      event.preventDefault();
    }
    device.heard(event, [event.clientX - box.left, event.clientY - box.top], toMm);
  };
  for (const kind of ['pointerdown', 'pointermove', 'pointerup', 'pointercancel', 'pointerleave'] as const) {
    place.addEventListener(kind, heard, { signal });
  }
  place.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  place.addEventListener('wheel', (event) => wheeled(event, stage), { passive: false, signal });
  return () => {
    controller.abort();
    for (const device of Object.values(devices)) device.gone();
  };
}

function wheeled(event: WheelEvent, stage: PointedStage): void {
  event.preventDefault();
  if (event.ctrlKey) stage.magnifyBy(event.deltaY < 0 ? 1 : -1);
  else tell(stage, mouseAfter(RESTING_MOUSE, { kind: 'wheel', units: event.deltaY }, { sensitivity: 1 })[1]);
}

function tell(stage: PointedStage, events: readonly HandEvent[]): void {
  for (const event of events) stage.act(event);
}

function mouseOn(stage: PointedStage): Device {
  let mouse = RESTING_MOUSE;
  let pressing: number | null = null;
  const did = (deed: MouseDeed) => {
    const [next, events] = mouseAfter(mouse, deed, { sensitivity: useHands.getState().mouse });
    mouse = next;
    tell(stage, events);
  };
  return {
    heard(event, at_px, toMm) {
      const ends = event.type === 'pointerup' || event.type === 'pointercancel';
      if (event.type === 'pointerdown') {
        if (event.button !== 0 || pressing !== null) return;
        pressing = event.pointerId;
        did({ kind: 'down', at_mm: toMm(at_px) });
      } else if (event.type === 'pointermove' && (pressing === null || event.pointerId === pressing)) {
        did({ kind: 'move', at_mm: toMm(at_px) });
      } else if (ends && event.pointerId === pressing) {
        pressing = null;
        did({ kind: 'up' });
      }
    },
    gone() {
      if (pressing !== null) did({ kind: 'up' });
      pressing = null;
    },
  };
}

interface PenDevice extends Device {
  /** Whether a pen was near just now, so that a touch is the palm that rests beside it. */
  near(now_ms: number): boolean;
}

function penOn(stage: PointedStage): PenDevice {
  let pen = RESTING_PEN;
  let seen_ms = Number.NEGATIVE_INFINITY;
  const leave = () => {
    const [next, events] = penGone(pen);
    pen = next;
    tell(stage, events);
  };
  return {
    near: (now_ms) => now_ms - seen_ms < PALM_ms,
    heard(event, at_px, toMm) {
      seen_ms = event.timeStamp;
      if (event.type === 'pointercancel' || event.type === 'pointerleave') return leave();
      const hands = useHands.getState();
      const [next, events] = penAfter(
        pen,
        {
          at_mm: toMm(at_px),
          // a lifted pen may still say how hard it was pressed
          pressure: event.type === 'pointerup' ? 0 : event.pressure,
          tiltX_deg: event.tiltX,
          tiltY_deg: event.tiltY,
          barrel: (event.buttons & BARREL) !== 0,
        },
        { sensitivity: hands.pen, closes: hands.penCloses, tilt_mm_per_deg: hands.penTilt_mm_per_deg },
      );
      pen = next;
      tell(stage, events);
    },
    gone: leave,
  };
}

const TOUCH_DEED: Readonly<Record<string, 'down' | 'move' | 'up' | 'taken-away'>> = {
  pointerdown: 'down',
  pointermove: 'move',
  pointerup: 'up',
  pointercancel: 'taken-away',
};

function fingersOn(stage: PointedStage, pen: PenDevice): Device {
  let hand = NO_TOUCH;
  let timer: ReturnType<typeof setInterval> | undefined;
  const did = (deed: TouchDeed, toMm: (at_px: Vec2) => Vec2) => {
    const { touch, fingerGap_px, fingerRest_s, leftHanded } = useHands.getState();
    const ways = { sensitivity: touch, gap_px: fingerGap_px, leftHanded, rest_s: fingerRest_s, toMm };
    const [next, events] = touchAfter(hand, deed, ways);
    hand = next;
    tell(stage, events);
  };
  const look = () => {
    const toMm = stage.toMm();
    if (toMm !== null) did({ kind: 'pass', time_s: performance.now() / 1000 }, toMm);
  };
  const settle = () => {
    if (hand.first === null) {
      clearInterval(timer);
      timer = undefined;
    } else timer ??= setInterval(look, REST_LOOK_ms);
  };
  return {
    heard(event, at_px, toMm) {
      const kind = TOUCH_DEED[event.type];
      if (kind === undefined || (kind === 'down' && pen.near(event.timeStamp))) return;
      const [id, time_s] = [event.pointerId, event.timeStamp / 1000];
      did(kind === 'down' || kind === 'move' ? { kind, id, at_px, time_s } : { kind, id, time_s }, toMm);
      settle();
    },
    gone() {
      clearInterval(timer);
      if (hand.first?.closed === true) stage.act({ kind: 'release' });
      hand = NO_TOUCH;
    },
  };
}

import { type PointerEvent, useState } from 'react';
import { useHands } from '../../stores/hands-store.ts';
import { lean_deg, type PenHand, penAfter, RESTING_PEN } from '../../tools/pen-hand.ts';

/** What a pointing device says in the field where it is tried. */
export interface TriedPointer {
  readonly device: 'mouse' | 'pen' | 'touch';
  /** Share of full pressure; a mouse and a finger feel none. */
  readonly pressure: number;
  readonly lean_deg: number;
  readonly fingers: number;
  readonly closed: boolean;
}

interface Tried {
  readonly shown: TriedPointer | null;
  readonly pen: PenHand;
  readonly fingers: ReadonlySet<number>;
}

function after({ pen, fingers }: Tried, event: PointerEvent): Tried {
  const ended = event.type === 'pointerup' || event.type === 'pointercancel';
  if (event.pointerType === 'touch') {
    const now = new Set(fingers);
    if (ended) now.delete(event.pointerId);
    else if (event.type === 'pointerdown') now.add(event.pointerId);
    const shown = { device: 'touch', pressure: 0, lean_deg: 0, fingers: now.size, closed: now.size > 0 } as const;
    return { shown, pen, fingers: now };
  }
  if (event.pointerType === 'pen') {
    const { penCloses } = useHands.getState();
    const pressure = ended ? 0 : event.pressure;
    const tilts = { tiltX_deg: event.tiltX, tiltY_deg: event.tiltY };
    const sample = { at_mm: [0, 0], pressure, ...tilts, barrel: false } as const;
    const [next] = penAfter(pen, sample, { sensitivity: 1, closes: penCloses, tilt_mm_per_deg: 0 });
    const shown = { device: 'pen', pressure, lean_deg: lean_deg(tilts), fingers: 0, closed: next.closed } as const;
    return { shown, pen: next, fingers };
  }
  const closed = (event.buttons & 1) !== 0;
  return { shown: { device: 'mouse', pressure: 0, lean_deg: 0, fingers: 0, closed }, pen, fingers };
}

/** What is tried in a field, and what the field must listen with. */
export function useTriedPointer() {
  const [tried, setTried] = useState<Tried>({ shown: null, pen: RESTING_PEN, fingers: new Set() });
  const heard = (event: PointerEvent) => setTried((before) => after(before, event));
  const down = (event: PointerEvent) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    heard(event);
  };
  const listening = { onPointerDown: down, onPointerMove: heard, onPointerUp: heard, onPointerCancel: heard };
  return { shown: tried.shown, listening };
}

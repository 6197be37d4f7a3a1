import { useEffect, useRef } from 'react';
import { useRoom } from './room-store.ts';

/** How long the trail stays, ms. */
const STAYS_ms = 700;
const WIDTH_px = 14;

interface Seen {
  readonly x: number;
  readonly y: number;
  readonly at_ms: number;
}

/** A fading trail behind the pointer, so that a room can follow it. Draws only while there is a trail. */
export function PointerTrail() {
  const on = useRoom((state) => state.trail);
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const element = canvas.current;
    const pen = element?.getContext('2d') ?? null;
    if (!on || element === null || pen === null) return;
    return followPointer(element, pen);
  }, [on]);
  return on ? <canvas ref={canvas} className="twin-trail" data-testid="trail" /> : null;
}

function followPointer(canvas: HTMLCanvasElement, pen: CanvasRenderingContext2D): () => void {
  let seen: Seen[] = [];
  let frame = 0;
  const draw = (now_ms: number) => {
    seen = seen.filter(({ at_ms }) => now_ms - at_ms < STAYS_ms);
    canvas.width = window.innerWidth;
    canvas.height = window.innerHeight;
    pen.lineCap = 'round';
    for (const [i, { x, y, at_ms }] of seen.entries()) {
      const before = seen[i - 1];
      if (before === undefined) continue;
      const fresh = 1 - (now_ms - at_ms) / STAYS_ms;
      // a light line in a dark edge shows on any ground
      for (const [width, colour] of [
        [WIDTH_px + 5, `rgb(10 13 18 / ${0.35 * fresh})`],
        [WIDTH_px, `rgb(255 122 217 / ${0.9 * fresh})`],
      ] as const) {
        pen.lineWidth = width * (0.4 + 0.6 * fresh);
        pen.strokeStyle = colour;
        pen.beginPath();
        pen.moveTo(before.x, before.y);
        pen.lineTo(x, y);
        pen.stroke();
      }
    }
    canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + Math.max(0, seen.length - 1));
    frame = seen.length > 0 ? requestAnimationFrame(draw) : 0;
  };
  const moved = (event: PointerEvent) => {
    seen.push({ x: event.clientX, y: event.clientY, at_ms: performance.now() });
    if (frame === 0) frame = requestAnimationFrame(draw);
  };
  window.addEventListener('pointermove', moved);
  return () => {
    window.removeEventListener('pointermove', moved);
    cancelAnimationFrame(frame);
  };
}

import type { WorldView } from '../../physics/index.ts';

/** The buffers of a view, each once, so that they can be handed over instead of copied. */
export function buffersOf(view: WorldView): readonly ArrayBuffer[] {
  const arrays = [view.position_mm, view.reference_mm, view.triangle, view.piece, view.tension_mN_per_mm];
  const buffers = [...arrays, ...view.margins, ...view.tearPath_mm].map((array) => array.buffer as ArrayBuffer);
  return [...new Set(buffers)];
}

/** Lets messages in. A channel, because timers in a row are held back by 4 ms each. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

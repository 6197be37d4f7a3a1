import { createMomentRecorder, type WorldView } from '../../physics/index.ts';
import { worldDoor } from './open-door.ts';
import type { FromReplay, ToReplay } from './replay-messages.ts';
import { ReplayRun } from './replay-run.ts';

/** Work between two looks at the post, ms. */
const WORK_ms = 40;

interface WorkerScope {
  postMessage(message: FromReplay, transfer?: readonly ArrayBuffer[]): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<ToReplay>) => void): void;
}
const scope = globalThis as unknown as WorkerScope;

let every = 1;

/** Lets messages in. A channel, because timers in a row are held back by 4 ms each. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

function sendFrame(view: WorldView): void {
  const arrays = [view.position_mm, view.reference_mm, view.triangle, view.piece, view.tension_mN_per_mm];
  const buffers = [...arrays, ...view.margins, ...view.tearPath_mm].map((array) => array.buffer as ArrayBuffer);
  scope.postMessage({ kind: 'frame', view }, [...new Set(buffers)]);
}

async function play(message: Extract<ToReplay, { kind: 'start' }>): Promise<void> {
  const run = new ReplayRun({ ...worldDoor, createMomentRecorder }, message);
  scope.postMessage({ kind: 'began', geometry: worldDoor.stageGeometry(message.scenario) });
  if (message.frames) sendFrame(run.look());
  while (!run.ended) {
    run.thin(every);
    const until = performance.now() + WORK_ms;
    while (!run.ended && performance.now() < until) {
      const view = run.step(message.frames);
      if (view !== null) sendFrame(view);
    }
    scope.postMessage({ kind: 'progress', done: run.done, of: run.of });
    await breathe();
  }
  scope.postMessage({ kind: 'ended', ...run.end() });
}

scope.addEventListener('message', ({ data }) => {
  if (data.kind === 'thin') every = data.every;
  else
    play(data).catch((fault: unknown) =>
      scope.postMessage({ kind: 'fault', message: fault instanceof Error ? fault.message : String(fault) }),
    );
});

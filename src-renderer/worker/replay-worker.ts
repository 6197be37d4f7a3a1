import { createMomentRecorder, type WorldView } from '../../physics/index.ts';
import { worldDoor } from './open-door.ts';
import type { FromReplay, ToReplay } from './replay-messages.ts';
import { ReplayRun } from './replay-run.ts';
import { breathe, buffersOf } from './view-post.ts';

/** Work between two looks at the post, ms. */
const WORK_ms = 40;

interface WorkerScope {
  postMessage(message: FromReplay, transfer?: readonly ArrayBuffer[]): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<ToReplay>) => void): void;
}
const scope = globalThis as unknown as WorkerScope;

let every = 1;

const sendFrame = (view: WorldView): void => scope.postMessage({ kind: 'frame', view }, buffersOf(view));

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

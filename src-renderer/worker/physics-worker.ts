import type { AreYouThere, FromWorker, Here, ToWorker } from './messages.ts';
import { worldDoor } from './open-door.ts';
import { AttemptServer } from './serve-attempts.ts';

/** How often the clock is looked at, ms; a step is 16.7 ms. */
const LOOK_ms = 4;

/** The worker's own global; the page's types know only the window's. */
interface WorkerScope {
  postMessage(message: FromWorker | Here, transfer: readonly ArrayBuffer[]): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<ToWorker | AreYouThere>) => void): void;
  setInterval(work: () => void, every_ms: number): number;
  clearInterval(timer: number): void;
}
const scope = globalThis as unknown as WorkerScope;

const post = (message: FromWorker | Here, transfer: readonly ArrayBuffer[] = []) =>
  scope.postMessage(message, transfer);
const server = new AttemptServer(worldDoor, { post, now_ms: () => performance.now() });
let stopped = false;

/** A fault of ours stops the attempt and says so; the page offers to start over. */
function guarded(work: () => void): void {
  if (stopped) return;
  try {
    work();
  } catch (fault) {
    stopped = true;
    post({ kind: 'fault', message: fault instanceof Error ? fault.message : String(fault) });
  }
}

scope.addEventListener('message', ({ data }) => {
  if (data.kind === 'are-you-there') {
    post({ kind: 'here' });
    return;
  }
  if (data.kind === 'start') stopped = false;
  guarded(() => server.receive(data));
});
scope.setInterval(() => guarded(() => server.tick()), LOOK_ms);

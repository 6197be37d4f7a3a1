import { handPlayer } from '../../physics/index.ts';
import { worldDoor } from './open-door.ts';
import type { FromTwin, ToTwin } from './twin-messages.ts';
import { TwinRun } from './twin-run.ts';
import { breathe } from './view-post.ts';

/** The worker's own global; the page's types know only the window's. */
interface WorkerScope {
  postMessage(message: FromTwin, transfer?: readonly ArrayBuffer[]): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<ToTwin>) => void): void;
}
const scope = globalThis as unknown as WorkerScope;

type Run = TwinRun<ReturnType<typeof worldDoor.createWorld>>;
let run: { readonly number: number; readonly eye: Run } | null = null;
let working = false;

function start({ run: number, scenario, seed, hand }: Extract<ToTwin, { kind: 'start' }>): void {
  const eye: Run = new TwinRun({ ...worldDoor, handPlayer }, scenario, seed, hand);
  run = { number, eye };
  // a copy: the hand looks at the eye's own
  scope.postMessage({ kind: 'began', run: number, first: eye.first });
}

/** Steps while there is something to do, looking at the post after every step. */
async function work(): Promise<void> {
  if (working) return;
  working = true;
  try {
    for (let stepped = stepOnce(); stepped; stepped = stepOnce()) await breathe();
  } finally {
    working = false;
  }
}

function stepOnce(): boolean {
  if (run === null) return false;
  const { number, eye } = run;
  const done = eye.handDone;
  const stepped = eye.step();
  if (eye.handDone && !done) scope.postMessage({ kind: 'hand-done', run: number });
  if (stepped === null) return false;
  // a copy: the hand looks at the view that was last sent
  scope.postMessage({ kind: 'stepped', run: number, ...stepped });
  return true;
}

scope.addEventListener('message', ({ data }) => {
  const failed = (fault: unknown) => {
    run = null;
    scope.postMessage({
      kind: 'fault',
      run: data.run,
      message: fault instanceof Error ? fault.message : String(fault),
    });
  };
  try {
    if (data.kind === 'start') start(data);
    else if (run === null || data.run !== run.number) return;
    else if (data.kind === 'allow') run.eye.allow(data.steps);
    else run.eye.take(data.commands);
    work().catch(failed);
  } catch (fault) {
    failed(fault);
  }
});

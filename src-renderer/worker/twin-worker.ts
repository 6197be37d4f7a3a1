import { handPlayer, type PolarDrivingForce } from '../../physics/index.ts';
import { worldDoor } from './open-door.ts';
import { type PolarMoment, PolarMoments, polarAt } from './polar-moments.ts';
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
let run: { readonly number: number; readonly eye: Run; readonly moments: PolarMoments } | null = null;
/** Step at which the driving force by direction is asked for. */
let polarStep: number | null = null;
let working = false;

function start({ run: number, scenario, seed, hand }: Extract<ToTwin, { kind: 'start' }>): void {
  const eye: Run = new TwinRun({ ...worldDoor, handPlayer }, scenario, seed, hand);
  const again = { begin: () => worldDoor.createWorld(scenario, seed), step: worldDoor.stepWorld };
  run = { number, eye, moments: new PolarMoments(again) };
  polarStep = null;
  // a copy: the hand looks at the eye's own
  scope.postMessage({ kind: 'began', run: number, first: eye.first });
}

/** Steps while there is something to do, looking at the post after every step. */
async function work(): Promise<void> {
  if (working) return;
  working = true;
  try {
    for (let did = await workOnce(); did; did = await workOnce()) await breathe();
  } finally {
    working = false;
  }
}

/** Directions go before further steps: who asked for them waits, and the steps are ahead of what is shown. */
const workOnce = async (): Promise<boolean> => (polarStep === null ? stepOnce() : tryDirections(polarStep));

/** Tip by tip, looking at the post between them: what is not wanted any more is not answered. */
async function tryDirections(step: number): Promise<true> {
  const asked = run;
  const isStale = () => run === null || run !== asked || polarStep !== step;
  if (asked === null) return true;
  const curves: PolarDrivingForce[] = [];
  let fault: string | null = null;
  let tips: PolarMoment['tips'] = [];
  try {
    const { phase, step: last } = asked.eye.world;
    const isOver = phase === 'ended' && step >= last;
    let moment = isOver ? null : asked.moments.reach(step);
    while (moment === null && !isOver) {
      await breathe();
      if (isStale()) return true;
      moment = asked.moments.reach(step);
    }
    tips = moment?.tips ?? [];
    for (const { id } of tips) {
      const curve = moment === null ? null : polarAt(moment, id);
      if (curve !== null) curves.push(curve);
      await breathe();
      if (isStale()) return true;
    }
  } catch (thrown) {
    fault = thrown instanceof Error ? thrown.message : String(thrown);
  }
  if (isStale()) return true;
  polarStep = null;
  scope.postMessage({ kind: 'polar', run: asked.number, step, tips: tips.length, curves, fault });
  return true;
}

function stepOnce(): boolean {
  if (run === null) return false;
  const { number, eye, moments } = run;
  const done = eye.handDone;
  const stepped = eye.step();
  if (eye.handDone && !done) scope.postMessage({ kind: 'hand-done', run: number });
  if (stepped === null) return false;
  if (stepped.moment !== null) moments.took(stepped.command, eye.world);
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
    else if (data.kind === 'polar') polarStep = data.step;
    else run.eye.take(data.commands);
    work().catch(failed);
  } catch (fault) {
    failed(fault);
  }
});

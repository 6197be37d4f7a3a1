import type { Scenario, WorldView } from '../../physics/index.ts';
import { AttemptLoop } from './attempt-loop.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import type { WorldDoor } from './world-door.ts';

/** How the worker speaks and knows the time; a test gives its own. */
export interface WorkerOutside {
  readonly post: (message: FromWorker, transfer: readonly ArrayBuffer[]) => void;
  readonly now_ms: () => number;
}

/** Buffers of a view that move to the page instead of being copied. */
function buffersOf(view: WorldView): ArrayBuffer[] {
  const arrays = [
    view.position_mm,
    view.reference_mm,
    view.triangle,
    view.piece,
    view.tension_mN_per_mm,
    ...view.margins,
    ...view.tearPath_mm,
  ];
  return [...new Set(arrays.map((array) => array.buffer as ArrayBuffer))];
}

interface Running<World> {
  readonly number: number;
  readonly loop: AttemptLoop<World>;
}

/** Runs one attempt at a time and keeps the one before it until the new one tears. */
export class AttemptServer<World> {
  readonly #door: WorldDoor<World>;
  readonly #outside: WorkerOutside;
  #running: Running<World> | null = null;
  #before: Running<World> | null = null;
  #count = 0;

  constructor(door: WorldDoor<World>, outside: WorkerOutside) {
    this.#door = door;
    this.#outside = outside;
  }

  receive(message: ToWorker): void {
    if (message.kind === 'start') this.#start(message.scenario);
    if (message.kind === 'command' && message.attempt === this.#running?.number) {
      this.#running.loop.ask(message.command);
    }
    if (message.kind === 'pause') this.#running?.loop.pause(message.paused);
    if (message.kind === 'bring-back') this.#bringBack();
  }

  /** To be called often; steps when a step is due. */
  tick(): void {
    const running = this.#running;
    if (running === null) return;
    const view = running.loop.advance(this.#outside.now_ms());
    if (view === null) return;
    if (running.loop.torn) this.#before = null;
    this.#show(running, view);
    if (running.loop.ended) this.#end(running);
  }

  #start(scenario: Scenario): void {
    this.#running?.loop.rest();
    this.#before = this.#running;
    this.#count += 1;
    this.#running = { number: this.#count, loop: new AttemptLoop(this.#door, scenario) };
    this.#begin(this.#running, false);
  }

  #bringBack(): void {
    if (this.#before === null) return;
    this.#running = this.#before;
    this.#before = null;
    this.#begin(this.#running, true);
    if (this.#running.loop.ended) this.#end(this.#running);
  }

  #begin({ number, loop }: Running<World>, broughtBack: boolean): void {
    const geometry = this.#door.stageGeometry(loop.scenario);
    this.#outside.post({ kind: 'began', attempt: number, scenario: loop.scenario, geometry, broughtBack }, []);
    this.#show({ number, loop }, loop.look());
  }

  #show({ number, loop }: Running<World>, view: WorldView): void {
    this.#outside.post({ kind: 'view', attempt: number, view, pace: loop.pace }, buffersOf(view));
  }

  #end({ number, loop }: Running<World>): void {
    this.#outside.post({ kind: 'ended', attempt: number, result: loop.result(), commands: loop.commands }, []);
  }
}

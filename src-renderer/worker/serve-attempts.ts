import type { Scenario, WorldView } from '../../physics/index.ts';
import { AttemptLoop } from './attempt-loop.ts';
import type { FromWorker, Recorded, ToWorker } from './messages.ts';
import type { WorldDoor } from './world-door.ts';

/** How the worker speaks and knows the time; a test gives its own. */
export interface WorkerOutside {
  readonly post: (message: FromWorker, transfer: readonly ArrayBuffer[]) => void;
  readonly now_ms: () => number;
}

/** How often the commands used are told, ms; the page has a quarter of a second to get them onto the disk. */
const TELL_EVERY_ms = 100;
/** How long a stretch of replay may keep the worker from listening, ms. */
const REPLAY_STRETCH_ms = 25;

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

interface Replaying<World> extends Running<World> {
  readonly recorded: Recorded;
  done: number;
}

/** Runs one attempt at a time and keeps the one before it until the new one tears. */
export class AttemptServer<World> {
  readonly #door: WorldDoor<World>;
  readonly #outside: WorkerOutside;
  #running: Running<World> | null = null;
  #before: Running<World> | null = null;
  /** The next attempt while what was recorded of it is played; the one that is running stands still meanwhile. */
  #replaying: Replaying<World> | null = null;
  #count = 0;
  #told_ms = 0;

  constructor(door: WorldDoor<World>, outside: WorkerOutside) {
    this.#door = door;
    this.#outside = outside;
  }

  receive(message: ToWorker): void {
    if (message.kind === 'start') this.#start(message.scenario, message.recorded);
    if (message.kind === 'stop-replaying') this.#stopReplaying();
    if (message.kind === 'bring-back') this.#bringBack();
    const running = this.#running;
    if (running === null) return;
    if (message.kind === 'command' && message.attempt === running.number) running.loop.ask(message.command);
    if (message.kind === 'pause') running.loop.pause(message.paused);
    if (message.kind === 'end' && message.attempt === running.number && !running.loop.ended) {
      running.loop.end();
      this.#end(running);
    }
  }

  /** To be called often; steps when a step is due. */
  tick(): void {
    if (this.#replaying !== null) {
      this.#replay(this.#replaying);
      return;
    }
    const running = this.#running;
    if (running === null) return;
    const now_ms = this.#outside.now_ms();
    const view = running.loop.advance(now_ms);
    if (now_ms - this.#told_ms >= TELL_EVERY_ms) this.#tell(running);
    if (view === null) return;
    if (running.loop.torn) this.#before = null;
    this.#show(running, view);
    if (running.loop.ended) this.#end(running);
  }

  #start(scenario: Scenario, recorded: Recorded | undefined): void {
    this.#replaying = null;
    this.#count += 1;
    const next = { number: this.#count, loop: new AttemptLoop(this.#door, scenario, recorded?.seed ?? scenario.seed) };
    if (recorded === undefined) this.#switchTo(next);
    else {
      this.#running?.loop.pause(true);
      this.#replaying = { ...next, recorded, done: 0 };
    }
  }

  #switchTo(next: Running<World>): void {
    this.#layAside();
    this.#before = this.#running;
    this.#running = next;
    this.#begin(next, false);
  }

  #layAside(): void {
    const running = this.#running;
    if (running === null) return;
    running.loop.rest();
    this.#tell(running);
    if (running.loop.ended) return;
    this.#outside.post({ kind: 'laid-aside', attempt: running.number, result: running.loop.result() }, []);
  }

  #replay(replaying: Replaying<World>): void {
    const { loop, recorded, number } = replaying;
    const until_ms = this.#outside.now_ms() + REPLAY_STRETCH_ms;
    const of = recorded.commands.length;
    while (replaying.done < of && this.#outside.now_ms() < until_ms) {
      const command = recorded.commands[replaying.done];
      if (command !== undefined) loop.replay(command);
      replaying.done += 1;
    }
    this.#outside.post({ kind: 'replaying', attempt: number, done: replaying.done, of }, []);
    if (replaying.done < of) return;
    this.#replaying = null;
    this.#switchTo({ number, loop });
    this.#tell({ number, loop });
    if (loop.ended) this.#end({ number, loop });
  }

  #stopReplaying(): void {
    const replaying = this.#replaying;
    if (replaying === null) return;
    this.#replaying = null;
    this.#outside.post({ kind: 'replay-stopped', attempt: replaying.number }, []);
  }

  #bringBack(): void {
    if (this.#before === null || this.#replaying !== null) return;
    this.#layAside();
    this.#running = this.#before;
    this.#before = null;
    this.#begin(this.#running, true);
    if (this.#running.loop.ended) this.#end(this.#running);
  }

  #begin({ number, loop }: Running<World>, broughtBack: boolean): void {
    const geometry = this.#door.stageGeometry(loop.scenario);
    const { scenario, seed, lastStepped } = loop;
    this.#outside.post(
      { kind: 'began', attempt: number, scenario, seed, geometry, broughtBack, lastAsked: lastStepped },
      [],
    );
    this.#show({ number, loop }, loop.seen());
  }

  #show({ number, loop }: Running<World>, view: WorldView): void {
    this.#outside.post({ kind: 'view', attempt: number, view, pace: loop.pace }, buffersOf(view));
  }

  #tell({ number, loop }: Running<World>): void {
    this.#told_ms = this.#outside.now_ms();
    const unsaid = loop.takeUnsaid();
    if (unsaid !== null) this.#outside.post({ kind: 'commands', attempt: number, ...unsaid }, []);
  }

  #end({ number, loop }: Running<World>): void {
    this.#tell({ number, loop });
    const result = loop.result();
    this.#outside.post({ kind: 'ended', attempt: number, result, moments: loop.moments(result) }, []);
  }
}

import { type AttemptResult, type HandCommand, type Scenario, STEP_S, type WorldView } from '../../physics/index.ts';
import { Pace } from './pace.ts';
import type { WorldDoor } from './world-door.ts';

/** Steps caught up at once at the most, so that one slow step does not delay the next view for long. */
const MOST_STEPS_AT_ONCE = 4;
/** The recorded stream is kept for at most this many steps, half an hour. */
const LONGEST_STREAM = 30 * 60 * 60;

/** One attempt as the worker runs it: samples the hand's latest command at each step and records what it sampled. */
export class AttemptLoop<World> {
  readonly scenario: Scenario;
  readonly commands: HandCommand[] = [];
  readonly #door: WorldDoor<World>;
  readonly #world: World;
  readonly #pace = new Pace(1000 * STEP_S, MOST_STEPS_AT_ONCE);
  #latest: HandCommand | null = null;
  #paused = false;
  #ended = false;
  #torn = false;

  constructor(door: WorldDoor<World>, scenario: Scenario) {
    this.#door = door;
    this.scenario = scenario;
    this.#world = door.createWorld(scenario, scenario.seed);
  }

  get pace(): number {
    return this.#pace.pace;
  }

  get ended(): boolean {
    return this.#ended;
  }

  /** True once the hand has torn anything in this attempt. */
  get torn(): boolean {
    return this.#torn;
  }

  ask(command: HandCommand): void {
    this.#latest = command;
  }

  /** Stands still until the hand asks again; for an attempt that is laid aside. */
  rest(): void {
    this.#latest = null;
    this.#paused = false;
    this.#pace.rest();
  }

  pause(paused: boolean): void {
    this.#paused = paused;
    this.#pace.rest();
  }

  /** The view as it stands, without stepping. */
  look(): WorldView {
    return this.#door.viewWorld(this.#world);
  }

  /** Steps as far as wall time asks; the new view, or null when no step was due. */
  advance(now_ms: number): WorldView | null {
    if (this.#paused || this.#ended) return null;
    const due = this.#pace.dueAt(now_ms);
    const command = this.#latest;
    // before the hand has shown itself the eye rests
    if (due === 0 || command === null) return null;
    for (let i = 0; i < due; i++) {
      this.#door.stepWorld(this.#world, command);
      if (this.commands.length < LONGEST_STREAM) this.commands.push(command);
    }
    const view = this.look();
    this.#ended = view.phase === 'ended';
    this.#torn ||= view.events.some((event) => event.kind === 'tear-starts');
    return view;
  }

  result(): AttemptResult {
    return this.#door.attemptResult(this.#world, 'bench');
  }
}

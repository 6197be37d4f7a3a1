import {
  type AttemptResult,
  type CostlyMoment,
  type HandCommand,
  type Scenario,
  STEP_S,
  type WorldView,
} from '../../physics/index.ts';
import { Pace } from './pace.ts';
import { roundedCommand } from './rounded-command.ts';
import type { MomentNotes, WorldDoor } from './world-door.ts';

/** Steps caught up at once at the most, so that one slow step does not delay the next view for long. */
const MOST_STEPS_AT_ONCE = 4;

/** Commands that the world was stepped with and that nobody has been told of yet. */
export interface UnsaidCommands {
  /** Number of commands before these. */
  readonly fromStep: number;
  readonly commands: readonly HandCommand[];
}

/** One attempt as the worker runs it: samples the hand's latest command at each step and notes what it sampled. */
export class AttemptLoop<World> {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly #door: WorldDoor<World>;
  readonly #world: World;
  readonly #notes: MomentNotes;
  readonly #pace = new Pace(1000 * STEP_S, MOST_STEPS_AT_ONCE);
  #unsaid: HandCommand[] = [];
  #said = 0;
  #latest: HandCommand | null = null;
  #lastStepped: HandCommand | null = null;
  #paused = false;
  #ended = false;
  #torn = false;

  constructor(door: WorldDoor<World>, scenario: Scenario, seed: number) {
    this.#door = door;
    this.scenario = scenario;
    this.seed = seed;
    this.#world = door.createWorld(scenario, seed);
    this.#notes = door.noteMoments(this.#world);
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

  /** What the world was stepped with last. */
  get lastStepped(): HandCommand | null {
    return this.#lastStepped;
  }

  ask(command: HandCommand): void {
    this.#latest = roundedCommand(command);
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

  /** No further step is taken. */
  end(): void {
    this.#ended = true;
  }

  /** Steps as far as wall time asks; the new view, or null when no step was due. */
  advance(now_ms: number): WorldView | null {
    if (this.#paused || this.#ended) return null;
    const due = this.#pace.dueAt(now_ms);
    const command = this.#latest;
    // before the hand has shown itself the eye rests
    if (due === 0 || command === null) return null;
    for (let i = 0; i < due; i++) this.#step(command);
    const view = this.seen();
    // what was asked of a world that had ended moved nothing
    if (view.phase === 'ended')
      this.#unsaid.length = Math.max(0, Math.min(this.#unsaid.length, view.step - this.#said));
    return view;
  }

  /** One step as it was recorded, whatever the clock says. */
  replay(command: HandCommand): void {
    this.#step(command);
  }

  /** The view as it stands, without stepping. Its events are those since the view before. */
  seen(): WorldView {
    const view = this.#door.viewWorld(this.#world);
    this.#ended ||= view.phase === 'ended';
    this.#torn ||= view.events.some((event) => event.kind === 'tear-starts');
    return view;
  }

  /** Hands over what was stepped since the last call; null when nothing was. */
  takeUnsaid(): UnsaidCommands | null {
    if (this.#unsaid.length === 0) return null;
    const unsaid = { fromStep: this.#said, commands: this.#unsaid };
    this.#said += this.#unsaid.length;
    this.#unsaid = [];
    return unsaid;
  }

  result(): AttemptResult {
    return this.#door.attemptResult(this.#world, 'live');
  }

  /** The moments of a result that cost the most, the worst first. */
  moments(result: AttemptResult): readonly CostlyMoment[] {
    return this.#notes.moments(result.events);
  }

  #step(command: HandCommand): void {
    this.#door.stepWorld(this.#world, command);
    this.#notes.record();
    this.#unsaid.push(command);
    this.#lastStepped = command;
  }
}

import type { Hand, HandCommand, Scenario, StageGeometry, WorldView } from '../../physics/index.ts';
import type { Stepped, TwinMoment } from './twin-messages.ts';
import { livingEye, TwinSeries } from './twin-series.ts';

/** What one eye of a pair needs of the physics. */
export interface TwinDoor<World> {
  createWorld(scenario: Scenario, seed: number): World;
  stepWorld(world: World, command: HandCommand): void;
  viewWorld(world: World): WorldView;
  stageGeometry(scenario: Scenario): StageGeometry;
  handPlayer(world: World, hand: Hand): (view: WorldView) => HandCommand | null;
}

/** A hand that still looks on after its own eye has ended gives up after so many steps: the other eye has settled by then. */
const LOOKS_ON = 90;

/** One eye of a pair: takes commands, or lets its own hand give them as far as it is allowed to. */
export class TwinRun<World> {
  readonly first: TwinMoment;
  readonly #door: TwinDoor<World>;
  readonly #world: World;
  readonly #series: TwinSeries;
  readonly #ask: ((view: WorldView) => HandCommand | null) | null;
  #view: WorldView;
  #at = 0;
  #allowed = 0;
  #waiting: HandCommand[] = [];
  #handDone = false;
  #lookedOn = 0;

  constructor(door: TwinDoor<World>, scenario: Scenario, seed: number, hand: Hand | null) {
    this.#door = door;
    this.#series = new TwinSeries(livingEye(scenario, door.stageGeometry(scenario)));
    this.#world = door.createWorld(scenario, seed);
    this.#ask = hand === null ? null : door.handPlayer(this.#world, hand);
    this.#view = door.viewWorld(this.#world);
    this.first = { view: this.#view, point: this.#series.next(this.#view) };
  }

  /** As it is after the last step taken. */
  get world(): World {
    return this.#world;
  }

  /** True once the hand of this eye has nothing more to do. */
  get handDone(): boolean {
    return this.#handDone;
  }

  allow(steps: number): void {
    this.#allowed = Math.max(this.#allowed, steps);
  }

  take(commands: readonly HandCommand[]): void {
    this.#waiting.push(...commands);
  }

  /** One step when one can be taken now. @returns what came of it, null when there was nothing to do */
  step(): (Stepped & { readonly command: HandCommand }) | null {
    const command = this.#next();
    if (command === null) return null;
    this.#at += 1;
    if (this.#view.phase === 'ended') return { at: this.#at, command, moment: null };
    this.#door.stepWorld(this.#world, command);
    const view = this.#door.viewWorld(this.#world);
    this.#view = view;
    return { at: this.#at, command, moment: { view, point: this.#series.next(view) } };
  }

  #next(): HandCommand | null {
    if (this.#waiting.length > 0) return this.#waiting.shift() ?? null;
    if (this.#ask === null || this.#handDone || this.#at >= this.#allowed) return null;
    if (this.#view.phase === 'ended') this.#lookedOn += 1;
    const command = this.#lookedOn > LOOKS_ON ? null : this.#ask(this.#view);
    this.#handDone = command === null;
    return command;
  }
}

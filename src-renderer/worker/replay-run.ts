import { costlyMoments, type HandCommand, type MomentRecorder, type WorldView } from '../../physics/index.ts';
import type { ReplayEnd, Replayed } from './replay-messages.ts';
import type { WorldDoor } from './world-door.ts';

/** What a replay needs of the physics. */
export interface ReplayDoor<World> extends WorldDoor<World> {
  createMomentRecorder(world: World): MomentRecorder;
}

/**
 * Plays stored commands again in a fresh world, as fast as it is asked to. Looking at the world changes nothing in it, so
 * how many frames are taken has no part in the digest.
 */
export class ReplayRun<World> {
  readonly #door: ReplayDoor<World>;
  readonly #world: World;
  readonly #recorder: MomentRecorder;
  readonly #commands: readonly HandCommand[];
  #done = 0;
  #ended: boolean;
  #every = 1;

  constructor(door: ReplayDoor<World>, { scenario, seed, commands }: Replayed) {
    this.#door = door;
    this.#commands = commands;
    this.#world = door.createWorld(scenario, seed);
    this.#recorder = door.createMomentRecorder(this.#world);
    this.#ended = commands.length === 0;
  }

  get done(): number {
    return this.#done;
  }

  get of(): number {
    return this.#commands.length;
  }

  get ended(): boolean {
    return this.#ended;
  }

  /** From now on only every so many steps a frame, and the last one. */
  thin(every: number): void {
    this.#every = Math.max(1, Math.round(every));
  }

  look(): WorldView {
    return this.#door.viewWorld(this.#world);
  }

  /**
   * One step. @returns its frame when one is due and wanted, else null
   */
  step(frames: boolean): WorldView | null {
    if (this.#ended) return null;
    const command = this.#commands[this.#done]!;
    this.#door.stepWorld(this.#world, command);
    this.#recorder.record();
    this.#done += 1;
    const last = this.#done === this.#commands.length;
    this.#ended = last;
    return frames && (last || this.#done % this.#every === 0) ? this.look() : null;
  }

  end(): ReplayEnd {
    const result = this.#door.attemptResult(this.#world, 'replay');
    return { result, moments: costlyMoments(this.#recorder.samples, result.events) };
  }
}

import { type HandCommand, type PolarDrivingForce, polarDrivingForce, type World } from '../../physics/index.ts';

/** What trying the directions round a tip does not read; left out, because it is most of a world's memory. */
type Unread = 'body' | 'solver' | 'sheetBody' | 'sheetSolver' | 'sheet' | 'last' | 'recorder' | 'rig' | 'events';

/** A moment of a world for trying directions later, when the world itself has gone on. */
export type PolarMoment = Omit<World, Unread>;

/** Most moments that are kept of a run: 12 kB each and some 30 kB more after each advance. Our choice: twenty seconds at every step. */
const MOST_MOMENTS = 1200;

/** How the same eye is begun and moved on once more. */
export interface EyeAgain {
  begin(): World;
  step(world: World, command: HandCommand): void;
}

/** A copy of what a step changes in place; what a step replaces is shared. */
export function polarMoment(world: World): PolarMoment {
  const { body: _b, solver: _s, sheetBody: _sb, sheetSolver: _ss, sheet: _sh, last: _l, ...more } = world;
  const { recorder: _r, rig: _rig, events: _e, ...kept } = more;
  const tears = world.tears.map((tear) => ({ ...tear, points: tear.points.slice() }));
  const tips = world.tips.map((tip) => {
    const tear = tears[world.tears.indexOf(tip.ref.tear)] ?? tip.ref.tear;
    return { ...tip, ref: { ...tip.ref, tear } };
  });
  const grip = world.grip && { ...world.grip, turn: world.grip.turn.slice(), offset: [...world.grip.offset] as const };
  return { ...kept, tears, tips, grip: grip as World['grip'], x: world.x.slice() };
}

/** Driving force by direction at one tip of a kept moment; null where nothing can be meshed round it. About a second. */
export const polarAt = (moment: PolarMoment, tipId: number): PolarDrivingForce | null =>
  // it reads none of what is left out; a test compares it with the whole world's
  polarDrivingForce(moment as World, tipId);

/**
 * The moments of a run at which directions can be tried. Until that is asked for the first time only the commands are kept; from
 * then on the moments too, thinned beyond a bound. One that is not kept is computed again from the commands: the same commands
 * give the same world to the last bit, so its curve is the very same.
 */
export class PolarMoments {
  readonly #again: EyeAgain;
  readonly #most: number;
  readonly #commands: HandCommand[] = [];
  readonly #kept = new Map<number, PolarMoment>();
  #every = 1;
  #wanted = false;
  /** The eye once more, at the last step that it was replayed to. */
  #follower: World | null = null;

  constructor(again: EyeAgain, most = MOST_MOMENTS) {
    this.#again = again;
    this.#most = most;
  }

  /** How many moments are kept. */
  get size(): number {
    return this.#kept.size;
  }

  /** The eye has taken a step with this command. */
  took(command: HandCommand, world: World): void {
    this.#commands.push(command);
    if (this.#wanted) this.#keep(world);
  }

  /**
   * The moment of a step that has been taken, where it is kept; otherwise computes one step toward it. To be called until it
   * gives the moment.
   */
  reach(step: number): PolarMoment | null {
    const asked = Math.max(0, Math.min(step, this.#commands.length));
    this.#wanted = true;
    const kept = this.#kept.get(asked);
    if (kept !== undefined) {
      this.#retire();
      return kept;
    }
    const world = this.#toward(asked);
    if (world.step === asked) return polarMoment(world);
    return null;
  }

  #toward(asked: number): World {
    let world = this.#follower;
    if (world === null || world.step > asked) {
      world = this.#again.begin();
      this.#keep(world);
    } else if (world.step < asked) {
      this.#again.step(world, this.#commands[world.step]!);
      this.#keep(world);
    }
    this.#follower = world;
    return world;
  }

  /** A world more is worth its memory only while it has steps before it that the moments lack. */
  #retire(): void {
    if (this.#every === 1 && this.#follower !== null && this.#kept.has(this.#follower.step + 1)) this.#follower = null;
  }

  #keep(world: World): void {
    if (world.step % this.#every !== 0 || this.#kept.has(world.step)) return;
    this.#kept.set(world.step, polarMoment(world));
    if (this.#kept.size <= this.#most) return;
    this.#every *= 2;
    for (const step of this.#kept.keys()) if (step % this.#every !== 0) this.#kept.delete(step);
  }
}

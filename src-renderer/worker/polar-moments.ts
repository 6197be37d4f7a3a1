import { type PolarDrivingForce, polarDrivingForce, type World } from '../../physics/index.ts';

/** What trying the directions round a tip does not read; left out, because it is most of a world's memory. */
type Unread = 'body' | 'solver' | 'sheetBody' | 'sheetSolver' | 'sheet' | 'last' | 'recorder' | 'rig' | 'events';

/** A moment of a world for trying directions later, when the world itself has gone on. */
export type PolarMoment = Omit<World, Unread>;

/** Most moments that are kept of a run: a minute at every step, 12 kB each and some 30 kB more after each advance. Our choice. */
const MOST_MOMENTS = 3600;

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

/** The moments of a run in order. Beyond the bound only every second one stays and is taken from then on. */
export class PolarMoments {
  readonly #most: number;
  #moments: PolarMoment[] = [];
  #every = 1;

  constructor(most = MOST_MOMENTS) {
    this.#most = most;
  }

  /** Takes the moment that a world is at, later than all before. */
  keep(world: World): void {
    const last = this.#moments.at(-1);
    // the one before was kept only for being the last
    if (last !== undefined && last.step % this.#every !== 0) this.#moments.pop();
    this.#moments.push(polarMoment(world));
    if (this.#moments.length <= this.#most) return;
    this.#every *= 2;
    this.#moments = this.#moments.filter(({ step }, at, all) => step % this.#every === 0 || at === all.length - 1);
  }

  /** The latest kept moment that is not after a step; an eye that has ended stays as it ended. */
  at(step: number): PolarMoment | null {
    return this.#moments.findLast((moment) => moment.step <= step) ?? null;
  }
}

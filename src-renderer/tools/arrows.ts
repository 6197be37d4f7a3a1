import type { Vec2 } from '../../physics/index.ts';

type Steering = Readonly<Record<string, Vec2>>;

const ARROWS: Steering = {
  arrowleft: [-1, 0],
  arrowright: [1, 0],
  arrowup: [0, 1],
  arrowdown: [0, -1],
};

/** The same under the left hand; the arrows go on working. */
const UNDER_THE_LEFT: Steering = { ...ARROWS, a: [-1, 0], d: [1, 0], w: [0, 1], s: [0, -1] };

/** The keys that steer, and which of them are down. A letter is the same with and without Shift. */
export class SteeringKeys {
  readonly #held = new Map<string, Vec2>();

  /** @returns whether the key steers */
  press(key: string, leftHanded: boolean): boolean {
    const name = key.toLowerCase();
    const way = (leftHanded ? UNDER_THE_LEFT : ARROWS)[name];
    if (way === undefined) return false;
    this.#held.set(name, way);
    return true;
  }

  /** @returns whether the key was down */
  lift(key: string): boolean {
    return this.#held.delete(key.toLowerCase());
  }

  /** @returns whether any was down */
  liftAll(): boolean {
    const some = this.#held.size > 0;
    this.#held.clear();
    return some;
  }

  /** Sum of the keys that are down, each -1 to 1 in both directions; opposite ones cancel. */
  get direction(): Vec2 {
    let [x, y] = [0, 0];
    for (const way of this.#held.values()) {
      x += way[0];
      y += way[1];
    }
    return [x, y];
  }
}

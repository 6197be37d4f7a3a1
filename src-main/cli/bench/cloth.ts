/** A square cloth of masses and springs in matter-js, as a page's author might build one instead: its cost, not its truth. */
import Matter from 'matter-js';

/** Side of the square in nodes, distance of nodes, and springs' stiffness: what the library's own cloth has. */
const GAP = 12;
const STIFFNESS = 0.06;
const STEP_ms = 1000 / 60;

export interface Cloth {
  readonly nodes: number;
  /** Moves on by a sixtieth of a second. */
  readonly step: () => void;
  /** How far down the lowest node hangs, px. */
  readonly lowest: () => number;
}

/** A cloth of side x side nodes. */
export function createCloth(side: number): Cloth {
  const { Bodies, Composite, Constraint, Engine } = Matter;
  const engine = Engine.create();
  const node = (i: number, j: number) =>
    Bodies.circle(i * GAP, j * GAP, 4, {
      // it need not find its own folds: nothing collides
      collisionFilter: { group: -1, mask: 0 },
      inertia: Number.POSITIVE_INFINITY,
      isStatic: j === 0,
    });
  const bodies = Array.from({ length: side * side }, (_, k) => node(k % side, Math.floor(k / side)));
  const springs: Matter.Constraint[] = [];
  const tie = (a: number, b: number) =>
    springs.push(Constraint.create({ bodyA: bodies[a], bodyB: bodies[b], stiffness: STIFFNESS }));
  for (let j = 0; j < side; j++)
    for (let i = 0; i < side; i++) {
      const at = j * side + i;
      if (i + 1 < side) tie(at, at + 1);
      if (j + 1 < side) tie(at, at + side);
      if (i + 1 < side && j + 1 < side) tie(at, at + side + 1);
    }
  Composite.add(engine.world, [...bodies, ...springs]);
  return {
    nodes: bodies.length,
    step: () => void Engine.update(engine, STEP_ms),
    lowest: () => Math.max(...bodies.map((body) => body.position.y)),
  };
}

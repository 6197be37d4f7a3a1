import { describe, expect, test } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import {
  createWorld,
  digestWorld,
  type HandCommand,
  type Scenario,
  stepWorld,
  viewWorld,
  type World,
} from '../../physics/index.ts';
import { SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';

const shipped = (id: string): Scenario => SHIPPED_SCENARIOS.find((file) => file.id === id)!.data as Scenario;
const IDLE: HandCommand = { x_mm: 0, y_mm: -1, lift_mm: 1, jaws: 0, instrument: 'forceps', incision: 0 };

function run(world: World, command: HandCommand, steps: number): void {
  for (let k = 0; k < steps; k++) stepWorld(world, command);
}
const kinds = (world: World) => world.events.map((event) => event.kind);

describe('an eye left alone', () => {
  test('keeps its tear where it is while the chamber is full', () => {
    const world = createWorld(shipped('infant-thick-fluid'));
    run(world, IDLE, 240);
    expect(world.torn_mm).toBe(0);
    expect(viewWorld(world).tips[0].drivingRatio).toBeLessThan(0.5);
  });

  test('runs out by itself when the chamber of an infant eye empties with the tear a third of the way round', () => {
    const scenario = shipped('infant-thin-fluid');
    const start = { ...scenario.start, arc_deg: 140 } as Scenario['start'];
    const world = createWorld({ ...scenario, start, timeLimit_s: 120 });
    run(world, IDLE, 120 * 60);
    expect(world.ended).toBe('run-out');
    expect(kinds(world)).toContain('run-out-inevitable');
  });
});

describe('instruments', () => {
  test('a grip on nothing is missed and said', () => {
    const world = createWorld(shipped('infant-thick-fluid'));
    run(world, { ...IDLE, x_mm: 2.2, y_mm: -1.5, lift_mm: 0.1 }, 90);
    run(world, { ...IDLE, x_mm: 2.2, y_mm: -1.5, lift_mm: 0.1, jaws: 1 }, 10);
    expect(world.grip).toBeNull();
    expect(kinds(world)).toContain('grasp-missed');
  });

  test('the needle punctures whole capsule, and the slit it draws keeps the limit', () => {
    const scenario = shipped('infant-needle');
    const world = createWorld(scenario);
    const down: HandCommand = { ...IDLE, x_mm: 0, y_mm: 1, lift_mm: 0.1, instrument: 'needle' };
    run(world, down, 90);
    expect(world.tears).toHaveLength(0);
    run(world, { ...down, jaws: 1 }, 5);
    expect(kinds(world)).toContain('puncture');
    for (let k = 0; k < 400; k++) stepWorld(world, { ...down, jaws: 1, y_mm: 1 + 0.005 * k });
    const { points } = world.tears[0];
    let length = 0;
    for (let k = 2; k < points.length; k += 2)
      length += Math.hypot(points[k] - points[k - 2], points[k + 1] - points[k - 1]);
    const limit = scenario.start.kind === 'needle' ? scenario.start.slitLimit_mm : 0;
    expect(length * world.frame.baseStretch).toBeGreaterThan(0.6 * limit);
    expect(length * world.frame.baseStretch).toBeLessThanOrEqual(limit + 1e-9);
  });

  test('the cannula refills the chamber and says so', () => {
    const world = createWorld(shipped('infant-thin-fluid'));
    run(world, IDLE, 600);
    const before = world.chamber.chamberPressure_mmHg;
    run(world, { ...IDLE, instrument: 'cannula', jaws: 1 }, 90);
    expect(world.chamber.chamberPressure_mmHg).toBeGreaterThan(before + 1);
    expect(kinds(world).filter((kind) => kind === 'refill')).toHaveLength(1);
  });

  test('tissue slips out of the jaws before it is pulled out of the eye', () => {
    const world = createWorld(shipped('adult-baseline'));
    const tip = viewWorld(world).tips[0].position_mm;
    const grasp: HandCommand = { ...IDLE, x_mm: tip[0] + 0.7, y_mm: tip[1] + 0.5, lift_mm: 0.1 };
    run(world, grasp, 90);
    run(world, { ...grasp, jaws: 1 }, 20);
    expect(world.grip).not.toBeNull();
    run(world, { ...grasp, jaws: 1, x_mm: 4.5, y_mm: -4, lift_mm: 3 }, 120);
    expect(kinds(world)).toContain('slipped');
  });
});

describe('wild hands', () => {
  test.each([11, 12, 13])('keep the world finite (seed %i)', (seed) => {
    const random = createRandom(seed);
    const world = createWorld(shipped('infant-thick-fluid'), seed);
    for (let k = 0; k < 240; k++) {
      // 1 m/s is 17 mm a step
      const far = seed === 12 ? 17 * k : 40 * (random.uniform() - 0.5);
      stepWorld(world, {
        x_mm: far,
        y_mm: 40 * (random.uniform() - 0.5),
        lift_mm: 5 * random.uniform(),
        jaws: random.uniform(),
        instrument: random.uniform() < 0.3 ? 'needle' : 'forceps',
        incision: 0,
      });
    }
    expect(viewWorld(world).position_mm.every(Number.isFinite)).toBe(true);
    expect(world.step).toBe(240);
  });

  test('a command that is not finite is held within the eye', () => {
    const world = createWorld(shipped('adult-baseline'));
    run(world, { ...IDLE, x_mm: Number.NaN, y_mm: Number.POSITIVE_INFINITY, lift_mm: Number.NaN }, 5);
    const view = viewWorld(world);
    expect(view.instrument.tip_mm.every(Number.isFinite)).toBe(true);
    expect(view.position_mm.every(Number.isFinite)).toBe(true);
  });
});

test('a small pupil hides the tear and does not change it', () => {
  const wide = createWorld(shipped('infant-thick-fluid'));
  const narrow = createWorld({
    ...shipped('infant-thick-fluid'),
    eye: { ...shipped('infant-thick-fluid').eye, pupilDiameter_mm: 5 },
  });
  run(wide, { ...IDLE, y_mm: 0 }, 60);
  run(narrow, { ...IDLE, y_mm: 0 }, 60);
  expect(Array.from(narrow.x)).toEqual(Array.from(wide.x));
  expect(digestWorld(narrow)).toBe(digestWorld(wide));
});

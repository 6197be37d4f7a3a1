/** One random hand in one random eye, all from a seed, and what must hold at every step whatever the hand does. */
import { createRandom, type Random } from '../../physics/core/random.ts';
import type { HandCommand, WorldView } from '../../physics/index.ts';
import type { Scenario, ScenarioStart } from '../../physics/scenario/scenario.ts';
import { digestWorld } from '../../physics/world/digest.ts';
import type { World } from '../../physics/world/state.ts';
import { viewWorld } from '../../physics/world/view.ts';
import { createWorld, stepWorld } from '../../physics/world/world.ts';

/** Simulated time of one hand, steps of 1/60 s. */
export const FUZZ_STEPS = 240;
/** Share by which one rebuilt mesh may raise the stored energy. */
export const REMESH_GAIN = 0.01;
/** Share by which the reference area may differ. */
export const AREA_ERROR = 1e-9;

export interface FuzzReport {
  readonly seed: number;
  readonly start: string;
  readonly ended: string | null;
  readonly torn_mm: number;
  readonly grasps: number;
  readonly remeshes: number;
  readonly stalls: number;
  readonly digest: string;
  /** Largest share by which one rebuilt mesh raised the stored energy. */
  readonly remeshGain: number;
  /** Every breach in words; empty when all held. */
  readonly breaches: readonly string[];
}

const between = (random: Random, low: number, high: number): number => low + (high - low) * random.uniform();
const oneOf = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random.uniform() * list.length)];

function randomStart(random: Random): ScenarioStart {
  const kind = random.uniform();
  const clock_h = between(random, 0, 12);
  if (kind < 0.55) {
    const arc_deg = between(random, 30, 300) * (random.uniform() < 0.2 ? -1 : 1);
    return { kind: 'flap', clock_h, radius_mm: between(random, 1.2, 2.4), arc_deg, innerRadius_mm: 0.2 };
  }
  if (kind < 0.8) return { kind: 'needle', slitLimit_mm: between(random, 0.4, 2) };
  return {
    kind: 'two-nicks',
    distance_mm: between(random, 3, 4.8),
    nick_mm: between(random, 0.6, 1.4),
    axisClock_h: clock_h,
  };
}

export function randomEye(random: Random): Scenario {
  const age_years = random.uniform() < 0.5 ? between(random, 0, 6) : between(random, 6, 95);
  return {
    rimwardScenario: 1,
    id: 'random',
    title: 'Random eye',
    brief: 'Made from a seed.',
    eye: {
      age_years,
      stiffnessPreset: random.uniform() < 0.8 ? 'uniaxial' : 'inflation',
      dyed: random.uniform() < 0.3,
      pupilDiameter_mm: between(random, 4, 8),
      opacityDiameter_mm: 0,
      lensOffset_mm: [between(random, -0.4, 0.4), between(random, -0.4, 0.4)],
      overrides: {},
      ...(random.uniform() < 0.2
        ? {
            weakZonule: {
              fromClock_h: between(random, 0, 12),
              toClock_h: between(random, 0, 12),
              strength: random.uniform(),
            },
          }
        : {}),
    },
    chamber: {
      fluid: oneOf(random, ['saline', 'hpmc-2', 'ha-1.0', 'ha-1.4', 'ha-2.3', 'ha-3.0'] as const),
      behindPressure_mmHg: between(random, 0, 30),
      insidePressure_mmHg: random.uniform() < 0.2 ? between(random, 0, 30) : 0,
      fillPressure_mmHg: between(random, 0, 30),
    },
    start: randomStart(random),
    incisions: [
      { clock_h: between(random, 0, 12), width_mm: 1.4 },
      { clock_h: between(random, 0, 12), width_mm: 1.2 },
    ],
    target: {
      diameter_mm: 4.8,
      reference: oneOf(random, ['pupil', 'limbus', 'lens'] as const),
      lineDiameter_mm: 3.8,
      opticDiameter_mm: 6,
    },
    tolerances: [],
    aids: { arrows: true, targetCircle: true, tipCard: true },
    timeLimit_s: 600,
    seed: 1,
  };
}

/** A hand that does something else every third of a second: near a tip half of the time, wild in every fourth seed. */
export function randomHand(random: Random): (view: WorldView) => HandCommand {
  const wild = random.uniform() < 0.25;
  let command: HandCommand = { x_mm: 0, y_mm: 0, lift_mm: 0.2, jaws: 0, instrument: 'forceps', incision: 0 };
  let speed: readonly [number, number] = [0, 0];
  return (view) => {
    if (view.step % 20 === 0) {
      const angle = between(random, 0, 2 * Math.PI);
      const size = ((wild ? 1000 : 8) * random.uniform() ** 2) / 60;
      speed = [size * Math.cos(angle), size * Math.sin(angle)];
      const tip = random.uniform() < 0.5 && view.tips.length > 0 ? oneOf(random, view.tips) : null;
      const [x_mm, y_mm] = tip
        ? [tip.position_mm[0] + 0.7 * random.normal(), tip.position_mm[1] + 0.7 * random.normal()]
        : [command.x_mm, command.y_mm];
      command = {
        x_mm,
        y_mm,
        lift_mm: 2 * random.uniform() ** 2,
        jaws: random.uniform() < 0.6 ? 1 : 0,
        instrument: random.uniform() < 0.25 ? 'needle' : random.uniform() < 0.1 ? 'cannula' : 'forceps',
        incision: random.uniform() < 0.1 ? 1 : 0,
      };
    }
    command = { ...command, x_mm: command.x_mm + speed[0], y_mm: command.y_mm + speed[1] };
    return command;
  };
}

/** What must hold of a state. Adds to `breaches`. */
function inspect(world: World, breaches: string[]): void {
  const diskArea = polygonArea(world);
  const say = (what: string) => breaches.push(`step ${world.step}: ${what}`);
  if (world.x.some((value) => !Number.isFinite(value))) say('a place is not a number');
  const { reference_mm: r, triangle } = world.mesh;
  let area = 0;
  for (let t = 0; t < triangle.length; t += 3) {
    const [a, b, c] = [triangle[t] * 2, triangle[t + 1] * 2, triangle[t + 2] * 2];
    const twice = (r[b] - r[a]) * (r[c + 1] - r[a + 1]) - (r[b + 1] - r[a + 1]) * (r[c] - r[a]);
    if (!(twice > 0)) say(`triangle ${t / 3} is turned over in the unloaded disc`);
    area += 0.5 * twice;
  }
  if (Math.abs(area / diskArea - 1) > AREA_ERROR) say(`area of the unloaded disc is off by ${area / diskArea - 1}`);
  if (world.piece.length !== triangle.length / 3) say('a triangle belongs to no piece');
}

/** Area of the unloaded disc as a polygon of the rim's nodes, mm^2. */
const polygonArea = (world: World): number => {
  const n = world.mesh.rimCount;
  return 0.5 * n * world.frame.referenceRadius_mm ** 2 * Math.sin((2 * Math.PI) / n);
};

/** Whether every number of a view is one. */
function viewSound(view: WorldView): boolean {
  const numbers = (value: unknown): boolean => {
    if (typeof value === 'number') return Number.isFinite(value);
    if (ArrayBuffer.isView(value)) return (value as Float32Array).every((v) => Number.isFinite(v));
    if (Array.isArray(value)) return value.every(numbers);
    return value === null || typeof value !== 'object' || Object.values(value).every(numbers);
  };
  return numbers(view);
}

/**
 * Lets a hand work until its steps are done or the attempt has ended, and looks at every state.
 *
 * @returns every breach in words; empty when all held
 */
export function workWatched(
  world: World,
  next: (view: WorldView) => HandCommand,
  steps: number,
  afterStep: () => void = () => undefined,
): string[] {
  const breaches: string[] = [];
  let view = viewWorld(world);
  let topology = -1;
  while (world.step < steps && world.phase !== 'ended') {
    stepWorld(world, next(view));
    view = viewWorld(world);
    afterStep();
    if (topology !== world.topology) inspect(world, breaches);
    topology = world.topology;
    if (!viewSound(view)) breaches.push(`step ${world.step}: the view holds something that is not a number`);
  }
  return breaches;
}

export function runRandomHand(seed: number, steps = FUZZ_STEPS): FuzzReport {
  const random = createRandom(seed);
  const scenario = randomEye(random);
  const world = createWorld(scenario, seed);
  const breaches = workWatched(world, randomHand(random), steps);
  const { remeshGain } = world.account;
  if (remeshGain > REMESH_GAIN)
    breaches.push(`a rebuilt mesh raised the stored energy by ${(100 * remeshGain).toFixed(2)} %`);
  return {
    seed,
    start: scenario.start.kind,
    ended: world.ended,
    torn_mm: world.torn_mm,
    grasps: world.grasps,
    remeshes: world.remeshes,
    stalls: world.events.filter(({ kind }) => kind === 'stalled').length,
    digest: digestWorld(world),
    remeshGain,
    breaches,
  };
}

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import {
  createWorld,
  type Hand,
  handPlayer,
  type Scenario,
  scaledSizes,
  stepWorld,
  viewWorld,
} from '../../../physics/index.ts';

export interface WorldMemory {
  readonly nodes: number;
  /** What a world holds while it runs: objects and typed arrays after a collection, without what was there before, MB. */
  readonly held_MB: number;
}

export interface MemoryCase {
  readonly simulated_s: number;
  readonly attempts: number;
  readonly torn_mm: number;
  /** Held after a collection at the end of each attempt, MB; the first is left out, as code is still being made in it. */
  readonly afterAttempts_MB: readonly number[];
  /** Slope of a straight line through them, MB per simulated minute. */
  readonly growth_MB_per_min: number;
}

const MB = 1024 * 1024;

/** Held by objects and typed arrays after a collection, MB. */
export function held_MB(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  // the second takes what the first has only set free to be finalised
  collect();
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return (heapUsed + external) / MB;
}

/** What a world of some fineness holds after a few seconds of the hand's work. */
export function worldMemory(scenario: Scenario, hand: Hand, sizeFactor: number, most_s: number): WorldMemory {
  const before = held_MB();
  const world = createWorld(scenario, scenario.seed, { sizes: scaledSizes(sizeFactor) });
  const next = handPlayer(world, hand);
  let view = viewWorld(world);
  while (view.phase !== 'ended' && view.time_s < most_s) {
    const command = next(view);
    if (command === null) break;
    stepWorld(world, command);
    view = viewWorld(world);
  }
  return { nodes: view.position_mm.length / 3, held_MB: held_MB() - before };
}

/** The meshes of these attempts are coarse: they tear and are rebuilt as any, in a quarter of the time. */
const COARSE = 1.6;

/** Plays the hand again and again until `least_s` have been simulated; what is held then must not grow. */
export function memoryCase(scenario: Scenario, hand: Hand, least_s: number): MemoryCase {
  const samples: { readonly at_min: number; readonly held_MB: number }[] = [];
  let simulated_s = 0;
  let attempts = 0;
  let torn_mm = 0;
  while (simulated_s < least_s) {
    const { time_s, torn_mm: torn } = playOnce(scenario, hand);
    simulated_s += time_s;
    torn_mm += torn;
    attempts += 1;
    if (attempts > 1) samples.push({ at_min: simulated_s / 60, held_MB: held_MB() });
  }
  return {
    simulated_s,
    attempts,
    torn_mm,
    afterAttempts_MB: samples.map((one) => one.held_MB),
    growth_MB_per_min: slope(samples.map((one) => [one.at_min, one.held_MB])),
  };
}

function playOnce(scenario: Scenario, hand: Hand): { readonly time_s: number; readonly torn_mm: number } {
  const world = createWorld(scenario, scenario.seed, { sizes: scaledSizes(COARSE) });
  const next = handPlayer(world, hand);
  let view = viewWorld(world);
  while (view.phase !== 'ended') {
    const command = next(view);
    if (command === null) break;
    stepWorld(world, command);
    view = viewWorld(world);
  }
  return { time_s: view.time_s, torn_mm: view.torn_mm };
}

function slope(points: readonly (readonly [number, number])[]): number {
  if (points.length < 2) return 0;
  const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis] / points.length, 0);
  const [mx, my] = [mean(0), mean(1)];
  const over = points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  return over / points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
}

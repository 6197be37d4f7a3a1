import {
  createWorld,
  type Hand,
  handPlayer,
  type Scenario,
  STEP_S,
  stepWorld,
  viewWorld,
  type WorldOptions,
} from '../../../physics/index.ts';
import { quantile } from './timing.ts';

export interface AttemptTiming {
  readonly scenario: string;
  readonly hand: string;
  /** How the attempt ended, or that it was cut short after some seconds. */
  readonly ended: string;
  readonly steps: number;
  readonly simulated_s: number;
  readonly wall_s: number;
  readonly cpu_s: number;
  /** Simulated over wall seconds, one thread; above 1 keeps up with a person. */
  readonly realTimeFactor: number;
  /** The same over processor seconds: what an idle machine would give, nearly. */
  readonly realTimeFactorOfCpu: number;
  /** Wall milliseconds of a step with its picture, 60 steps a second. */
  readonly medianStep_ms: number;
  readonly step99_ms: number;
  readonly slowestStep_ms: number;
  /** Nodes of the last mesh. */
  readonly nodes: number;
}

export interface TimingOptions {
  /** Mesh sizes, the usual ones unless given. */
  readonly sizes?: WorldOptions['sizes'];
  /** Simulated seconds after which it is cut short. */
  readonly most_s?: number;
}

/** Plays a hand as the window would, step and picture by turns, and times it. */
export function timeAttempt(scenario: Scenario, hand: Hand, options: TimingOptions = {}): AttemptTiming {
  const { sizes, most_s = Infinity } = options;
  const world = createWorld(scenario, scenario.seed, { sizes });
  const next = handPlayer(world, hand);
  let view = viewWorld(world);
  const times_ms: number[] = [];
  const cpu = process.cpuUsage();
  const started = performance.now();
  while (view.phase !== 'ended' && view.time_s < most_s) {
    const command = next(view);
    if (command === null) break;
    const from = performance.now();
    stepWorld(world, command);
    view = viewWorld(world);
    times_ms.push(performance.now() - from);
  }
  const wall_s = (performance.now() - started) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  const cpu_s = (user + system) / 1e6;
  const simulated_s = times_ms.length * STEP_S;
  return {
    scenario: scenario.id,
    hand: hand.id,
    ended: view.ended ?? 'cut short',
    steps: times_ms.length,
    simulated_s,
    wall_s,
    cpu_s,
    realTimeFactor: simulated_s / wall_s,
    realTimeFactorOfCpu: simulated_s / cpu_s,
    medianStep_ms: quantile(times_ms, 0.5),
    step99_ms: quantile(times_ms, 0.99),
    slowestStep_ms: quantile(times_ms, 1),
    nodes: view.position_mm.length / 3,
  };
}

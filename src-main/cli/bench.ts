import { cpus } from 'node:os';
import { STEP_S } from '../../physics/index.ts';
import { HOLDING_HAND } from '../../scenarios/shipped.ts';
import { type Command, DONE } from './command.ts';
import type { RunHand } from './run.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { table } from './table.ts';

export interface RealTimeCase {
  readonly scenario: string;
  readonly hand: string;
  readonly ended: string;
  readonly steps: number;
  readonly simulated_s: number;
  readonly wall_s: number;
  /** Simulated over wall seconds, one thread; above 1 keeps up with a person. */
  readonly realTimeFactor: number;
}

/** Times one whole tear. Throws when a shipped file is not sound, which the tests would have told. */
function timeRun(runHand: RunHand, scenarioId: string, handId: string): RealTimeCase {
  const scenario = findScenario(scenarioId);
  const hand = findHand(handId);
  if (!scenario.ok || !hand.ok) throw new Error(`${scenarioId} or ${handId} is not sound`);
  const started = performance.now();
  const { ended, steps } = runHand(scenario.value, hand.value, { seed: scenario.value.seed });
  const wall_s = (performance.now() - started) / 1000;
  const simulated_s = steps * STEP_S;
  return {
    scenario: scenarioId,
    hand: handId,
    ended,
    steps,
    simulated_s,
    wall_s,
    realTimeFactor: simulated_s / wall_s,
  };
}

/** The speed of whole tears with the hands that hold the circle; the first case of the benchmark. */
export function createBench(runHand: RunHand): Command {
  return {
    name: 'bench',
    usage: '',
    summary: 'speed: simulated seconds per second for each shipped eye',
    positionals: [0, 0],
    options: {},
    run: async ({ json, output }) => {
      const cases = Object.entries(HOLDING_HAND).map(([scenario, hand]) => {
        output.message(`${scenario} with ${hand} ...\n`);
        return timeRun(runHand, scenario, hand);
      });
      const machine = { processor: cpus()[0]?.model ?? 'unknown', cores: cpus().length, node: process.version };
      const rows = cases.map((one) => [
        one.scenario,
        one.ended,
        `${one.simulated_s.toFixed(1)} s simulated`,
        `${one.wall_s.toFixed(1)} s taken`,
        `factor ${one.realTimeFactor.toFixed(2)}`,
      ]);
      output.result(json ? `${JSON.stringify({ machine, realTime: cases }, null, 2)}\n` : table(rows));
      return DONE;
    },
  };
}

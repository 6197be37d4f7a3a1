import { existsSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import {
  type AttemptResult,
  bad,
  type GradedItem,
  type Hand,
  handMisfits,
  METRIC_LABELS,
  type MetricKey,
  ok,
  type Problem,
  type Result,
  type Scenario,
  TEACHING_CAUTION,
} from '../../physics/index.ts';
import { writeTextAtomically } from '../files/atomic-write.ts';
import { argumentProblem, type Command, DONE, type OptionValues, type Output } from './command.ts';
import { numberOption, together } from './number-option.ts';
import { openingTable } from './opening.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { table } from './table.ts';

export interface HandRunOptions {
  readonly seed: number;
  /** Called now and then with the share of the time limit that has passed, 0 to 1. */
  readonly onProgress?: (share: number) => void;
}

/** Plays a hand in an eye to the end. The scenario and the hand have been checked, apart and together. */
export type RunHand = (scenario: Scenario, hand: Hand, options: HandRunOptions) => AttemptResult;

function outFile(options: OptionValues): Result<string | null> {
  if (typeof options.out !== 'string') return ok(null);
  const path = resolve(options.out);
  const problem = (found: string): Result<never> =>
    bad([argumentProblem('--out', found, 'a file in a folder that exists')]);
  if (!existsSync(dirname(path))) return problem(`"${options.out}", in no folder`);
  return existsSync(path) && statSync(path).isDirectory() ? problem(`"${options.out}", a folder`) : ok(path);
}

interface Asked {
  readonly scenario: Scenario;
  readonly hand: Hand;
  readonly seed: number | null;
  readonly out: string | null;
}

function askedOf(name: string, options: OptionValues): Result<Asked> {
  const handName = options.hand;
  const asked = together({
    scenario: findScenario(name),
    hand:
      typeof handName === 'string' ? findHand(handName) : bad([argumentProblem('--hand', 'nothing', 'a hand to play')]),
    seed:
      options.seed === undefined
        ? ok(null)
        : numberOption(options, 'seed', { from: 0, to: 2 ** 32 - 1, unit: '', whole: true }),
    out: outFile(options),
  });
  if (!asked.ok) return asked;
  const misfits: readonly Problem[] = handMisfits(asked.value.hand, asked.value.scenario, String(handName));
  return misfits.length > 0 ? bad(misfits) : asked;
}

/** A bar on a terminal; nothing where messages go to a file. */
function progressBar(output: Output): (share: number) => void {
  let shown = -1;
  return (share) => {
    const percent = Math.floor(100 * Math.min(1, Math.max(0, share)));
    if (!output.messagesToTerminal || percent === shown) return;
    shown = percent;
    output.message(`\r[${'#'.repeat(percent / 4).padEnd(25)}] ${percent} % of the time limit`);
  };
}

const mark = ({ met }: GradedItem): string => (met ? 'met' : 'MISSED');

/** The outcome as lines for a person. */
export function attemptTable(result: AttemptResult): string {
  const work = Object.entries(METRIC_LABELS)
    .filter(([, { of }]) => of === 'work')
    .map(([key, { label, unit, decimals }]) => {
      const value = result.work[key as MetricKey & keyof AttemptResult['work']];
      return [label, typeof value === 'number' ? value.toFixed(decimals) : 'none', unit];
    });
  const head = table([
    ['ended', result.ended],
    ['passed', result.passed ? 'yes' : 'no'],
    ['digest', result.digest],
    ['model', result.modelVersion],
    ['energy mismatch', `${(100 * result.energyMismatch).toFixed(2)} %`],
  ]);
  const parts = [head];
  if (result.opening !== null) parts.push(`opening\n${openingTable(result.opening)}`);
  parts.push(`work\n${table(work)}`);
  if (result.graded.length > 0) parts.push(`graded\n${table(result.graded.map((item) => [mark(item), item.reason]))}`);
  return parts.join('\n');
}

/** The command that plays a hand. Its exit code says that it ran, not how well the hand did. */
export function createRun(runHand: RunHand): Command {
  return {
    name: 'run',
    usage: '<scenario> --hand <hand> [--seed n] [--out file]',
    summary: 'plays a hand in an eye to the end and measures what came of it',
    positionals: [1, 1],
    options: { hand: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' } },
    run: async ({ positionals: [name], options, json, output }) => {
      const asked = askedOf(name, options);
      if (!asked.ok) return asked.problems;
      const { scenario, hand, seed, out } = asked.value;
      const result = runHand(scenario, hand, { seed: seed ?? scenario.seed, onProgress: progressBar(output) });
      if (output.messagesToTerminal) output.message('\n');
      const text = `${JSON.stringify(result, null, 2)}\n`;
      if (out !== null) await writeTextAtomically(out, text);
      output.result(json ? text : attemptTable(result));
      if (!json) output.message(`${TEACHING_CAUTION}\n`);
      return DONE;
    },
  };
}

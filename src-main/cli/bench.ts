import { availableParallelism, cpus } from 'node:os';
import type { Hand, Scenario } from '../../physics/index.ts';
import { HOLDING_HAND } from '../../scenarios/shipped.ts';
import { phrase, toldPhrase } from '../words/problem-words.ts';
import { t } from '../words/words.ts';
import { timeAttempt } from './bench/attempt-timing.ts';
import { clothCase } from './bench/cloth-case.ts';
import { growthCase } from './bench/growth-case.ts';
import { memoryCase, worldMemory } from './bench/memory-case.ts';
import { pathCase } from './bench/path-case.ts';
import { type Ratio, ratiosOf } from './bench/ratios.ts';
import { sparseCase } from './bench/sparse-case.ts';
import { staticCase } from './bench/static-case.ts';
import { sweepCase } from './bench/sweep-case.ts';
import { windowCase } from './bench/window-case.ts';
import { ANSWER_IS_NO, argumentProblem, type Command, DONE, type Output } from './command.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { digits, figure, table } from './table.ts';

interface Played {
  readonly scenario: Scenario;
  readonly hand: Hand;
}

/** A shipped scenario with the hand that holds its circle. Throws when a file is not sound, which the tests would have told. */
function played(id: string): Played {
  const scenario = findScenario(id);
  const hand = findHand(HOLDING_HAND[id]);
  if (!scenario.ok || !hand.ok) throw new Error(`${id} or its hand is not sound`);
  return { scenario: scenario.value, hand: hand.value };
}

const INFANT = 'infant-needle';
const ADULT = 'adult-baseline';
/** Factors on the mesh sizes that give about so many nodes of the adult. */
const AT_1000 = 0.78;
const AT_4000 = 0.29;
/** Runs of a path with its places shaken. */
const SHAKES = 3;

type Run = (short: boolean) => unknown | Promise<unknown>;
type CaseName = 'realTime' | 'static' | 'cloth' | 'sparse' | 'sweep' | 'window';

const caseTitle = (name: CaseName): string => t(`terminal.bench.cases.${name}`);

/** Every case by its name in the result, in the order of the numbers that --only takes. */
const CASES: readonly (readonly [CaseName, Run])[] = [
  ['realTime', realTime],
  ['static', () => staticCase()],
  ['cloth', (short) => cloth(short ? 2 : 6)],
  ['sparse', () => sparseCase(played(ADULT).scenario, AT_1000)],
  ['sweep', sweepCase],
  ['window', window],
];

function realTime(short: boolean) {
  const most_s = short ? 8 : Infinity;
  const attempts = [INFANT, ADULT].map((id) => {
    const { scenario, hand } = played(id);
    return timeAttempt(scenario, hand, { most_s });
  });
  const { scenario, hand } = played(ADULT);
  return { attempts, growth: growthCase(scenario, hand, short) };
}

function cloth(most_s: number) {
  const { scenario, hand } = played(ADULT);
  return clothCase(scenario, hand, AT_1000, most_s);
}

async function window(short: boolean) {
  const { scenario, hand } = played(ADULT);
  const worlds = short ? [] : [AT_1000, AT_4000].map((factor) => worldMemory(scenario, hand, factor, 3));
  const tearing = short
    ? null
    : memoryCase(played('infant-thick-fluid').scenario, played('infant-thick-fluid').hand, 600);
  return { page: await windowCase(short), worlds, tearing };
}

function chosen(text: string | boolean | undefined): readonly number[] | null {
  if (text === undefined) return CASES.map((_, index) => index);
  const numbers = String(text).split(',').map(Number);
  return numbers.every((number) => Number.isInteger(number) && number >= 1 && number <= CASES.length)
    ? numbers.map((number) => number - 1)
    : null;
}

async function runCases(indices: readonly number[], short: boolean, output: Output) {
  const found: Record<string, unknown> = {};
  for (const index of indices) {
    const [name, run] = CASES[index];
    output.message(`${index + 1} ${caseTitle(name)} ...\n`);
    found[name] = await run(short);
  }
  return found;
}

const paths = (text: string, factor: number, output: Output) =>
  text.split(',').map((id) => {
    output.message(`${t('terminal.progress.mesh', { scenario: id, factor: figure(factor) })}\n`);
    const { scenario, hand } = played(id);
    return pathCase(scenario, hand, factor, Math.round(1 / factor), SHAKES);
  });

const ratioRow = ({ name, found, goal, met }: Ratio): string[] => [
  toldPhrase(name),
  digits(found.toPrecision(3)),
  toldPhrase(goal),
  t(met ? 'terminal.bench.met' : 'terminal.bench.missed'),
];

/** The speed of the program, as ratios that are taken side by side in one run. Exit 1: a ratio is far off. */
export const bench: Command = {
  name: 'bench',
  more: () =>
    [...CASES.map(([name], index) => `${index + 1}  ${caseTitle(name)}`), '', t('terminal.commands.bench.more')].join(
      '\n',
    ),
  positionals: [0, 0],
  options: {
    short: { type: 'boolean' },
    only: { type: 'string' },
    paths: { type: 'string' },
    finer: { type: 'string' },
  },
  run: async ({ options, json, output }) => {
    const indices = chosen(options.only);
    const unknown = String(options.paths ?? INFANT)
      .split(',')
      .find((id) => !(id in HOLDING_HAND));
    const finer = Number(options.finer ?? 0.5);
    if (indices === null)
      return [argumentProblem('--only', `"${options.only}"`, phrase('list', { from: 1, to: CASES.length }))];
    if (unknown !== undefined)
      return [
        argumentProblem(
          '--paths',
          `"${unknown}"`,
          phrase('shippedScenarios', { text: Object.keys(HOLDING_HAND).join(', ') }),
        ),
      ];
    if (!(finer >= 0.2 && finer <= 2))
      return [argumentProblem('--finer', `"${options.finer}"`, phrase('numberIn', { from: 0.2, to: 2 }))];
    const machine = {
      processor: cpus()[0]?.model ?? 'unknown',
      cores: availableParallelism(),
      node: process.version,
    };
    if (typeof options.paths === 'string') {
      const moved = paths(options.paths, finer, output);
      output.result(`${JSON.stringify({ machine, paths: moved }, null, 2)}\n`);
      return DONE;
    }
    const cases = await runCases(indices, options.short === true, output);
    const ratios = ratiosOf(cases);
    const result = { machine, form: options.short === true ? 'short' : 'long', ...cases, ratios };
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : table(ratios.map(ratioRow)));
    return ratios.some((ratio) => ratio.farOff) ? ANSWER_IS_NO : DONE;
  },
};

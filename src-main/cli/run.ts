import {
  type AttemptResult,
  bad,
  type GradedItem,
  type Hand,
  type HandCommand,
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
import { phrase } from '../words/problem-words.ts';
import { NOBODY, sentenceOf, t, textOf } from '../words/words.ts';
import { attemptFileText } from './attempt-file.ts';
import { argumentProblem, type Command, DONE, type OptionValues } from './command.ts';
import { numberOption, together } from './number-option.ts';
import { openingTable } from './opening.ts';
import { outFile } from './out-file.ts';
import { progressBar } from './progress-bar.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { fixed, table } from './table.ts';

export interface HandRunOptions {
  readonly seed: number;
  /** Called now and then with the share of the time limit that has passed, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  /** Called with every command, in order. */
  readonly onCommand?: (command: HandCommand) => void;
}

/** Plays a hand in an eye to the end. The scenario and the hand have been checked, apart and together. */
export type RunHand = (scenario: Scenario, hand: Hand, options: HandRunOptions) => AttemptResult;

interface Asked {
  readonly scenario: Scenario;
  readonly hand: Hand;
  readonly seed: number | null;
  readonly out: string | null;
  /** Where the attempt is to be kept, so that it can be played again. */
  readonly keep: string | null;
}

function askedOf(name: string, options: OptionValues): Result<Asked> {
  const handName = options.hand;
  const asked = together({
    scenario: findScenario(name),
    hand:
      typeof handName === 'string'
        ? findHand(handName)
        : bad([argumentProblem('--hand', phrase('nothing'), phrase('handToPlay'))]),
    seed:
      options.seed === undefined
        ? ok(null)
        : numberOption(options, 'seed', { from: 0, to: 2 ** 32 - 1, unit: '', whole: true }),
    out: outFile(options, 'out'),
    keep: outFile(options, 'keep'),
  });
  if (!asked.ok) return asked;
  const misfits: readonly Problem[] = handMisfits(asked.value.hand, asked.value.scenario, String(handName));
  return misfits.length > 0 ? bad(misfits) : asked;
}

const mark = ({ met }: GradedItem): string => t(met ? 'terminal.run.met' : 'terminal.run.missed');

/** The outcome as lines for a person. */
export function attemptTable(result: AttemptResult): string {
  const work = Object.entries(METRIC_LABELS)
    .filter(([, { of }]) => of === 'work')
    .map(([key, { label, unit, decimals }]) => {
      const value = result.work[key as MetricKey & keyof AttemptResult['work']];
      return [textOf(label), typeof value === 'number' ? fixed(value, decimals) : t('terminal.none'), textOf(unit)];
    });
  const head = table([
    [t('terminal.run.ended'), t(`terminal.ended.${result.ended}`)],
    [t('terminal.run.passed'), t(result.passed ? 'terminal.yes' : 'terminal.no')],
    [t('terminal.run.digest'), result.digest],
    [t('terminal.run.model'), result.modelVersion],
    [t('terminal.run.energyMismatch'), `${fixed(100 * result.energyMismatch, 2)} %`],
  ]);
  const parts = [head];
  if (result.opening !== null) parts.push(`${t('terminal.run.opening')}\n${openingTable(result.opening)}`);
  parts.push(`${t('terminal.run.work')}\n${table(work)}`);
  if (result.graded.length > 0) {
    const graded = table(result.graded.map((item) => [mark(item), sentenceOf(item.reason)]));
    parts.push(`${t('terminal.run.graded')}\n${graded}`);
  }
  return parts.join('\n');
}

/** The command that plays a hand. Its exit code says that it ran, not how well the hand did. */
export function createRun(runHand: RunHand): Command {
  return {
    name: 'run',
    more: () => t('terminal.commands.run.more'),
    positionals: [1, 1],
    options: { hand: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' }, keep: { type: 'string' } },
    run: async ({ positionals: [name], options, json, output }) => {
      const asked = askedOf(name, options);
      if (!asked.ok) return asked.problems;
      const { scenario, hand, out, keep } = asked.value;
      const seed = asked.value.seed ?? scenario.seed;
      const startedAt = new Date().toISOString();
      const commands: HandCommand[] = [];
      const result = runHand(scenario, hand, {
        seed,
        onProgress: progressBar(output, t('terminal.progress.timeLimit')),
        onCommand: (command) => commands.push(command),
      });
      const text = `${JSON.stringify(result, null, 2)}\n`;
      if (out !== null) await writeTextAtomically(out, text);
      if (keep !== null) {
        const endedAt = new Date().toISOString();
        const { modelVersion } = result;
        const kept = { person: NOBODY, place: 'bench', startedAt, endedAt, scenario, seed, modelVersion } as const;
        await writeTextAtomically(keep, attemptFileText({ ...kept, commands, result }));
      }
      output.result(json ? text : attemptTable(result));
      if (!json) output.message(`${textOf(TEACHING_CAUTION)}\n`);
      return DONE;
    },
  };
}

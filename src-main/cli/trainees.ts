import { availableParallelism } from 'node:os';
import {
  type CompletionCell,
  FLUID_IDS,
  type FluidId,
  MODEL_VERSION,
  OLDEST_AGE_years,
  shareWithInterval,
  TEACHING_CAUTION,
  TRAINEES,
  type TraineeOutcome,
} from '../../physics/index.ts';
import { t, textOf } from '../words/words.ts';
import { ANSWER_IS_NO, type Command, DONE, type OptionValues } from './command.ts';
import { numbersOption, wordsOption } from './lists.ts';
import { numberOption, together } from './number-option.ts';
import { progressCount } from './progress-bar.ts';
import { computeCells } from './sweep-pool.ts';
import { figure, table } from './table.ts';

/** Attempts given to a core at a time: a bar that moves, and cores that end together. */
const AT_A_TIME = 5;

function askedOf(options: OptionValues) {
  return together({
    ages_years: numbersOption(options, 'ages', '3,65', { from: 0, to: OLDEST_AGE_years, unit: 'years' }),
    fluids: wordsOption<FluidId>(options, 'fluids', FLUID_IDS, ['ha-2.3', 'ha-1.0']),
    behind_mmHg: numbersOption(options, 'behind', '10', { from: 0, to: 40, unit: 'mmHg' }),
    count: numberOption(options, 'count', { from: 1, to: 10_000, unit: '', whole: true, absent: 200 }),
    firstSeed: numberOption(options, 'seed', { from: 0, to: 1_000_000, unit: '', whole: true, absent: 1 }),
    jobs: numberOption(options, 'jobs', { from: 1, to: 256, unit: '', whole: true, absent: availableParallelism() }),
  });
}

/** A kind of eye with what came of its trainees. */
function rowOf(eye: Omit<CompletionCell, 'firstSeed' | 'count'>, outcomes: readonly TraineeOutcome[]) {
  const count = (ended: string) => outcomes.filter((outcome) => outcome.ended === ended).length;
  return {
    ...eye,
    trainees: outcomes.length,
    complete: count('complete'),
    runOut: count('run-out'),
    open: count('open') + count('stalled'),
    completed: shareWithInterval(count('complete'), outcomes.length),
    lost: shareWithInterval(count('run-out'), outcomes.length),
    outcomes,
  };
}

type Row = ReturnType<typeof rowOf>;

const percent = ({ share, low, high }: Row['completed']): string =>
  t('terminal.trainees.share', {
    share: Math.round(100 * share),
    low: Math.round(100 * low),
    high: Math.round(100 * high),
  });

function report(rows: readonly Row[]): string {
  const lines = rows.map((row) => [
    figure(row.age_years),
    row.fluid,
    figure(row.behindPressure_mmHg),
    String(row.trainees),
    percent(row.completed),
    percent(row.lost),
    String(row.open),
  ]);
  const columns = ['years', 'fluid', 'behind', 'trainees', 'finished', 'runOut', 'neither'] as const;
  const head = columns.map((column) => t(`terminal.trainees.head.${column}`));
  const notes = [
    t('terminal.trainees.person', { angle: figure(TRAINEES.pullAngle_deg) }),
    t('terminal.trainees.limits'),
    textOf(TEACHING_CAUTION),
  ];
  return `${t('terminal.trainees.title')}\n\n${table([head, ...lines])}\n${notes.join('\n')}\n`;
}

/** How many of a stated population of noisy hands finish an opening, by age, fluid and pressure. */
export const trainees: Command = {
  name: 'trainees',
  positionals: [0, 0],
  options: {
    ages: { type: 'string' },
    fluids: { type: 'string' },
    behind: { type: 'string' },
    count: { type: 'string' },
    seed: { type: 'string' },
    jobs: { type: 'string' },
  },
  run: async ({ options, json, output }) => {
    const asked = askedOf(options);
    if (!asked.ok) return asked.problems;
    const { ages_years, fluids, behind_mmHg, count, firstSeed, jobs } = asked.value;
    const eyes = behind_mmHg.flatMap((behindPressure_mmHg) =>
      fluids.flatMap((fluid) => ages_years.map((age_years) => ({ age_years, fluid, behindPressure_mmHg }))),
    );
    const cells = eyes.flatMap((eye, at) =>
      Array.from({ length: Math.ceil(count / AT_A_TIME) }, (_, k) => ({
        at,
        cell: { ...eye, firstSeed: firstSeed + k * AT_A_TIME, count: Math.min(AT_A_TIME, count - k * AT_A_TIME) },
      })),
    );
    const progress = progressCount(output, 'played');
    let played = 0;
    const outcomes = await computeCells(
      cells.map(({ cell }): CompletionCell => cell),
      jobs,
      (_, index) => {
        played += cells[index].cell.count;
        progress.done(played, eyes.length * count);
      },
    );
    progress.end();
    const faults = outcomes.flatMap((outcome) => ('fault' in outcome ? [outcome.fault] : []));
    for (const fault of faults) output.message(`${fault}\n`);
    const rows = eyes.map((eye, at) =>
      rowOf(
        eye,
        outcomes.flatMap((outcome, k) => (cells[k].at === at && 'values' in outcome ? outcome.values : [])),
      ),
    );
    const result = { population: TRAINEES, modelVersion: MODEL_VERSION, rows, caution: TEACHING_CAUTION };
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : report(rows));
    return faults.length === 0 ? DONE : ANSWER_IS_NO;
  },
};

import { availableParallelism } from 'node:os';
import {
  bad,
  MODEL_VERSION,
  OLDEST_AGE_years,
  ok,
  type Result,
  SWEEP_MEASURES,
  type SweepCell,
  type SweepMeasure,
  TEACHING_CAUTION,
} from '../../physics/index.ts';
import { MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { phrase } from '../words/problem-words.ts';
import { t, textOf, unitOf } from '../words/words.ts';
import { ANSWER_IS_NO, argumentProblem, type Command, DONE, type OptionValues } from './command.ts';
import { numbersOption } from './lists.ts';
import { numberOption, together } from './number-option.ts';
import { progressCount } from './progress-bar.ts';
import { type CellOutcome, computeCells } from './sweep-pool.ts';
import { figure, table } from './table.ts';

const MEASURES = Object.keys(SWEEP_MEASURES) as SweepMeasure[];
const USUAL_AGES_years = '0.5,2,4,6,20,40,60';
/** The net pressure of a chamber that is not quite full: where ages differ most without a tear running by itself. */
const USUAL_PRESSURE_mmHg: Readonly<Record<SweepMeasure, string>> = {
  enlargement: '0',
  'hold-angle': '2',
  'run-out-margin': '0',
  'holding-limit': '0',
  'sheet-force': '2',
  line: '0',
};

function measureOption(options: OptionValues): Result<SweepMeasure> {
  const found = MEASURES.find((measure) => measure === options.measure);
  if (found !== undefined) return ok(found);
  const given = options.measure === undefined ? phrase('nothing') : `"${options.measure}"`;
  return bad([argumentProblem('--measure', given, MEASURES.join(', '))]);
}

function presetOption(options: OptionValues): Result<'uniaxial' | 'inflation'> {
  const given = options.preset ?? 'uniaxial';
  return given === 'uniaxial' || given === 'inflation'
    ? ok(given)
    : bad([argumentProblem('--preset', `"${given}"`, 'uniaxial, inflation')]);
}

function askedOf(options: OptionValues) {
  const measure = measureOption(options);
  const usual = measure.ok ? USUAL_PRESSURE_mmHg[measure.value] : '0';
  return together({
    measure,
    ages_years: numbersOption(options, 'ages', USUAL_AGES_years, { from: 0, to: OLDEST_AGE_years, unit: 'years' }),
    pressures_mmHg: numbersOption(options, 'pressure', usual, { from: -10, to: 30, unit: 'mmHg' }),
    preset: presetOption(options),
    jobs: numberOption(options, 'jobs', { from: 1, to: 256, unit: '', whole: true, absent: availableParallelism() }),
  });
}

interface Row {
  readonly age_years: number;
  readonly netPressure_mmHg: number | null;
  readonly [value: string]: number | string | null;
}

function rowOf(cell: SweepCell, outcome: CellOutcome<SweepCell>): Row {
  const netPressure_mmHg = SWEEP_MEASURES[cell.measure].atPressure ? cell.netPressure_mmHg : null;
  const rest = 'values' in outcome ? outcome.values : { problem: outcome.fault };
  return { age_years: cell.age_years, netPressure_mmHg, ...rest };
}

const HEADS = MESSAGES.en.content.terminal.sweep.head;
const isHead = (key: string): key is keyof typeof HEADS => Object.hasOwn(HEADS, key);
const headOf = (key: string): string => (isHead(key) ? t(`terminal.sweep.head.${key}`) : key);

const cellText = (value: number | string | null): string =>
  value === null ? '-' : typeof value === 'number' ? figure(value) : value;

function sweepTable(rows: readonly Row[], measure: SweepMeasure): string {
  const { title, definition, published } = SWEEP_MEASURES[measure];
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = [keys.map(headOf), ...rows.map((row) => keys.map((key) => cellText(row[key] ?? null)))];
  const points = published.map(({ age_years: [from, to], value, unit, source }) => {
    const shown = from === to ? figure(from) : t('report.range', { from: figure(from), to: figure(to) });
    const age = t('terminal.sweep.years', { count: from === to ? from : 2, shown });
    return `  ${age}: ${`${figure(value)} ${unitOf(unit)}`.trimEnd()}; ${textOf(source)}`;
  });
  const beside = points.length > 0 ? `${t('terminal.sweep.published')}\n${points.join('\n')}\n` : '';
  return `${textOf(title)}\n${textOf(definition)}\n\n${table(lines)}\n${beside}${textOf(TEACHING_CAUTION)}\n`;
}

/** A chart's numbers over age, every one solved by the whole model. */
export const sweep: Command = {
  name: 'sweep',
  inSummary: { measures: MEASURES.join(', ') },
  positionals: [0, 0],
  options: {
    measure: { type: 'string' },
    ages: { type: 'string' },
    pressure: { type: 'string' },
    preset: { type: 'string' },
    dye: { type: 'boolean' },
    jobs: { type: 'string' },
  },
  run: async ({ options, json, output }) => {
    const asked = askedOf(options);
    if (!asked.ok) return asked.problems;
    const { measure, ages_years, pressures_mmHg, preset, jobs } = asked.value;
    const { atPressure } = SWEEP_MEASURES[measure];
    const cells = (atPressure ? pressures_mmHg : [0]).flatMap((netPressure_mmHg) =>
      ages_years.map(
        (age_years): SweepCell => ({
          measure,
          age_years,
          netPressure_mmHg,
          options: { preset, dyed: options.dye === true },
        }),
      ),
    );
    const progress = progressCount(output, 'computed');
    const outcomes = await computeCells(cells, jobs, (count) => progress.done(count, cells.length));
    progress.end();
    const rows = cells.map((cell, index) => rowOf(cell, outcomes[index]));
    const { title, value, unit, definition, published } = SWEEP_MEASURES[measure];
    const result = {
      measure,
      title,
      value,
      unit,
      definition,
      stiffnessPreset: preset,
      dyed: options.dye === true,
      modelVersion: MODEL_VERSION,
      rows,
      published,
      caution: TEACHING_CAUTION,
    };
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : sweepTable(rows, measure));
    return outcomes.every((outcome) => 'values' in outcome) ? DONE : ANSWER_IS_NO;
  },
};

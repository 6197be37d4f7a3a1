import { availableParallelism } from 'node:os';
import {
  HEADLINES,
  MODEL_VERSION,
  OLDEST_AGE_years,
  type ParameterTag,
  type SensitivityCase,
  SWEEP_MEASURES,
  sensitivityCases,
  TEACHING_CAUTION,
} from '../../physics/index.ts';
import { t, textOf, unitOf } from '../words/words.ts';
import { ANSWER_IS_NO, type Command, DONE } from './command.ts';
import { numberOption, together } from './number-option.ts';
import { progressCount } from './progress-bar.ts';
import { computeCells } from './sweep-pool.ts';
import { figure } from './table.ts';

/** What one case came to: the four numbers in the order of HEADLINES; null where the model gives none. */
export interface SensitivityRow {
  readonly parameter: string;
  readonly unit: string;
  readonly tag: ParameterTag | '';
  readonly end: SensitivityCase['end'];
  readonly value: number | null;
  readonly numbers: Readonly<Record<string, number | null>>;
  readonly problem?: string;
}

const keyOf = (index: number): string => SWEEP_MEASURES[HEADLINES[index].measure].value;

/** A table for the docs: a row for each value, both ends in one cell. */
export function sensitivityTable(age_years: number, rows: readonly SensitivityRow[]): string {
  const [asItIs, ...rest] = rows;
  const keys = HEADLINES.map((_, k) => keyOf(k));
  const head = HEADLINES.map(({ measure, netPressure_mmHg }) => {
    const { title, unit, atPressure } = SWEEP_MEASURES[measure];
    const pressure = atPressure ? ` (${t('terminal.sensitivity.at', { mmHg: figure(netPressure_mmHg) })})` : '';
    return `${textOf(title)}${unit === '1' ? '' : `, ${unitOf(unit)}`}${pressure}`;
  });
  const text = (value: number | null | undefined) => (value === null || value === undefined ? '-' : figure(value));
  const both = (low: number | null, high: number | null) =>
    t('terminal.sensitivity.ends', { low: text(low), high: text(high) });
  const lines = [
    `| ${t('terminal.sensitivity.head', { age: figure(age_years) })} | ${head.join(' | ')} |`,
    `|${'---|'.repeat(head.length + 2)}`,
    `| ${t('terminal.sensitivity.asItIs')} | | ${keys.map((key) => text(asItIs.numbers[key])).join(' | ')} |`,
  ];
  for (let k = 0; k + 1 < rest.length; k += 2) {
    const [low, high] = [rest[k], rest[k + 1]];
    const ends = `${both(low.value, high.value)} ${unitOf(low.unit)}`.trimEnd();
    const moved = keys.map((key) => both(low.numbers[key], high.numbers[key]));
    lines.push(
      `| ${textOf(low.parameter)} (${low.tag === '' ? '' : t(`terminal.tag.${low.tag}`)}) | ${ends} | ${moved.join(' | ')} |`,
    );
  }
  return `${lines.join('\n')}\n`;
}

/** How far the four leading numbers move over the range of each value that is not measured. */
export const sensitivity: Command = {
  name: 'sensitivity',
  positionals: [0, 0],
  options: { age: { type: 'string' }, jobs: { type: 'string' } },
  run: async ({ options, json, output }) => {
    const asked = together({
      age_years: numberOption(options, 'age', { from: 0, to: OLDEST_AGE_years, unit: 'years', absent: 0.5 }),
      jobs: numberOption(options, 'jobs', { from: 1, to: 256, unit: '', whole: true, absent: availableParallelism() }),
    });
    if (!asked.ok) return asked.problems;
    const { age_years, jobs } = asked.value;
    const cases = sensitivityCases(age_years);
    const cells = cases.flatMap((one) => one.cells);
    const progress = progressCount(output, 'computed');
    const outcomes = await computeCells(cells, jobs, (count) => progress.done(count, cells.length));
    progress.end();
    const rows = cases.map(({ parameter, end, value }, at): SensitivityRow => {
      const mine = outcomes.slice(at * HEADLINES.length, (at + 1) * HEADLINES.length);
      const numbers = mine.map((outcome, k) => [keyOf(k), 'values' in outcome ? outcome.values[keyOf(k)] : null]);
      const faults = mine.flatMap((outcome) => ('fault' in outcome ? [outcome.fault] : []));
      return {
        parameter: parameter?.label ?? 'the eye as it is',
        unit: parameter?.unit ?? '1',
        tag: parameter?.tag ?? '',
        end,
        value,
        numbers: Object.fromEntries(numbers),
        ...(faults.length > 0 ? { problem: faults.join('; ') } : {}),
      };
    });
    const result = { age_years, modelVersion: MODEL_VERSION, rows, caution: TEACHING_CAUTION };
    output.result(
      json
        ? `${JSON.stringify(result, null, 2)}\n`
        : `${sensitivityTable(age_years, rows)}\n${textOf(TEACHING_CAUTION)}\n`,
    );
    return rows.every(({ problem }) => problem === undefined) ? DONE : ANSWER_IS_NO;
  },
};

import {
  METRIC_LABELS,
  measureOpening,
  type OpeningMetrics,
  ok,
  parseOutline,
  type Result,
  TEACHING_CAUTION,
} from '../../physics/index.ts';
import { phrase } from '../words/problem-words.ts';
import { t, textOf } from '../words/words.ts';
import { argumentProblem, type Command, DONE, type OptionValues } from './command.ts';
import { numberOption, together } from './number-option.ts';
import { readTextFile } from './read-text-file.ts';
import { figure, fixed, table } from './table.ts';

type Pair = readonly [number, number];

function centreOption(options: OptionValues): Result<Pair> {
  if (options.centre === undefined) return ok([0, 0]);
  const parts = String(options.centre).split(',');
  const numbers = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (numbers.length === 2 && numbers.every((value) => Math.abs(value) <= 50)) return ok([numbers[0], numbers[1]]);
  return {
    ok: false,
    problems: [argumentProblem('--centre', `"${options.centre}"`, phrase('centre', { from: -50, to: 50 }))],
  };
}

/** The metrics as lines for a person. */
export function openingTable(opening: OpeningMetrics): string {
  const rows = Object.entries(METRIC_LABELS)
    .filter(([, { of }]) => of === 'opening')
    .map(
      ([key, { label, unit, decimals }]) =>
        [label, opening[key as keyof OpeningMetrics]?.valueOf(), unit, decimals] as const,
    )
    .map(([label, value, unit, decimals]) => [
      textOf(label),
      typeof value === 'number' ? fixed(value, decimals) : t('terminal.none'),
      textOf(unit),
    ]);
  const gaps = opening.opticUncovered_clock_h
    .map(([from, to]) => t('report.range', { from: figure(from), to: figure(to) }))
    .join(', ');
  return table([...rows, [t('terminal.opening.uncovered'), gaps === '' ? t('report.nowhere') : gaps]]);
}

export const opening: Command = {
  name: 'opening',
  positionals: [1, 1],
  options: { target: { type: 'string' }, optic: { type: 'string' }, centre: { type: 'string' } },
  run: async ({ positionals: [file], options, json, output }) => {
    const asked = together({
      target: numberOption(options, 'target', { from: 1, to: 12, unit: 'mm', absent: 5 }),
      optic: numberOption(options, 'optic', { from: 1, to: 12, unit: 'mm', absent: 6 }),
      centre: centreOption(options),
      text: readTextFile(file),
    });
    if (!asked.ok) return asked.problems;
    const { target, optic, centre, text } = asked.value;
    const points = parseOutline(text, file);
    if (!points.ok) return points.problems;
    const measured = measureOpening(points.value, {
      targetCentre_mm: centre,
      targetDiameter_mm: target,
      opticCentre_mm: centre,
      opticDiameter_mm: optic,
      file,
    });
    if (!measured.ok) return measured.problems;
    const result = {
      targetDiameter_mm: target,
      opticDiameter_mm: optic,
      centre_mm: centre,
      opening: measured.value,
      caution: TEACHING_CAUTION,
    };
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : openingTable(measured.value));
    if (!json) output.message(`${textOf(TEACHING_CAUTION)}\n`);
    return DONE;
  },
};

/** A chart over age as plain data, from what was asked and what has been computed of it. */

import { MODEL_VERSION, SWEEP_MEASURES } from '../../../../physics/index.ts';
import type { ChartLine, ChartPublished, ChartSpec } from '../../../charts/chart-spec.ts';
import { textOf } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';
import { AGE_MEASURES, type AgeMeasure, ageTitle, isAtPressure } from './age-measures.ts';
import { type AgeAsked, type AgeCell, type AgeValue, cellKey } from './cell-key.ts';

const pressuresOf = (measure: AgeMeasure, { pressures_mmHg }: AgeAsked): readonly number[] =>
  isAtPressure(measure) ? pressures_mmHg : [0];

/** The cells of a chart, by pressure and then by age. */
export const cellsOf = (measure: AgeMeasure, asked: AgeAsked): readonly AgeCell[] =>
  pressuresOf(measure, asked).flatMap((netPressure_mmHg) =>
    asked.ages_years.map((age_years) => ({
      measure,
      age_years,
      netPressure_mmHg,
      opening_mm: measure === 'line' ? asked.opening_mm : null,
    })),
  );

/** Published values, as a chart draws them. */
export const publishedOf = (measure: AgeMeasure): readonly ChartPublished[] =>
  SWEEP_MEASURES[measure].published.map(({ age_years, value, spread, source }) => ({
    x: age_years,
    y: value,
    spread,
    source: textOf(source),
  }));

export function ageChart(measure: AgeMeasure, asked: AgeAsked, values: ReadonlyMap<string, AgeValue>): ChartSpec {
  const { decimals, alwaysY } = AGE_MEASURES[measure];
  const title = ageTitle(measure);
  const lines = pressuresOf(measure, asked).map((netPressure_mmHg): ChartLine => {
    const cells = cellsOf(measure, { ...asked, pressures_mmHg: [netPressure_mmHg] });
    return {
      name: isAtPressure(measure)
        ? t('lecture.ages.modelAt', { pressure: quantity(netPressure_mmHg, 1, 'mmHg') })
        : t('lecture.ages.model'),
      xs: asked.ages_years,
      ys: cells.map((cell) => {
        const value = values.get(cellKey(MODEL_VERSION, cell));
        return value !== undefined && 'value' in value ? value.value : null;
      }),
    };
  });
  return {
    title:
      measure === 'line' ? t('lecture.ages.titleAt', { title, opening: quantity(asked.opening_mm, 2, 'mm') }) : title,
    xLabel: t('lecture.ages.axis'),
    yLabel: t(`lecture.ages.${measure}.yLabel`),
    xIsTime: false,
    points: [],
    joined: true,
    band: null,
    levels: [],
    rows: null,
    decimals,
    lines,
    marked: true,
    published: publishedOf(measure),
    alwaysX: [0, 60],
    alwaysY,
    xDecimals: asked.ages_years.some((age) => !Number.isInteger(age)) ? 2 : 0,
  };
}

/** How a cell stands, for the words under a chart. */
export function outcomesOf(measure: AgeMeasure, asked: AgeAsked, values: ReadonlyMap<string, AgeValue>) {
  const found = cellsOf(measure, asked).map((cell) => ({ cell, value: values.get(cellKey(MODEL_VERSION, cell)) }));
  return {
    missing: found.filter(({ value }) => value === undefined).length,
    none: found
      .filter(({ value }) => value !== undefined && 'value' in value && value.value === null)
      .map(({ cell }) => cell),
    faults: found.flatMap(({ cell, value }) => (value && 'fault' in value ? [{ cell, fault: value.fault }] : [])),
  };
}

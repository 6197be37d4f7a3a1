import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { MODEL_VERSION, STEP_S, SWEEP_MEASURES } from '../../physics/index.ts';
import { chartRows } from '../../src-renderer/charts/chart-rows.ts';
import { type ChartSpec, rangesOf, valueNear } from '../../src-renderer/charts/chart-spec.ts';
import { speak, t } from '../../src-renderer/i18n/text.ts';
import { ageChart, cellsOf, outcomesOf } from '../../src-renderer/places/lecture/charts/age-chart.ts';
import { AGE_MEASURE_IDS } from '../../src-renderer/places/lecture/charts/age-measures.ts';
import {
  type AgeCell,
  type AgeValue,
  cellKey,
  isOfVersion,
} from '../../src-renderer/places/lecture/charts/cell-key.ts';
import { parseNumbers, writtenNumbers } from '../../src-renderer/places/lecture/charts/parse-numbers.ts';
import type { SeriesPoint } from '../../src-renderer/places/lecture/contract.ts';
import { chartCsv } from '../../src-renderer/places/lecture/exports/chart-csv.ts';
import { fileName } from '../../src-renderer/places/lecture/exports/save-file.ts';
import { headsOf, plotSpec, stepAt } from '../../src-renderer/places/lecture/plots/plot-model.ts';

const CELL: AgeCell = { measure: 'hold-angle', age_years: 2, netPressure_mmHg: 1.5, opening_mm: null };

const point = (step: number, arcTorn_deg: number | null, tipRadius_mm: number | null): SeriesPoint => ({
  step,
  time_s: step * STEP_S,
  arcTorn_deg,
  tipRadius_mm,
  drivingRatio: step / 10,
  headingError_deg: null,
  gripForce_mN: 0,
  netPressure_mmHg: 2,
});

const EYES = [
  { label: '6 months', series: [point(0, 0, 2), point(1, 0, 2), point(2, 4, 2.1), point(3, 9, 2.3)] },
  { label: '40 years', series: [point(0, 0, 2), point(1, 6, 2), point(2, 12, 2), point(3, null, null)] },
];

describe('keys of kept points', () => {
  test('differ in everything a value depends on and in nothing else', () => {
    const keys = [
      cellKey('1', CELL),
      cellKey('2', CELL),
      cellKey('1', { ...CELL, measure: 'enlargement' }),
      cellKey('1', { ...CELL, age_years: 2.5 }),
      cellKey('1', { ...CELL, netPressure_mmHg: 1 }),
      cellKey('1', { ...CELL, opening_mm: 4.5 }),
    ];
    expect(new Set(keys).size).toBe(keys.length);
    expect(cellKey('1', { ...CELL })).toBe(keys[0]);
    expect(keys.map((key) => isOfVersion(key, '1'))).toEqual([true, false, true, true, true, true]);
    expect(isOfVersion(cellKey('11', CELL), '1')).toBe(false);
  });
});

describe('a chart by age', () => {
  const asked = { ages_years: [0.5, 40], pressures_mmHg: [0, 2], opening_mm: 4.5 };

  test('shows what has been computed and leaves a gap for what has not', () => {
    const cells = cellsOf('hold-angle', asked);
    expect(cells).toHaveLength(4);
    const values = new Map<string, AgeValue>([
      [cellKey(MODEL_VERSION, cells[0]!), { value: 61 }],
      [cellKey(MODEL_VERSION, cells[2]!), { value: null }],
      [cellKey(MODEL_VERSION, cells[3]!), { fault: 'no state of rest' }],
    ]);
    const { lines } = ageChart('hold-angle', asked, values);
    expect(lines?.map(({ ys }) => ys)).toEqual([
      [61, null],
      [null, null],
    ]);
    const { missing, none, faults } = outcomesOf('hold-angle', asked, values);
    expect(missing).toBe(1);
    expect(none).toEqual([cells[2]]);
    expect(faults).toEqual([{ cell: cells[3], fault: 'no state of rest' }]);
  });

  test('has one curve where the measure itself looks for a pressure, and says what it cannot show', () => {
    expect(ageChart('run-out-margin', asked, new Map()).lines).toHaveLength(1);
    expect(t('lecture.ages.run-out-margin.caveat')).toContain('does not show the fall');
    for (const id of AGE_MEASURE_IDS) expect(t(`lecture.ages.${id}.caveat`).length).toBeGreaterThan(40);
  });

  test('says in English what the model itself says that it computes; the line alone is for an opening of one’s own', () => {
    for (const id of AGE_MEASURE_IDS.filter((one) => one !== 'line')) {
      expect(t(`lecture.ages.${id}.title`)).toBe(SWEEP_MEASURES[id].title);
      expect(t(`lecture.ages.${id}.definition`)).toBe(SWEEP_MEASURES[id].definition);
    }
  });

  test('keeps published values with their spread in sight', () => {
    const spec = ageChart('enlargement', asked, new Map());
    const { x, y } = rangesOf(spec);
    for (const one of spec.published!) {
      expect(one.source.length).toBeGreaterThan(10);
      expect(x[0]).toBeLessThanOrEqual(one.x[0]);
      expect(x[1]).toBeGreaterThanOrEqual(one.x[1]);
      expect(y[0]).toBeLessThan(one.y - (one.spread ?? 0));
      expect(y[1]).toBeGreaterThan(one.y + (one.spread ?? 0));
    }
  });
});

describe('numbers typed into a form', () => {
  const limits = { field: 'ages', from: 0, to: 95, most: 3 };

  test('are sorted and each taken once', () => {
    expect(parseNumbers('40, 2 0.5;2', limits)).toEqual({ ok: true, value: [0.5, 2, 40] });
  });

  test('are refused one by one with what was found', () => {
    const read = parseNumbers('2, old, 120, 1e1', limits);
    if (read.ok) throw new Error('bad numbers were taken');
    expect(read.problems.map(({ found }) => found)).toEqual(['"old"', '"120"', '"1e1"']);
    expect(parseNumbers('', limits).ok).toBe(false);
    expect(parseNumbers('1 2 3 4', limits).ok).toBe(false);
  });
});

describe('numbers typed where decimals have a comma', () => {
  beforeAll(() => speak('es'));
  afterAll(() => speak('en'));

  test('are never taken apart at the comma', () => {
    const limits = { field: 'edades', from: 0, to: 95, most: 4 };
    expect(parseNumbers('0,5; 2 40', limits)).toEqual({ ok: true, value: [0.5, 2, 40] });
    expect(parseNumbers('0.5; 2', limits)).toEqual({ ok: true, value: [0.5, 2] });
    expect(parseNumbers('0,5, 2', limits).ok).toBe(false);
    expect(parseNumbers(writtenNumbers([0.5, 2, 6.25]), limits)).toEqual({ ok: true, value: [0.5, 2, 6.25] });
  });
});

describe('plots that grow with the motion', () => {
  test('run along time or along the arc, with the moment shown on each curve', () => {
    expect(plotSpec('driving', EYES).lines?.[0]?.ys).toEqual([0, 0.1, 0.2, 0.3]);
    const radius = plotSpec('radius', EYES);
    expect(radius.lines?.[0]).toEqual({ name: '6 months', xs: [0, 4, 9], ys: [2, 2.1, 2.3] });
    expect(radius.lines?.[1]?.xs).toEqual([0, 6, 12]);
    expect(headsOf('driving', EYES, 2)).toEqual([2 * STEP_S, 2 * STEP_S]);
    expect(headsOf('radius', EYES, 2)).toEqual([4, 12]);
    expect(headsOf('radius', EYES, 3)).toEqual([9, null]);
  });

  test('do not make much of radii that differ by nothing to speak of', () => {
    const still = [
      { label: 'a', series: [point(0, 0, 1.9)] },
      { label: 'b', series: [point(0, 0, 1.9001)] },
    ];
    const { y } = rangesOf(plotSpec('radius', still));
    expect(y[1] - y[0]).toBeGreaterThanOrEqual(0.2);
    expect(y[0]).toBeLessThan(1.82);
    const { y: wide } = rangesOf(plotSpec('radius', [{ label: 'a', series: [point(0, 0, 1.9), point(1, 4, 2.9)] }]));
    expect(wide[1] - wide[0]).toBeGreaterThanOrEqual(1);
  });

  test('give the step of a place: nearest in time, nearest in arc, never past the last', () => {
    expect(stepAt('driving', EYES, 2.4 * STEP_S, 3)).toBe(2);
    expect(stepAt('driving', EYES, 9, 3)).toBe(3);
    expect(stepAt('radius', EYES, 8.8, 3)).toBe(3);
    expect(stepAt('radius', EYES, 11, 3)).toBe(2);
  });

  test('tell two eyes of one name apart', () => {
    const twins = [EYES[0]!, { ...EYES[1]!, label: '6 months' }];
    expect(plotSpec('grip', twins).lines?.map(({ name }) => name)).toEqual(['6 months (left)', '6 months (right)']);
  });
});

describe('a chart as a table', () => {
  const spec: ChartSpec = {
    ...plotSpec('radius', EYES),
    published: [{ x: [1, 2], y: 0.1 + 0.2, spread: 0.5, source: 'Somebody, "a title"' }],
  };

  test('has a row for each place that any curve has', () => {
    const { head, rows } = chartRows(spec);
    expect(head).toEqual(['Arc torn (degrees)', '6 months (mm)', '40 years (mm)']);
    expect(rows.map(([x]) => x)).toEqual([0, 4, 6, 9, 12]);
    expect(rows[1]).toEqual([4, 2.1, null]);
  });

  test('is saved with published values, sources and the caution, every row as wide as the head', () => {
    const lines = chartCsv(spec, 'Only for teaching, always').trim().split('\r\n');
    expect(lines).toHaveLength(1 + 5 + 1);
    expect(lines[1]).toContain('"Only for teaching, always"');
    expect(lines.at(-1)).toContain('"Somebody, ""a title"""');
    const fields = (line: string) => line.replace(/"(?:[^"]|"")*"/g, 'x').split(',').length;
    expect(new Set(lines.map(fields)).size).toBe(1);
    expect(chartCsv({ ...spec, lines: [], published: [] }, 'Caution')).toContain('Caution');
  });

  test('finds the value near a place and none far from it', () => {
    const line = { name: 'a', xs: [0, 1, 4], ys: [5, 6, null] };
    expect(valueNear(line, 0.6, 1)).toBe(6);
    expect(valueNear(line, 2.4, 1)).toBeNull();
    expect(valueNear({ ...line, xs: [], ys: [] }, 0, 1)).toBeNull();
  });
});

test('a file gets a name that every system takes', () => {
  expect(fileName('6 months / 40 years: "pull"', 'png')).toBe('6 months 40 years pull.png');
  expect(fileName('../..', 'csv')).toBe('rimward.csv');
  expect(fileName('', 'svg')).toBe('rimward.svg');
  // vowel signs are no letters, but without them Hindi is not to be read
  expect(fileName('6 महीने / 40 वर्ष', 'png')).toBe('6 महीने 40 वर्ष.png');
});

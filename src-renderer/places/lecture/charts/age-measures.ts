/** The charts over age that the model computes, and what must be said beside each of them. */
import { SWEEP_MEASURES, type SweepMeasure } from '../../../../physics/index.ts';

export type AgeMeasure = Exclude<SweepMeasure, 'sheet-force'>;

export interface AgeMeasureInfo {
  readonly title: string;
  readonly unit: string;
  readonly yLabel: string;
  readonly decimals: number;
  readonly definition: string;
  readonly atPressure: boolean;
  /** Pressures shown at first, mmHg. */
  readonly pressures_mmHg: readonly number[];
  /** What the chart cannot show, or shows only because it was put in; in plain words. */
  readonly caveat: string;
  /** How long a cell takes on one core, in words. */
  readonly cost: string;
  readonly alwaysY: readonly number[];
}

const shared = (measure: AgeMeasure) => {
  const { title, definition, atPressure } = SWEEP_MEASURES[measure];
  return { title, definition, atPressure };
};

export const AGE_MEASURES: Readonly<Record<AgeMeasure, AgeMeasureInfo>> = {
  'hold-angle': {
    ...shared('hold-angle'),
    unit: '°',
    yLabel: 'degrees from the tangent',
    decimals: 0,
    pressures_mmHg: [0, 2],
    caveat:
      'The published angles are not defined in their source, so only the trend can be compared: a larger angle in a child. Where no point stands, no pull held the circle.',
    cost: 'tens of seconds a point',
    alwaysY: [0, 90],
  },
  'run-out-margin': {
    ...shared('run-out-margin'),
    unit: 'mmHg',
    yLabel: 'mmHg',
    decimals: 1,
    pressures_mmHg: [0],
    caveat:
      'The model does not show the fall toward infancy that is expected: simple linear theory gives about 3.5 mmHg up to 6 years and 8 to 9 mmHg from 40 years on. Here the young capsule stiffens as it is stretched and the rim is equally stiff at every age, and both raise its margin. Nobody has measured either in a child. That a child’s tear leaves less room shows in the pull instead: see the pull angle and the pressure up to which a pull can hold.',
    cost: 'seconds a point',
    alwaysY: [0],
  },
  'holding-limit': {
    ...shared('holding-limit'),
    unit: 'mmHg',
    yLabel: 'mmHg',
    decimals: 1,
    pressures_mmHg: [0],
    caveat: 'No published values exist. The tear resistance behind it has not been measured at any age.',
    cost: 'tens of seconds a point',
    alwaysY: [0],
  },
  line: {
    ...shared('line'),
    title: 'Line to tear along for the planned opening',
    unit: 'mm',
    yLabel: 'mm',
    decimals: 2,
    definition:
      'Diameter of the circle to tear along in the tense capsule so that the relaxed opening has the planned diameter. The opening enlarges, more in a child and more under pressure.',
    pressures_mmHg: [0, 2],
    caveat:
      'For a round opening about the middle, from the enlargement that the model was fitted to. Between 8 and 40 years no enlargement has been published; there the curve is a join.',
    cost: 'a moment a point',
    alwaysY: [],
  },
  enlargement: {
    ...shared('enlargement'),
    unit: 'times',
    yLabel: 'times the line',
    decimals: 2,
    pressures_mmHg: [0],
    caveat:
      'The tension of the capsule was fitted to these published values at no net pressure, so that agreement there is no test of the model. Between 8 and 40 years nothing is published.',
    cost: 'seconds a point',
    alwaysY: [1],
  },
};

export const AGE_MEASURE_IDS = Object.keys(AGE_MEASURES) as readonly AgeMeasure[];

/** Few, because a cell of some measures takes up to a minute. */
export const USUAL_AGES_years: readonly number[] = [0.5, 2, 6, 20, 40, 60];

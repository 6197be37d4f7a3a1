/** The charts over age that the model computes. What must be said beside each of them is in the messages, `lecture.ages`. */
import { SWEEP_MEASURES, type SweepMeasure } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';

export type AgeMeasure = Exclude<SweepMeasure, 'sheet-force'>;

export interface AgeMeasureInfo {
  readonly decimals: number;
  /** Pressures shown at first, mmHg. */
  readonly pressures_mmHg: readonly number[];
  readonly alwaysY: readonly number[];
}

export const AGE_MEASURES: Readonly<Record<AgeMeasure, AgeMeasureInfo>> = {
  'hold-angle': { decimals: 0, pressures_mmHg: [0, 2], alwaysY: [0, 90] },
  'run-out-margin': { decimals: 1, pressures_mmHg: [0], alwaysY: [0] },
  'holding-limit': { decimals: 1, pressures_mmHg: [0], alwaysY: [0] },
  line: { decimals: 2, pressures_mmHg: [0, 2], alwaysY: [] },
  enlargement: { decimals: 2, pressures_mmHg: [0], alwaysY: [1] },
};

export const AGE_MEASURE_IDS = Object.keys(AGE_MEASURES) as readonly AgeMeasure[];

/** False where the measure itself looks for a pressure. */
export const isAtPressure = (measure: AgeMeasure): boolean => SWEEP_MEASURES[measure].atPressure;

export const ageTitle = (measure: AgeMeasure): string => t(`lecture.ages.${measure}.title`);

/** Few, because a cell of some measures takes up to a minute. */
export const USUAL_AGES_years: readonly number[] = [0.5, 2, 6, 20, 40, 60];

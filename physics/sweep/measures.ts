/** The measures that a chart over age can show, each computed by the whole model for one age and one net pressure. */
import { eyeAt } from '../eye/age.ts';
import { uncutTension_mN_per_mm } from '../eye/chamber.ts';
import { lineDiameterFor_mm } from '../eye/radial.ts';
import { enlargementOf } from './enlargement.ts';
import { holdAngleOf } from './hold-angle.ts';
import { holdingLimitOf } from './holding-limit.ts';
import { PUBLISHED_ENLARGEMENT, PUBLISHED_PULL_ANGLE, type PublishedPoint } from './published.ts';
import { type SampleOptions, usualOpening_mm } from './sample-eye.ts';
import { runOutMarginOf, sheetForceAt } from './sheet-force.ts';

export type SweepMeasure = 'enlargement' | 'hold-angle' | 'run-out-margin' | 'holding-limit' | 'sheet-force' | 'line';

/** Numbers of one row by name, units in the names; null where the model gives none. */
export type SweepValues = Readonly<Record<string, number | null>>;

export interface SweepCell {
  readonly measure: SweepMeasure;
  readonly age_years: number;
  /** Not read by a measure that finds a pressure. */
  readonly netPressure_mmHg: number;
  readonly options: SampleOptions;
}

export interface MeasureInfo {
  readonly title: string;
  /** Key of the value that a chart shows, and its unit. */
  readonly value: string;
  readonly unit: string;
  /** False where the measure itself looks for a pressure. */
  readonly atPressure: boolean;
  /** What exactly is computed, in plain words. */
  readonly definition: string;
  readonly published: readonly PublishedPoint[];
}

export const SWEEP_MEASURES: Readonly<Record<SweepMeasure, MeasureInfo>> = {
  enlargement: {
    title: 'Enlargement of a finished opening',
    value: 'enlargement',
    unit: '1',
    atPressure: true,
    definition:
      'A circle is cut at once along the usual line in the tense capsule and the sheet comes to rest; diameter of the opening over that of the line.',
    published: PUBLISHED_ENLARGEMENT,
  },
  'hold-angle': {
    title: 'Pull angle that holds the circle',
    value: 'holdAngle_deg',
    unit: 'deg',
    atPressure: true,
    definition:
      'A flap of 100 degrees on the usual line is grasped 0.6 mm behind the tip and 0.4 mm inside the edge, folded over and pulled at one angle for 0.9 mm of tear; the angle, from the tangent toward the centre, at which the radius does not change.',
    published: PUBLISHED_PULL_ANGLE,
  },
  'run-out-margin': {
    title: 'Net pressure at which the tear runs by itself',
    value: 'runOutMargin_mmHg',
    unit: 'mmHg',
    atPressure: false,
    definition:
      'A tear of 140 degrees on the usual line, pull let go; the net pressure at which the driving force of the sheet alone reaches the tear resistance.',
    published: [],
  },
  'holding-limit': {
    title: 'Net pressure up to which a pull can hold the circle',
    value: 'holdingLimit_mmHg',
    unit: 'mmHg',
    atPressure: false,
    definition:
      'The flap and grasp of the hold angle, pulled straight to the centre; the net pressure at which even then the radius does not shrink.',
    published: [],
  },
  'sheet-force': {
    title: 'What the sheet alone does',
    value: 'sheetShare',
    unit: '1',
    atPressure: true,
    definition:
      'A tear of 140 degrees on the usual line, pull let go: the driving force at its tip, over the tear resistance, and where it points (from the tangent, negative is outward).',
    published: [],
  },
  line: {
    title: 'Line for the usual opening',
    value: 'lineDiameter_mm',
    unit: 'mm',
    atPressure: true,
    definition:
      'Diameter of the line to tear along in the tense capsule so that the relaxed opening has the usual diameter: 4.5 mm below 10 years, 5.0 mm from there.',
    published: [],
  },
};

/** One row. A cell that cannot be computed throws. */
export function sweepCell({ measure, age_years, netPressure_mmHg, options }: SweepCell): SweepValues {
  switch (measure) {
    case 'enlargement':
      return { ...enlargementOf(age_years, netPressure_mmHg, options) };
    case 'hold-angle':
      return { holdAngle_deg: holdAngleOf(age_years, netPressure_mmHg, options).holdAngle_deg };
    case 'run-out-margin':
      return { ...runOutMarginOf(age_years, options) };
    case 'holding-limit':
      return { ...holdingLimitOf(age_years, options) };
    case 'sheet-force':
      return { ...sheetForceAt(age_years, netPressure_mmHg, options) };
    case 'line':
      return lineOf(age_years, netPressure_mmHg, options);
  }
}

function lineOf(age_years: number, netPressure_mmHg: number, options: SampleOptions): SweepValues {
  const eye = eyeAt(age_years, { stiffnessPreset: options.preset, dyed: options.dyed, overrides: options.overrides });
  const openingDiameter_mm = usualOpening_mm(age_years);
  const tension = uncutTension_mN_per_mm(eye, netPressure_mmHg);
  return { openingDiameter_mm, lineDiameter_mm: lineDiameterFor_mm(eye, openingDiameter_mm, tension) };
}

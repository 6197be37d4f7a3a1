/** How far the numbers a chart leads with move when one value of the eye goes to either end of its range, the others staying. */
import { type EyeOverride, eyeAt } from '../eye/age.ts';
import { eyeParameters } from '../eye/parameter-list.ts';
import type { EyeParameter } from '../eye/parameters.ts';
import type { SweepCell, SweepMeasure } from './measures.ts';

/** The four numbers, and the net pressure at which each is asked, mmHg. */
export const HEADLINES: readonly { readonly measure: SweepMeasure; readonly netPressure_mmHg: number }[] = [
  { measure: 'enlargement', netPressure_mmHg: 0 },
  { measure: 'sheet-force', netPressure_mmHg: 2 },
  { measure: 'run-out-margin', netPressure_mmHg: 0 },
  { measure: 'hold-angle', netPressure_mmHg: 2 },
];

/** Values that can be put into an eye; what a value is derived from moves with it only where the eye itself recomputes it. */
const MOVED: readonly EyeOverride[] = [
  'thickness_um',
  'youngModulus_MPa',
  'stiffening',
  'tearResistance_mN',
  'lensDiameter_mm',
  'anteriorRadius_mm',
  'zonuleFreeDiameter_mm',
  'zonuleStiffness_mN_per_mm2',
  'baseTension_mN_per_mm',
];

/** One run of the four numbers. */
export interface SensitivityCase {
  /** Null for the eye as it is. */
  readonly parameter: EyeParameter | null;
  readonly end: 'low' | 'as it is' | 'high';
  readonly value: number | null;
  readonly cells: readonly SweepCell[];
}

/**
 * All cases of one age: the eye as it is, then each value that is not measured at both ends of its range.
 *
 * @param age_years 0 to 95
 */
export function sensitivityCases(age_years: number): readonly SensitivityCase[] {
  const usual = { preset: 'uniaxial', dyed: false } as const;
  const cells = (overrides: SweepCell['options']['overrides']): readonly SweepCell[] =>
    HEADLINES.map(({ measure, netPressure_mmHg }) => ({
      measure,
      age_years,
      netPressure_mmHg,
      options: { ...usual, overrides },
    }));
  const eye = eyeAt(age_years, { stiffnessPreset: usual.preset, dyed: usual.dyed });
  const moved = eyeParameters(eye).filter(({ key, tag }) => tag !== 'measured' && MOVED.some((name) => name === key));
  return [
    { parameter: null, end: 'as it is', value: null, cells: cells({}) },
    ...moved.flatMap((parameter): SensitivityCase[] =>
      (['low', 'high'] as const).map((end) => {
        const value = parameter.range[end === 'low' ? 0 : 1];
        return { parameter, end, value, cells: cells({ [parameter.key]: value }) };
      }),
    ),
  ];
}

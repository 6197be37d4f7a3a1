import { type EyeParameter, eyeAt, eyeParameters, fluidById, type Scenario } from '../../../physics/index.ts';
import { quantity } from '../../ui/format.ts';

export interface EyeLine {
  readonly label: string;
  readonly text: string;
  /** Measured, derived or assumed, with range and source; shown on request. */
  readonly note: string;
}

/** The few values that a person works with, in reading order: key, label, decimals. */
const SHOWN: readonly (readonly [string, string, number])[] = [
  ['thickness_um', 'Capsule thickness', 1],
  ['youngModulus_MPa', 'Stiffness', 2],
  ['tearResistance_mN', 'Tear resistance', 2],
  ['baseTension_mN_per_mm', 'Base tension', 2],
  ['zonuleFreeDiameter_mm', 'Zonule-free zone', 1],
];

const unitOf = (unit: string): string => unit.replace('um', 'µm').replace('^2', '²');

function noteOf(parameter: EyeParameter): string {
  const [low, high] = parameter.range.map((end) => quantity(end, 2, ''));
  return `${parameter.tag}, ${low} to ${high} ${unitOf(parameter.unit)}. ${parameter.source}`;
}

/** What follows from the age of a scenario's eye, ready to be shown. */
export function eyeLines({ eye }: Scenario): readonly EyeLine[] {
  const { stiffnessPreset, dyed, overrides } = eye;
  const parameters = eyeParameters(eyeAt(eye.age_years, { stiffnessPreset, dyed, overrides }));
  return SHOWN.flatMap(([key, label, decimals]) => {
    const parameter = parameters.find((one) => one.key === key);
    if (parameter === undefined) return [];
    return [{ label, text: quantity(parameter.value, decimals, unitOf(parameter.unit)), note: noteOf(parameter) }];
  });
}

/** Age in the words of the clinic: months below two years. */
export function ageWords(age_years: number): string {
  if (age_years < 2) {
    const months = Math.round(12 * age_years);
    return months === 1 ? '1 month' : `${months} months`;
  }
  return `${Math.round(age_years * 10) / 10} years`;
}

export const fluidWords = (scenario: Scenario): string => fluidById(scenario.chamber.fluid).label;

import { eyeAt, type StiffnessPreset } from '../../physics/index.ts';

/** Zonule-free diameter by age, as the scenario check wants it. */
export const zonuleFreeDiameterOf = (age_years: number, stiffnessPreset: StiffnessPreset): number =>
  eyeAt(age_years, { stiffnessPreset, dyed: false }).zonuleFreeDiameter_mm;

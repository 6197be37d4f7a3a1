import { power } from '../core/elementary/power.ts';
import type { ScenarioEye, StiffnessPreset } from '../scenario/scenario.ts';
import {
  ANTERIOR_RADIUS,
  DYE_FACTOR,
  LENS_DIAMETER,
  LIMBUS_DIAMETER,
  RUPTURE_INFLATION,
  RUPTURE_UNIAXIAL,
  TEAR_RESISTANCE_mN,
  THICKNESS_um,
  YOUNG_MODULUS_INFLATION_MPa,
  YOUNG_MODULUS_UNIAXIAL_MPa,
  ZONULE_FREE_DIAMETER,
  ZONULE_STIFFNESS_mN_per_mm2,
} from './age-table.ts';
import { baseTension_mN_per_mm } from './base-tension.ts';
import { monotoneCurve } from './monotone.ts';
import type { CapsuleDisc } from './radial.ts';
import { stiffeningFromRupture } from './tension.ts';

/** Everything the model holds about one eye. Numbers only, so it can be stored and sent. */
export interface Eye extends CapsuleDisc {
  readonly age_years: number;
  readonly stiffnessPreset: StiffnessPreset;
  readonly dyed: boolean;
  readonly thickness_um: number;
  /** Slope of uniaxial stress at no stretch, E0. */
  readonly youngModulus_MPa: number;
  /** b of the material. */
  readonly stiffening: number;
  readonly ruptureStrain: number;
  /** Nominal. */
  readonly ruptureStress_MPa: number;
  /** Tearing energy times thickness. */
  readonly tearResistance_mN: number;
  readonly lensDiameter_mm: number;
  readonly anteriorRadius_mm: number;
  readonly zonuleFreeDiameter_mm: number;
  readonly limbusDiameter_mm: number;
  /** Radial stiffness of the rim per mm of unloaded rim arc, mN/mm per mm. */
  readonly zonuleStiffness_mN_per_mm2: number;
  /** Tension of the uncut capsule at no net pressure. */
  readonly baseTension_mN_per_mm: number;
  /** Names of the values that a scenario replaced. */
  readonly overridden: readonly EyeOverride[];
}

export type EyeOverride = keyof ScenarioEye['overrides'];

export interface EyeOptions {
  readonly stiffnessPreset: StiffnessPreset;
  readonly dyed: boolean;
  /** Replacements, each positive and finite; a new modulus without a new stiffening recomputes the stiffening. */
  readonly overrides?: ScenarioEye['overrides'];
}

export const OLDEST_AGE_years = 95;

const curves = {
  thickness: monotoneCurve(THICKNESS_um.value),
  modulusUniaxial: monotoneCurve(YOUNG_MODULUS_UNIAXIAL_MPa.value),
  modulusInflation: monotoneCurve(YOUNG_MODULUS_INFLATION_MPa.value),
  tearResistance: monotoneCurve(TEAR_RESISTANCE_mN.value),
  lens: monotoneCurve(LENS_DIAMETER.value),
  radius: monotoneCurve(ANTERIOR_RADIUS.value),
  zonuleFree: monotoneCurve(ZONULE_FREE_DIAMETER.value),
  limbus: monotoneCurve(LIMBUS_DIAMETER.value),
};

/** Elongation and nominal stress at rupture; held outside the ages of the tests. */
function ruptureAt(age_years: number, preset: StiffnessPreset): { strain: number; stress_MPa: number } {
  const data = preset === 'uniaxial' ? RUPTURE_UNIAXIAL : RUPTURE_INFLATION;
  const span = data.oldAge_years - data.youngAge_years;
  const share = Math.min(1, Math.max(0, (age_years - data.youngAge_years) / span));
  if (preset === 'inflation') {
    const fall_MPa = RUPTURE_INFLATION.youngStress_MPa - RUPTURE_INFLATION.oldStress_MPa;
    return { strain: RUPTURE_INFLATION.strain, stress_MPa: RUPTURE_INFLATION.youngStress_MPa - share * fall_MPa };
  }
  const { youngStrain, oldStrain, youngStress_MPa, oldStress_MPa } = RUPTURE_UNIAXIAL;
  return {
    strain: youngStrain + share * (oldStrain - youngStrain),
    stress_MPa: youngStress_MPa * power(oldStress_MPa / youngStress_MPa, share),
  };
}

/**
 * What the model holds about an eye of a given age. Sources and ranges: `eyeParameters`. Between the table's ages a
 * monotone smooth curve is used; below 6 months and above 75 years thickness, stiffness and tear resistance are held.
 *
 * @param age_years 0 to 95
 * @throws RangeError outside that range or on an override that is not positive and finite; files are checked before
 */
export function eyeAt(age_years: number, options: EyeOptions): Eye {
  if (!(age_years >= 0 && age_years <= OLDEST_AGE_years)) {
    throw new RangeError(`age must be 0 to ${OLDEST_AGE_years} years, found ${age_years}`);
  }
  const overrides = options.overrides ?? {};
  const overridden = givenOverrides(overrides);
  const preset = options.stiffnessPreset;
  const modulus = preset === 'uniaxial' ? curves.modulusUniaxial : curves.modulusInflation;
  const rupture = ruptureAt(age_years, preset);
  const youngModulus_MPa = overrides.youngModulus_MPa ?? modulus(age_years);
  const dye = options.dyed ? DYE_FACTOR : 1;
  return {
    age_years,
    stiffnessPreset: preset,
    dyed: options.dyed,
    thickness_um: overrides.thickness_um ?? curves.thickness(age_years),
    youngModulus_MPa,
    stiffening: overrides.stiffening ?? stiffeningFromRupture(youngModulus_MPa, rupture.strain, rupture.stress_MPa),
    ruptureStrain: rupture.strain,
    ruptureStress_MPa: rupture.stress_MPa,
    tearResistance_mN: overrides.tearResistance_mN ?? dye * curves.tearResistance(age_years),
    lensDiameter_mm: overrides.lensDiameter_mm ?? curves.lens(age_years),
    anteriorRadius_mm: overrides.anteriorRadius_mm ?? curves.radius(age_years),
    zonuleFreeDiameter_mm: overrides.zonuleFreeDiameter_mm ?? curves.zonuleFree(age_years),
    limbusDiameter_mm: curves.limbus(age_years),
    zonuleStiffness_mN_per_mm2: overrides.zonuleStiffness_mN_per_mm2 ?? ZONULE_STIFFNESS_mN_per_mm2,
    baseTension_mN_per_mm: overrides.baseTension_mN_per_mm ?? baseTension_mN_per_mm(age_years, preset),
    overridden,
  };
}

/** Diameter of the zonule-free zone of an eye of that age with nothing replaced, mm. @param age_years 0 to 95 */
export const zonuleFreeDiameterAt = (age_years: number, stiffnessPreset: StiffnessPreset): number =>
  eyeAt(age_years, { stiffnessPreset, dyed: false }).zonuleFreeDiameter_mm;

function givenOverrides(overrides: ScenarioEye['overrides']): readonly EyeOverride[] {
  const given = (Object.keys(overrides) as EyeOverride[]).filter((key) => overrides[key] !== undefined);
  for (const key of given) {
    const value = overrides[key];
    if (!(value !== undefined && value > 0 && Number.isFinite(value))) {
      throw new RangeError(`${key} must be positive and finite, found ${value}`);
    }
  }
  return given;
}

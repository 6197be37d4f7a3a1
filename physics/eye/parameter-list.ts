import type { Eye, EyeOverride } from './age.ts';
import {
  type AgeColumn,
  ANTERIOR_RADIUS,
  DYE_FACTOR,
  DYE_FACTOR_RANGE,
  LENS_DIAMETER,
  LIMBUS_DIAMETER,
  RUPTURE_INFLATION,
  RUPTURE_UNIAXIAL,
  TEAR_RESISTANCE_mN,
  THICKNESS_um,
  YOUNG_MODULUS_INFLATION_MPa,
  YOUNG_MODULUS_UNIAXIAL_MPa,
  ZONULE_FREE_DIAMETER,
  ZONULE_STIFFNESS_RANGE_mN_per_mm2,
  ZONULE_STIFFNESS_SOURCE,
} from './age-table.ts';
import { monotoneCurve } from './monotone.ts';
import type { EyeParameter } from './parameters.ts';
import { stiffeningFromRupture } from './tension.ts';

type Row = Omit<EyeParameter, 'key'>;
type Range = readonly [number, number];

/** A row of the age table at one age; its range is the published or assumed one. */
function fromColumn(column: AgeColumn, age_years: number, value: number): Row {
  const low = monotoneCurve(column.low)(age_years);
  const high = monotoneCurve(column.high)(age_years);
  const tag = column.tags.find((span) => age_years <= span.toAge_years)?.tag ?? 'assumed';
  return { label: column.label, value, unit: column.unit, tag, range: [low, high], source: column.source };
}

function tearResistance(eye: Eye): Row {
  if (!eye.dyed) return fromColumn(TEAR_RESISTANCE_mN, eye.age_years, eye.tearResistance_mN);
  const row = fromColumn(TEAR_RESISTANCE_mN, eye.age_years, eye.tearResistance_mN);
  const range: Range = [row.range[0] * DYE_FACTOR_RANGE[0], row.range[1] * DYE_FACTOR_RANGE[1]];
  const dye =
    `; dyed: times ${DYE_FACTOR} after the rupture stress of one paired test (Dick 2008, 13 pairs); ` +
    'later indentation tests contradict each other (no effect, or stiffer)';
  return { ...row, tag: 'assumed', range, source: row.source + dye };
}

function rupture(eye: Eye): { strain: Row; stress: Row } {
  const uniaxial = eye.stiffnessPreset === 'uniaxial';
  const source = uniaxial ? RUPTURE_UNIAXIAL.source : RUPTURE_INFLATION.source;
  // the span between the two published kinds of test, at every age
  return {
    strain: {
      label: 'Elongation at rupture',
      value: eye.ruptureStrain,
      unit: '1',
      tag: 'derived',
      range: [0.29, 1.08],
      source,
    },
    stress: {
      label: 'Nominal stress at rupture',
      value: eye.ruptureStress_MPa,
      unit: 'MPa',
      tag: 'derived',
      range: [0.7, 17.5],
      source,
    },
  };
}

/** Stiffening at the ends of the modulus range, same rupture point. */
function stiffening(eye: Eye, modulusRange: Range): Row {
  const at = (modulus_MPa: number) => stiffeningFromRupture(modulus_MPa, eye.ruptureStrain, eye.ruptureStress_MPa);
  return {
    label: 'Stiffening b of the material',
    value: eye.stiffening,
    unit: '1',
    tag: 'derived',
    range: [at(modulusRange[1]), at(modulusRange[0])],
    source: 'computed: the uniaxial curve passes through the nominal stress and elongation at rupture',
  };
}

const baseTension = (eye: Eye): Row => ({
  label: 'Tension of the uncut capsule at no net pressure',
  value: eye.baseTension_mN_per_mm,
  unit: 'mN/mm',
  tag: 'derived',
  // a factor of two each way: the scatter of published enlargement and the guessed thickness and stiffness
  range: [0.5 * eye.baseTension_mN_per_mm, 2 * eye.baseTension_mN_per_mm],
  source:
    'fitted: an opening enlarges by 1.27 - 0.014 age up to 8 years (preprint 202502.1108, 13 eyes) and 1.06 from 40 ' +
    '(Tan and Yuan 2025); no data between; range assumed',
});

const zonule = (eye: Eye): Row => ({
  label: 'Radial stiffness of the rim per mm of arc',
  value: eye.zonuleStiffness_mN_per_mm2,
  unit: 'mN/mm^2',
  tag: 'assumed',
  range: ZONULE_STIFFNESS_RANGE_mN_per_mm2,
  source: ZONULE_STIFFNESS_SOURCE,
});

/**
 * Every value of an eye with unit, tag, range and source, in the order a person reads them. A value that a scenario
 * replaced is tagged assumed with the source "scenario"; its range stays the one for the age.
 */
export function eyeParameters(eye: Eye): readonly EyeParameter[] {
  const age = eye.age_years;
  const modulusColumn = eye.stiffnessPreset === 'uniaxial' ? YOUNG_MODULUS_UNIAXIAL_MPa : YOUNG_MODULUS_INFLATION_MPa;
  const modulus = fromColumn(modulusColumn, age, eye.youngModulus_MPa);
  const { strain, stress } = rupture(eye);
  const rows: readonly (readonly [string, Row])[] = [
    ['thickness_um', fromColumn(THICKNESS_um, age, eye.thickness_um)],
    ['youngModulus_MPa', modulus],
    ['stiffening', stiffening(eye, modulus.range)],
    ['ruptureStrain', strain],
    ['ruptureStress_MPa', stress],
    ['tearResistance_mN', tearResistance(eye)],
    ['lensDiameter_mm', fromColumn(LENS_DIAMETER, age, eye.lensDiameter_mm)],
    ['anteriorRadius_mm', fromColumn(ANTERIOR_RADIUS, age, eye.anteriorRadius_mm)],
    ['zonuleFreeDiameter_mm', fromColumn(ZONULE_FREE_DIAMETER, age, eye.zonuleFreeDiameter_mm)],
    ['limbusDiameter_mm', fromColumn(LIMBUS_DIAMETER, age, eye.limbusDiameter_mm)],
    ['zonuleStiffness_mN_per_mm2', zonule(eye)],
    ['baseTension_mN_per_mm', baseTension(eye)],
  ];
  return rows.map(([key, row]) =>
    eye.overridden.includes(key as EyeOverride) ? { key, ...row, tag: 'assumed', source: 'scenario' } : { key, ...row },
  );
}

import { type EyeParameter, eyeAt, eyeParameters, type Scenario } from '../../../physics/index.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { number, quantity } from '../../ui/format.ts';

export interface EyeLine {
  readonly key: ShownKey;
  readonly label: string;
  readonly text: string;
  /** Measured, derived or assumed, with range and source; shown on request. */
  readonly note: string;
}

/** The few values that a person works with, in reading order, and their decimals. */
const SHOWN = [
  ['thickness_um', 1],
  ['youngModulus_MPa', 2],
  ['tearResistance_mN', 2],
  ['baseTension_mN_per_mm', 2],
  ['zonuleFreeDiameter_mm', 1],
] as const;

type ShownKey = (typeof SHOWN)[number][0];

const unitOf = (unit: string): string => unit.replace('um', 'µm').replace('^2', '²');

function noteOf(parameter: EyeParameter): string {
  const [low, high] = parameter.range.map((end) => quantity(end, 2, ''));
  const tag = t(`bench.eye.tag.${parameter.tag}`);
  return t('bench.eye.note', { tag, low, high, unit: unitOf(parameter.unit), source: textOf(parameter.source) });
}

/** What follows from the age of a scenario's eye, ready to be shown. */
export function eyeLines({ eye }: Scenario): readonly EyeLine[] {
  const { stiffnessPreset, dyed, overrides } = eye;
  const parameters = eyeParameters(eyeAt(eye.age_years, { stiffnessPreset, dyed, overrides }));
  return SHOWN.flatMap(([key, decimals]) => {
    const parameter = parameters.find((one) => one.key === key);
    if (parameter === undefined) return [];
    const text = quantity(parameter.value, decimals, unitOf(parameter.unit));
    return [{ key, label: t(`bench.eye.${key}`), text, note: noteOf(parameter) }];
  });
}

/** Age in the words of the clinic: months below two years. */
export function ageWords(age_years: number): string {
  if (age_years < 2) return t('bench.eye.months', { count: Math.round(12 * age_years) });
  const tenths = Math.round(age_years * 10);
  return t('bench.eye.years', { years: number(tenths / 10, tenths % 10 === 0 ? 0 : 1) });
}

/** A full stop in a key would lead one level deeper. */
const FLUID_KEY = {
  saline: 'saline',
  'hpmc-2': 'hpmc-2',
  'ha-1.0': 'ha-1_0',
  'ha-1.4': 'ha-1_4',
  'ha-1.8': 'ha-1_8',
  'ha-2.3': 'ha-2_3',
  'ha-3.0': 'ha-3_0',
} as const satisfies Readonly<Record<Scenario['chamber']['fluid'], string>>;

export const fluidWords = (scenario: Scenario): string => t(`bench.fluids.${FLUID_KEY[scenario.chamber.fluid]}`);

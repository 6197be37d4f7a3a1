import {
  closedLeakTime_s,
  dragPerArea_mN_s_per_mm3,
  type Eye,
  eyeAt,
  eyeParameters,
  FLUID_IDS,
  type FluidId,
  fluidById,
  lineDiameterFor_mm,
  netPressureAtTension_mmHg,
  OLDEST_AGE_years,
  ok,
  openingEnlargement,
  type Result,
  type StiffnessPreset,
  stretchAtTension,
  TEACHING_CAUTION,
  uncutTension_mN_per_mm,
} from '../../physics/index.ts';
import { phrase } from '../words/problem-words.ts';
import { t, textOf } from '../words/words.ts';
import { argumentProblem, type Command, DONE, type OptionValues } from './command.ts';
import { numberOption, together } from './number-option.ts';
import { figure, table } from './table.ts';

function choice<T extends string>(options: OptionValues, name: string, allowed: readonly T[], absent: T): Result<T> {
  const given = options[name] ?? absent;
  const found = allowed.find((one) => one === given);
  if (found !== undefined) return ok(found);
  return { ok: false, problems: [argumentProblem(`--${name}`, `"${given}"`, allowed.join(', '))] };
}

const PRESETS: readonly StiffnessPreset[] = ['uniaxial', 'inflation'];

function askedOf(options: OptionValues) {
  return together({
    age_years: numberOption(options, 'age', { from: 0, to: OLDEST_AGE_years, unit: 'years' }),
    netPressure_mmHg: numberOption(options, 'pressure', { from: -30, to: 30, unit: 'mmHg', absent: 0 }),
    target_mm: numberOption(options, 'target', { from: 2, to: 8, unit: 'mm', absent: 0 }),
    fluid: choice<FluidId>(options, 'fluid', FLUID_IDS, 'saline'),
    preset: choice(options, 'preset', PRESETS, 'uniaxial'),
  });
}

/** A usual target: 5 mm, or where the zone without zonules is small, the half millimetre that stays well inside it. */
const usualTarget_mm = (free_mm: number): number => Math.min(5, Math.floor(2 * free_mm - 1) / 2);

/** Where to draw the line in this eye, tense as it is, so that the relaxed opening has the wanted diameter. */
function linePlacement(eye: Eye, target_mm: number, tension_mN_per_mm: number) {
  const lineDiameter_mm = lineDiameterFor_mm(eye, target_mm, tension_mN_per_mm);
  return {
    targetDiameter_mm: target_mm,
    lineDiameter_mm,
    enlargement: openingEnlargement(eye, lineDiameter_mm, tension_mN_per_mm),
  };
}

function eyeResult(
  asked: { age_years: number; netPressure_mmHg: number; target_mm: number; fluid: FluidId; preset: StiffnessPreset },
  dyed: boolean,
) {
  const eye = eyeAt(asked.age_years, { stiffnessPreset: asked.preset, dyed });
  const tension_mN_per_mm = uncutTension_mN_per_mm(eye, asked.netPressure_mmHg);
  return {
    age_years: asked.age_years,
    dyed,
    stiffnessPreset: asked.preset,
    parameters: eyeParameters(eye),
    sheet: {
      netPressure_mmHg: asked.netPressure_mmHg,
      tension_mN_per_mm,
      stretch: stretchAtTension(tension_mN_per_mm, eye),
      /** Below this the sheet gets no slacker: the model floors its tension. */
      tensionFloorBelow_mmHg: netPressureAtTension_mmHg(eye, uncutTension_mN_per_mm(eye, -1000)),
    },
    fluid: {
      ...fluidById(asked.fluid),
      dragPerArea_mN_s_per_mm3: dragPerArea_mN_s_per_mm3(asked.fluid),
      closedLeakTime_s: closedLeakTime_s(asked.fluid),
    },
    line: linePlacement(eye, asked.target_mm, tension_mN_per_mm),
    caution: TEACHING_CAUTION,
  };
}

function eyeTable({ parameters, sheet, fluid, line }: ReturnType<typeof eyeResult>): string {
  const rows = parameters.map(({ label, value, unit, tag, range, source }) => [
    textOf(label),
    figure(value),
    unit === '1' ? '' : textOf(unit),
    t(`terminal.tag.${tag}`),
    t('report.range', { from: figure(range[0]), to: figure(range[1]) }),
    textOf(source),
  ]);
  const more = [
    [
      t('terminal.eye.tension'),
      figure(sheet.tension_mN_per_mm),
      'mN/mm',
      t('terminal.eye.net', { mmHg: figure(sheet.netPressure_mmHg) }),
    ],
    [t('terminal.eye.stretch'), figure(sheet.stretch)],
    [
      t('terminal.eye.line', { mm: figure(line.targetDiameter_mm) }),
      figure(line.lineDiameter_mm),
      'mm',
      t('terminal.eye.enlarges', { factor: figure(line.enlargement) }),
    ],
    [
      t('terminal.eye.fluid', { name: textOf(fluid.label) }),
      figure(fluid.viscosity_Pa_s),
      'Pa s',
      t('terminal.eye.leaks', { seconds: figure(fluid.closedLeakTime_s) }),
    ],
  ];
  return `${table(rows)}\n${table(more)}`;
}

export const eye: Command = {
  name: 'eye',
  positionals: [0, 0],
  options: {
    age: { type: 'string' },
    pressure: { type: 'string' },
    fluid: { type: 'string' },
    dye: { type: 'boolean' },
    preset: { type: 'string' },
    target: { type: 'string' },
  },
  run: async ({ options, json, output }) => {
    const asked = askedOf(options);
    if (!asked.ok) return asked.problems;
    const { age_years, preset } = asked.value;
    const free_mm = eyeAt(age_years, { stiffnessPreset: preset, dyed: false }).zonuleFreeDiameter_mm;
    const target_mm = options.target === undefined ? usualTarget_mm(free_mm) : asked.value.target_mm;
    if (target_mm > free_mm) {
      const allowed = phrase('inZone', { limit: Number(free_mm.toPrecision(4)) });
      return [argumentProblem('--target', phrase('millimetres', { limit: target_mm }), allowed)];
    }
    const result = eyeResult({ ...asked.value, target_mm }, options.dye === true);
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : eyeTable(result));
    if (!json) output.message(`${textOf(TEACHING_CAUTION)}\n`);
    return DONE;
  },
};

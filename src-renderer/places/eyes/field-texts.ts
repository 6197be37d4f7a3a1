import {
  closedLeakTime_s,
  eyeAt,
  eyeParameters,
  type FluidId,
  fluidById,
  METRIC_LABELS,
  type MetricKey,
  type ParameterTag,
} from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { number } from '../../ui/format.ts';
import { plainNumber } from '../../ui/plain-number.ts';
import { metricTitle, unitOf } from '../bench/metric-rows.ts';
import type { Draft } from './draft.ts';
import { type Path, pathText, valueIn } from './draft.ts';

/** What a field is, in which unit, and how well what stands in it is known; in the person's language. */
export interface FieldText {
  readonly label: string;
  readonly unit: string;
  readonly step: number;
  /** Null for words, which are nobody's measurement. */
  readonly tag: ParameterTag | null;
  /** Where usual values come from, or that they are a choice. */
  readonly source: string;
}

type Unit = '' | 'mm' | 'mmHg' | 's' | '°' | 'years' | 'clock';

/**
 * All fields but those of the age function, by place in the file; list places without their index but for the two of the
 * lens offset. Unit, step of the arrow keys and how well what stands there is known; label and source are messages of the
 * same key. Numbers in those are from the papers named; where none is named they are common practice or assumed.
 */
const FIELDS = {
  title: ['', 1, null],
  brief: ['', 1, null],
  id: ['', 1, null],
  'eye.age_years': ['years', 0.5, 'assumed'],
  'eye.stiffnessPreset': ['', 1, 'assumed'],
  'eye.dyed': ['', 1, 'assumed'],
  'eye.pupilDiameter_mm': ['mm', 0.1, 'measured'],
  'eye.opacityDiameter_mm': ['mm', 0.1, 'assumed'],
  'eye.lensOffset_mm.0': ['mm', 0.1, 'assumed'],
  'eye.lensOffset_mm.1': ['mm', 0.1, 'assumed'],
  'eye.weakZonule.fromClock_h': ['clock', 0.5, 'assumed'],
  'eye.weakZonule.toClock_h': ['clock', 0.5, 'assumed'],
  'eye.weakZonule.strength': ['', 0.1, 'assumed'],
  'chamber.fluid': ['', 1, 'assumed'],
  'chamber.behindPressure_mmHg': ['mmHg', 0.5, 'assumed'],
  'chamber.insidePressure_mmHg': ['mmHg', 0.5, 'assumed'],
  'chamber.fillPressure_mmHg': ['mmHg', 0.5, 'assumed'],
  'chamber.startFill_share': ['', 0.1, 'assumed'],
  'start.clock_h': ['clock', 0.5, 'assumed'],
  'start.radius_mm': ['mm', 0.05, 'derived'],
  'start.arc_deg': ['°', 5, 'assumed'],
  'start.innerRadius_mm': ['mm', 0.05, 'assumed'],
  'start.outward_mm': ['mm', 0.1, 'assumed'],
  'start.slitLimit_mm': ['mm', 0.1, 'assumed'],
  'start.distance_mm': ['mm', 0.1, 'assumed'],
  'start.nick_mm': ['mm', 0.05, 'assumed'],
  'start.axisClock_h': ['clock', 0.5, 'assumed'],
  'incisions.clock_h': ['clock', 0.5, 'assumed'],
  'incisions.width_mm': ['mm', 0.1, 'assumed'],
  'target.diameter_mm': ['mm', 0.1, 'measured'],
  'target.reference': ['', 1, 'assumed'],
  'target.lineDiameter_mm': ['mm', 0.05, 'derived'],
  'target.opticDiameter_mm': ['mm', 0.1, 'assumed'],
  'aids.arrows': ['', 1, 'assumed'],
  'aids.targetCircle': ['', 1, 'assumed'],
  'aids.tipCard': ['', 1, 'assumed'],
  timeLimit_s: ['s', 10, 'assumed'],
  'trial.pause': ['', 1, 'assumed'],
  seed: ['', 1, 'assumed'],
} as const satisfies Readonly<Record<string, readonly [Unit, number, ParameterTag | null]>>;

type FieldKey = keyof typeof FIELDS;

function unitWord(unit: Unit): string {
  if (unit === 'years') return t('common.unit.years');
  return unit === 'clock' ? t('common.unit.clock') : unit;
}

const isField = (key: string): key is FieldKey => Object.hasOwn(FIELDS, key);

/** Text of the field at a place. Throws where the editor shows a field that has none. */
export function fieldText(path: Path): FieldText {
  const key = pathText(path);
  const found = [key.replaceAll(/\[(\d+)\]/g, '.$1'), key.replaceAll(/\[\d+\]/g, '')].find(isField);
  if (found === undefined) throw new Error(`no text for the field ${key}`);
  const [unit, step, tag] = FIELDS[found];
  return {
    label: t(`eyes.field.${found}.label`),
    unit: unitWord(unit),
    step,
    tag,
    source: t(`eyes.field.${found}.source`),
  };
}

/** Metrics with a published value behind where a limit on them may stand. */
const PUBLISHED = [
  'equivalentDiameter_mm',
  'centroidDistance_mm',
  'circularity',
  'opticOverlapSmallest_mm',
  'rmsForce_mN',
] as const satisfies readonly MetricKey[];

const isMetric = (key: string): key is MetricKey => Object.hasOwn(METRIC_LABELS, key);

/** Text of a limit on a metric: what the metric is, and why a limit on it may stand where it does. */
export function limitText(metric: string): FieldText {
  if (!isMetric(metric))
    return { label: t('eyes.grades.limit'), unit: '', step: 0.1, tag: 'assumed', source: t('eyes.grades.choice') };
  const published = PUBLISHED.find((one) => one === metric);
  const why = published === undefined ? t('eyes.grades.unpublished') : t(`eyes.grades.source.${published}`);
  return {
    label: metricTitle(metric),
    unit: unitOf(metric),
    step: 10 ** -METRIC_LABELS[metric].decimals,
    tag: published === undefined ? 'assumed' : 'measured',
    source: `${t(`numbers.${metric}.definition`)} ${why}`,
  };
}

/** What is known about a fluid's viscosity. */
export function fluidText(fluid: FluidId): string {
  const { viscosity_Pa_s, viscosityRange_Pa_s } = fluidById(fluid);
  const [low, high] = viscosityRange_Pa_s;
  return t('eyes.chamber.fluid', {
    viscosity: plainNumber(viscosity_Pa_s),
    low: plainNumber(low),
    high: plainNumber(high),
    leak: number(closedLeakTime_s(fluid), 0),
  });
}

/** The age function's value, range, tag and source of each part of the eye, without the scenario's replacements. */
export function ageParameters(draft: Draft): ReturnType<typeof eyeParameters> | null {
  const age = valueIn(draft, ['eye', 'age_years']);
  if (typeof age !== 'number' || !(age >= 0 && age <= 95)) return null;
  const stiffnessPreset = valueIn(draft, ['eye', 'stiffnessPreset']) === 'inflation' ? 'inflation' : 'uniaxial';
  return eyeParameters(eyeAt(age, { stiffnessPreset, dyed: valueIn(draft, ['eye', 'dyed']) === true }));
}

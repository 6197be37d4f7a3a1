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
import { number } from '../../ui/format.ts';
import type { Draft } from './draft.ts';
import { valueIn } from './draft.ts';

/** What a field is, in which unit, and how well what stands in it is known. */
export interface FieldText {
  readonly label: string;
  readonly unit: string;
  readonly step: number;
  /** Null for words, which are nobody's measurement. */
  readonly tag: ParameterTag | null;
  /** Where usual values come from, or that they are a choice. */
  readonly source: string;
}

const field = (label: string, unit: string, step: number, tag: ParameterTag | null, source: string): FieldText => ({
  label,
  unit,
  step,
  tag,
  source,
});

const CHOICE = 'A choice for the exercise, with no published value behind it.';

/**
 * Texts of all fields but those of the age function, by place in the file; list places without their index. Numbers are
 * from the papers named; where no paper is named they are common practice or assumed, as the text says.
 */
export const FIELD_TEXTS: Readonly<Record<string, FieldText>> = {
  title: field('Title', '', 1, null, 'Your own words. Changing it is renaming the scenario.'),
  brief: field('Brief', '', 1, null, 'One or two plain sentences: what to do and what to watch.'),
  id: field(
    'Short name',
    '',
    1,
    null,
    'Lower-case letters, digits and single hyphens. Attempts are kept under it, so it stays once the scenario is saved; duplicate the scenario for another.',
  ),
  'eye.age_years': field(
    'Age',
    'years',
    0.5,
    'assumed',
    'Chosen for the exercise; everything below follows from it. Thickness, stiffness and tear resistance are held below 6 months and above 75 years, for want of measurements.',
  ),
  'eye.stiffnessPreset': field(
    'Stiffness after',
    '',
    1,
    'assumed',
    'Published tests disagree. Stretched rings of capsule (Krag 1997, from memory) are soft in the child; blown-up capsules (Fisher 1969) are stiff in the child. Either set can be used; rings are the usual one.',
  ),
  'eye.dyed': field(
    'Dyed blue',
    '',
    1,
    'assumed',
    'Trypan blue lowers the tear resistance here to 0.67 of itself, after the rupture stress in one paired test (Dick 2008, 13 pairs). Later indentation tests contradict each other: no effect, or stiffer.',
  ),
  'eye.pupilDiameter_mm': field(
    'Pupil',
    'mm',
    0.1,
    'measured',
    'Adults under drops before the tear: 7.23 ± 1.08 mm, published. In children 5.5 to 7 mm, from memory.',
  ),
  'eye.opacityDiameter_mm': field(
    'Opaque part of the lens',
    'mm',
    0.1,
    'assumed',
    'Common teaching: an opacity of about 5.5 mm serves as a guide for the line. It changes what is seen and nothing else; 0 is a clear lens.',
  ),
  'eye.lensOffset_mm[0]': field('Lens centre, to the right of the pupil’s', 'mm', 0.1, 'assumed', CHOICE),
  'eye.lensOffset_mm[1]': field('Lens centre, above the pupil’s', 'mm', 0.1, 'assumed', CHOICE),
  'eye.weakZonule.fromClock_h': field(
    'Weak from',
    'o’clock',
    0.5,
    'assumed',
    'Runs clockwise from this hour to the other.',
  ),
  'eye.weakZonule.toClock_h': field(
    'Weak to',
    'o’clock',
    0.5,
    'assumed',
    'Runs clockwise from the other hour to this one.',
  ),
  'eye.weakZonule.strength': field(
    'Strength left there',
    '',
    0.1,
    'assumed',
    'Multiplies the stiffness of the rim in that sector: 0 is missing, 1 is whole. No measured value was found.',
  ),
  'chamber.fluid': field('Fluid in the chamber', '', 1, 'assumed', ''),
  'chamber.behindPressure_mmHg': field(
    'Pressure from behind',
    'mmHg',
    0.5,
    'assumed',
    'No measured value was found for a child. The whole pressure of 19 cadaver eyes was 20.1 ± 4.5 mmHg before filling (iovs.arvojournals.org, article 2411977), so 0 to 20 mmHg is what is plausible.',
  ),
  'chamber.insidePressure_mmHg': field(
    'Raised pressure inside the lens',
    'mmHg',
    0.5,
    'assumed',
    'No measured pressure inside a swollen lens was found. About 40 mmHg in the chamber before opening is clinical advice, so a swollen lens is likely somewhat below that. It falls as the capsule opens; 0 in a lens that is not swollen.',
  ),
  'chamber.fillPressure_mmHg': field(
    'Chamber right after a refill',
    'mmHg',
    0.5,
    'assumed',
    'Above a chamber that is merely full. Cadaver eyes: 31.8 ± 6.5 mmHg just full, forced overfill 82 ± 19.8 mmHg, whole pressures (n = 19, iovs.arvojournals.org, article 2411977). What stands against pressure from behind is assumed.',
  ),
  'chamber.startFill_share': field(
    'How full at the start',
    '',
    0.1,
    'assumed',
    '1 is just refilled, 0 is merely full. Left empty it is 1.',
  ),
  'start.clock_h': field(
    'Radial cut at',
    'o’clock',
    0.5,
    'assumed',
    'Common practice varies with the hand and the incision.',
  ),
  'start.radius_mm': field(
    'Radius of the arc',
    'mm',
    0.05,
    'derived',
    'Half the line’s diameter, so that the flap begins on the line.',
  ),
  'start.arc_deg': field(
    'Length of the arc',
    '°',
    5,
    'assumed',
    `${CHOICE} Positive runs counter-clockwise on the stage, negative clockwise; at least 5 either way.`,
  ),
  'start.innerRadius_mm': field('Radial cut begins at', 'mm', 0.05, 'assumed', `${CHOICE} Distance from the centre.`),
  'start.outward_mm': field(
    'End of the arc lies outside by',
    'mm',
    0.1,
    'assumed',
    'Above 0 the tear has already begun to run outward. Left empty it is 0.',
  ),
  'start.slitLimit_mm': field('Longest slit of the needle', 'mm', 0.1, 'assumed', CHOICE),
  'start.distance_mm': field(
    'Nicks apart',
    'mm',
    0.1,
    'assumed',
    'About 5 mm for an opening of about 5 mm is common practice. With two incisions 84 eyes of 4 weeks to 18 years got openings of 4 to 4.5 mm (Ophthalmology 2006;113:1309).',
  ),
  'start.nick_mm': field('Length of a nick', 'mm', 0.05, 'assumed', CHOICE),
  'start.axisClock_h': field('Nicks lie at', 'o’clock', 0.5, 'assumed', 'One nick at this hour, the other opposite.'),
  'incisions.clock_h': field(
    'At',
    'o’clock',
    0.5,
    'assumed',
    'Common practice: a main and a side incision. The tip reaches only what its incision lets it reach.',
  ),
  'incisions.width_mm': field(
    'Width',
    'mm',
    0.1,
    'assumed',
    'Common practice: about 2.4 mm and 1.2 mm in adults, small ones in infants so that the chamber holds.',
  ),
  'target.diameter_mm': field(
    'Wanted opening, relaxed',
    'mm',
    0.1,
    'measured',
    'Adults 5.0 to 5.25 mm (Packer 2015, 10.1136/bjophthalmol-2014-306065). Children 4.0 to 5.0 mm did best of three sizes (Lin 2015, Sci Rep 5:16227).',
  ),
  'target.reference': field(
    'Judged about the centre of',
    '',
    1,
    'assumed',
    'Say which: published decentrations differ in what they are measured from.',
  ),
  'target.lineDiameter_mm': field(
    'Line to tear along',
    'mm',
    0.05,
    'derived',
    'An opening is larger than the line it was torn along: by 1.27 - 0.014 age from 4 months to 8 years (preprint 202502.1108, 13 eyes), by 1.06 in adults (Tan and Yuan 2025). The button computes the line from the model of this eye.',
  ),
  'target.opticDiameter_mm': field('Optic to be covered', 'mm', 0.1, 'assumed', 'Common practice: 6.0 mm.'),
  'aids.arrows': field('Arrows at the tip', '', 1, 'assumed', CHOICE),
  'aids.targetCircle': field('Target circle', '', 1, 'assumed', CHOICE),
  'aids.tipCard': field('Tip card', '', 1, 'assumed', CHOICE),
  timeLimit_s: field('Time limit', 's', 10, 'assumed', CHOICE),
  'trial.pause': field('A trial may be paused', '', 1, 'assumed', CHOICE),
  seed: field(
    'Seed',
    '',
    1,
    'assumed',
    'Sets the tremor of the hand and nothing else: the same seed and the same commands give the same opening.',
  ),
};

/** Why a limit on a metric may stand where it does. */
const LIMIT_SOURCES: Partial<Record<MetricKey, readonly [ParameterTag, string]>> = {
  equivalentDiameter_mm: [
    'measured',
    'Manual error of the diameter 0.337 ± 0.258 mm (Friedman 2011); half a millimetre either way is usual here.',
  ],
  centroidDistance_mm: [
    'measured',
    'Mean manual decentration 0.30 ± 0.14 mm; beyond 0.4 mm tied to a drift of refraction (Ophthalmology 2013, n = 113).',
  ],
  circularity: [
    'measured',
    'Mean manual circularity 0.83 ± 0.01 (same study, n = 113), without saying at which scale an outline was measured; 0.69 ± 0.17 in 94 free-hand openings (10.1186/s12886-018-0782-6).',
  ],
  opticOverlapSmallest_mm: [
    'measured',
    'Complete cover counts: 15 % change of cylinder with it, 60 % without (Ophthalmology 2013).',
  ],
  rmsForce_mN: [
    'measured',
    'Force-sensing forceps: 9 mN RMS in a practised hand, 17 mN in a novice’s. The limit itself is assumed.',
  ],
};

/** Text of a limit on a metric. */
export function limitText(metric: string): FieldText {
  if (!Object.hasOwn(METRIC_LABELS, metric)) return field('Limit', '', 0.1, 'assumed', CHOICE);
  const { label, unit, decimals } = METRIC_LABELS[metric as MetricKey];
  const [tag, source] = LIMIT_SOURCES[metric as MetricKey] ?? [
    'assumed',
    'No published limit was found; the limit is assumed.',
  ];
  const name = label.charAt(0).toUpperCase() + label.slice(1);
  return field(name, unit === 'degrees' ? '°' : unit, 10 ** -decimals, tag, source);
}

/** What is known about a fluid's viscosity. */
export function fluidText(fluid: FluidId): string {
  const { viscosity_Pa_s, viscosityRange_Pa_s } = fluidById(fluid);
  const [low, high] = viscosityRange_Pa_s;
  return (
    `Viscosity ${viscosity_Pa_s} Pa s at a shear rate of 1 per second (${low} to ${high}), from memory, right within a factor of 3. ` +
    `With the wounds closed it loses most of its excess in ${number(closedLeakTime_s(fluid), 0)} s.`
  );
}

/** The age function's value, range, tag and source of each part of the eye, without the scenario's replacements. */
export function ageParameters(draft: Draft): ReturnType<typeof eyeParameters> | null {
  const age = valueIn(draft, ['eye', 'age_years']);
  if (typeof age !== 'number' || !(age >= 0 && age <= 95)) return null;
  const stiffnessPreset = valueIn(draft, ['eye', 'stiffnessPreset']) === 'inflation' ? 'inflation' : 'uniaxial';
  return eyeParameters(eyeAt(age, { stiffnessPreset, dyed: valueIn(draft, ['eye', 'dyed']) === true }));
}

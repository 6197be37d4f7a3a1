/** The eye and the task of a scenario in words, for a report. */
import { clockWords, fluidById, type Scenario } from '../../physics/index.ts';
import { plain } from './figures.ts';

export type Fact = readonly [label: string, words: string];

function ageWords(age_years: number): string {
  if (age_years >= 2) return `${plain(age_years)} years`;
  const months = Math.round(12 * age_years);
  return `${months} month${months === 1 ? '' : 's'}`;
}

function startWords({ start }: Scenario): string {
  if (start.kind === 'needle') return `whole capsule; slit of up to ${plain(start.slitLimit_mm)} mm by needle`;
  if (start.kind === 'two-nicks') {
    return `two nicks, ${plain(start.distance_mm)} mm apart, through ${clockWords(start.axisClock_h)}`;
  }
  const outward = start.outward_mm ?? 0;
  const running = outward > 0 ? `, its tear ${plain(outward)} mm outside that radius already` : '';
  return `flap at ${clockWords(start.clock_h)}, ${plain(Math.abs(start.arc_deg))}° at ${plain(start.radius_mm)} mm${running}`;
}

function pressureWords({ chamber }: Scenario): string {
  const parts = [`${plain(chamber.behindPressure_mmHg)} mmHg from behind`];
  if (chamber.insidePressure_mmHg > 0) parts.push(`${plain(chamber.insidePressure_mmHg)} mmHg inside the lens`);
  parts.push(`against ${plain(chamber.fillPressure_mmHg)} mmHg in a full chamber`);
  return parts.join(', ');
}

const AIDS = [
  ['arrows', 'arrows at the tip'],
  ['targetCircle', 'target circle'],
  ['tipCard', 'tip card'],
] as const;

function aidWords({ aids }: Scenario): string {
  const shown = AIDS.filter(([aid]) => aids[aid]).map(([, words]) => words);
  return shown.length === 0 ? 'none' : shown.join(', ');
}

/** What a reader needs to know of the eye and of what was asked for. */
export function eyeFacts(scenario: Scenario): readonly Fact[] {
  const { eye, chamber, target } = scenario;
  const changed = Object.keys(eye.overrides).length;
  const capsule = [eye.dyed ? 'dyed' : 'undyed'];
  if (changed > 0) capsule.push(`${changed} value${changed === 1 ? '' : 's'} set by hand`);
  if (eye.weakZonule !== undefined) {
    const { fromClock_h, toClock_h } = eye.weakZonule;
    capsule.push(`weak zonule from ${clockWords(fromClock_h)} to ${clockWords(toClock_h)}`);
  }
  const off_mm = Math.hypot(...eye.lensOffset_mm);
  const pupil = [`${plain(eye.pupilDiameter_mm)} mm`];
  if (off_mm > 0) pupil.push(`lens ${plain(off_mm)} mm off its centre`);
  return [
    ['Age of the eye', ageWords(eye.age_years)],
    ['Capsule', capsule.join(', ')],
    ['Pupil', pupil.join(', ')],
    ['Fluid', fluidById(chamber.fluid).label],
    ['Pressure', pressureWords(scenario)],
    ['Start', startWords(scenario)],
    ['Target', `${plain(target.diameter_mm)} mm about the ${target.reference} centre`],
    ['Aids offered', aidWords(scenario)],
  ];
}

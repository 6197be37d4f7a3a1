/** The eye and the task of a scenario in words, for a report. */
import { fluidById, type Scenario } from '../../physics/index.ts';
import { clockOf, t, textOf } from '../words/words.ts';
import { plain } from './figures.ts';

export type Fact = readonly [label: string, words: string];

function ageWords(age_years: number): string {
  if (age_years >= 2) return t('report.eye.years', { count: age_years, shown: plain(age_years) });
  const months = Math.round(12 * age_years);
  return t('report.eye.months', { count: months });
}

function startWords({ start }: Scenario): string {
  if (start.kind === 'needle') return t('report.eye.needle', { mm: plain(start.slitLimit_mm) });
  if (start.kind === 'two-nicks') {
    return t('report.eye.twoNicks', { mm: plain(start.distance_mm), clock: clockOf(start.axisClock_h) });
  }
  const outward = start.outward_mm ?? 0;
  const flap = t('report.eye.flap', {
    clock: clockOf(start.clock_h),
    arc: plain(Math.abs(start.arc_deg)),
    radius: plain(start.radius_mm),
  });
  return outward > 0 ? `${flap}, ${t('report.eye.running', { mm: plain(outward) })}` : flap;
}

function pressureWords({ chamber }: Scenario): string {
  const parts = [t('report.eye.behind', { mmHg: plain(chamber.behindPressure_mmHg) })];
  if (chamber.insidePressure_mmHg > 0) parts.push(t('report.eye.inside', { mmHg: plain(chamber.insidePressure_mmHg) }));
  parts.push(t('report.eye.against', { mmHg: plain(chamber.fillPressure_mmHg) }));
  return parts.join(', ');
}

const AIDS = ['arrows', 'targetCircle', 'tipCard'] as const;

function aidWords({ aids }: Scenario): string {
  const shown = AIDS.filter((aid) => aids[aid]).map((aid) => t(`report.eye.${aid}`));
  return shown.length === 0 ? t('report.eye.none') : shown.join(', ');
}

/** What a reader needs to know of the eye and of what was asked for. */
export function eyeFacts(scenario: Scenario): readonly Fact[] {
  const { eye, chamber, target } = scenario;
  const changed = Object.keys(eye.overrides).length;
  const capsule = [t(eye.dyed ? 'report.eye.dyed' : 'report.eye.undyed')];
  if (changed > 0) capsule.push(t('report.eye.setByHand', { count: changed }));
  if (eye.weakZonule !== undefined) {
    const { fromClock_h, toClock_h } = eye.weakZonule;
    capsule.push(t('report.eye.weakZonule', { from: clockOf(fromClock_h), to: clockOf(toClock_h) }));
  }
  const off_mm = Math.hypot(...eye.lensOffset_mm);
  const pupil = [`${plain(eye.pupilDiameter_mm)} mm`];
  if (off_mm > 0) pupil.push(t('report.eye.offCentre', { mm: plain(off_mm) }));
  return [
    [t('report.eye.age'), ageWords(eye.age_years)],
    [t('report.eye.capsule'), capsule.join(', ')],
    [t('report.eye.pupil'), pupil.join(', ')],
    [t('report.eye.fluid'), textOf(fluidById(chamber.fluid).label)],
    [t('report.eye.pressure'), pressureWords(scenario)],
    [t('report.eye.start'), startWords(scenario)],
    [t('report.eye.target'), t(`report.eye.about.${target.reference}`, { mm: plain(target.diameter_mm) })],
    [t('report.eye.aids'), aidWords(scenario)],
  ];
}

import type { Hand, Scenario } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';
import { ageWords } from '../../bench/eye-lines.ts';
import { scenarioById } from '../../bench/scenario-store.ts';
import { changedScenario } from '../boards/board-setup.ts';
import type { TwinEye, TwinSetup } from '../contract.ts';

/**
 * Pull angle too small for the infant: played, its tear goes from 1.9 mm of radius to 3.0 mm in 18 s. The 40-year-old's goes to 2.5 mm and
 * stays there, also because the hand, which follows the first eye, misses its flap from then on.
 */
const PULL_ANGLE_deg = 30;

/** A hand that keeps one pull angle, whatever the tear does. */
const steadyHand = (): Hand => ({
  rimwardHand: 1,
  kind: 'guided',
  id: 'steady-30',
  title: t('lecture.eye.steadyHand', { angle: quantity(PULL_ANGLE_deg, 0, '°') }),
  start: 'flap',
  pullAngle_deg: PULL_ANGLE_deg,
  speed_mm_per_s: 1,
  regraspEvery_deg: 45,
  graspBehind_mm: 0.6,
  graspInside_mm: 0.4,
  fold: true,
});

const named = (scenario: Scenario): TwinEye => ({ label: ageWords(scenario.eye.age_years), scenario });

/** The pair that is shown where no board is: one eye at two ages, the same flap, pressure and pull. Null where the scenario is missing. */
export function defaultPair(): TwinSetup | null {
  const scenario = scenarioById('infant-pressure-behind');
  if (scenario === null) return null;
  return {
    left: named(scenario),
    right: named(changedScenario(scenario, { age_years: 40 })),
    hand: { kind: 'program', hand: steadyHand() },
    seed: scenario.seed,
  };
}

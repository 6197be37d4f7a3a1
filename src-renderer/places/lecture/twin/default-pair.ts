import type { Hand, Scenario } from '../../../../physics/index.ts';
import { ageWords } from '../../bench/eye-lines.ts';
import { scenarioById } from '../../bench/scenario-store.ts';
import type { EyeChange, TwinEye, TwinSetup } from '../contract.ts';

/** Pull angle at which an adult's tear holds its line or comes in, while the infant's goes out. Found by playing the pair. */
const PULL_ANGLE_deg = 30;

/** A hand that keeps one pull angle, whatever the tear does. */
const STEADY_HAND: Hand = {
  rimwardHand: 1,
  kind: 'guided',
  id: 'steady-30',
  title: `Pulls ${PULL_ANGLE_deg}° toward the centre throughout`,
  start: 'flap',
  pullAngle_deg: PULL_ANGLE_deg,
  speed_mm_per_s: 1,
  regraspEvery_deg: 45,
  graspBehind_mm: 0.6,
  graspInside_mm: 0.4,
  fold: true,
};

const changed = (scenario: Scenario, { age_years, behindPressure_mmHg, fluid, dyed }: EyeChange): Scenario => ({
  ...scenario,
  eye: { ...scenario.eye, age_years: age_years ?? scenario.eye.age_years, dyed: dyed ?? scenario.eye.dyed },
  chamber: {
    ...scenario.chamber,
    fluid: fluid ?? scenario.chamber.fluid,
    behindPressure_mmHg: behindPressure_mmHg ?? scenario.chamber.behindPressure_mmHg,
  },
});

/** The scenario with its changes, and what stands over it. */
export function twinEye(scenario: Scenario, change: EyeChange): TwinEye {
  const made = changed(scenario, change);
  return { label: ageWords(made.eye.age_years), scenario: made };
}

/** The pair the place opens with: one eye at two ages, the same flap, pressure and pull. Null where the scenario is missing. */
export function defaultPair(): TwinSetup | null {
  const scenario = scenarioById('infant-pressure-behind');
  if (scenario === null) return null;
  return {
    left: twinEye(scenario, {}),
    right: twinEye(scenario, { age_years: 40 }),
    hand: { kind: 'program', hand: STEADY_HAND },
    seed: scenario.seed,
  };
}

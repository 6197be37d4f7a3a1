/** What the model says about a scenario before anybody has touched it. */
import {
  createChamber,
  type Eye,
  eyeAt,
  lineDiameterFor_mm,
  openingEnlargement,
  type Scenario,
  stretchAtTension,
} from '../../../physics/index.ts';

export interface WhatFollows {
  readonly netPressure_mmHg: number;
  readonly tension_mN_per_mm: number;
  readonly stretch: number;
  /** Diameter of the relaxed opening over that of the line, for a tear that keeps to the line. */
  readonly enlargement: number;
  readonly opening_mm: number;
}

function eyeOf({ eye }: Scenario): Eye {
  const { stiffnessPreset, dyed, overrides } = eye;
  return eyeAt(eye.age_years, { stiffnessPreset, dyed, overrides });
}

/**
 * Tension that the line is placed in, mN/mm: the chamber just refilled, and a lens swollen from inside let down, as it
 * is by the time a tear goes round.
 */
function lineTension_mN_per_mm({ chamber }: Scenario, eye: Eye): number {
  const { startFill_share: _, ...full } = chamber;
  return createChamber({ ...full, insidePressure_mmHg: 0 }, eye).tension_mN_per_mm;
}

export function whatFollows(scenario: Scenario): WhatFollows {
  const eye = eyeOf(scenario);
  const { netPressure_mmHg, tension_mN_per_mm } = createChamber(scenario.chamber, eye);
  const { lineDiameter_mm } = scenario.target;
  const enlargement = openingEnlargement(eye, lineDiameter_mm, lineTension_mN_per_mm(scenario, eye));
  return {
    netPressure_mmHg,
    tension_mN_per_mm,
    stretch: stretchAtTension(tension_mN_per_mm, eye),
    enlargement,
    opening_mm: enlargement * lineDiameter_mm,
  };
}

/** Diameter of the line that should give an opening, mm, to a hundredth: finer than a hand can tear. */
export function placedLine_mm(scenario: Scenario, opening_mm: number): number {
  const eye = eyeOf(scenario);
  return Math.round(100 * lineDiameterFor_mm(eye, opening_mm, lineTension_mN_per_mm(scenario, eye))) / 100;
}

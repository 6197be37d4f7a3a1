/** Eyes made for one number of a chart: everything usual, one start, one net pressure. */
import { fittedOpeningDiameter_mm, publishedEnlargement } from '../eye/base-tension.ts';
import type { Scenario, ScenarioEye, ScenarioStart, StiffnessPreset } from '../scenario/scenario.ts';
import { setRimAnchors } from '../world/sheet.ts';
import type { World } from '../world/state.ts';
import { updateTipForces } from '../world/tips.ts';
import { createWorld, settle } from '../world/world.ts';

export interface SampleOptions {
  readonly preset: StiffnessPreset;
  readonly dyed: boolean;
  readonly overrides?: ScenarioEye['overrides'];
}

/** Opening usually wanted at an age, mm. */
export const usualOpening_mm = fittedOpeningDiameter_mm;

/** Diameter of the line that gives the usual opening of an age at no net pressure, drawn in the tense capsule, mm. */
export const usualLine_mm = (age_years: number): number =>
  fittedOpeningDiameter_mm(age_years) / publishedEnlargement(age_years);

/** A fill of the chamber that no sample goes below; what counts is the pressure behind less this one, mmHg. */
const FILL_mmHg = 1;

/** The scenario of a sample: two usual incisions, nothing graded. */
export function sampleScenario(
  age_years: number,
  netPressure_mmHg: number,
  start: ScenarioStart,
  options: SampleOptions,
): Scenario {
  return {
    rimwardScenario: 1,
    id: 'sample',
    title: 'Sample for a chart',
    brief: 'Made by a sweep.',
    eye: {
      age_years,
      stiffnessPreset: options.preset,
      dyed: options.dyed,
      pupilDiameter_mm: 7,
      opacityDiameter_mm: 0,
      lensOffset_mm: [0, 0],
      overrides: options.overrides ?? {},
    },
    chamber: {
      fluid: 'ha-2.3',
      behindPressure_mmHg: Math.max(0, netPressure_mmHg) + FILL_mmHg,
      insidePressure_mmHg: 0,
      fillPressure_mmHg: FILL_mmHg + Math.max(0, -netPressure_mmHg),
    },
    start,
    incisions: [
      { clock_h: 5, width_mm: 1.4 },
      { clock_h: 8.5, width_mm: 1.2 },
    ],
    target: {
      diameter_mm: fittedOpeningDiameter_mm(age_years),
      reference: 'pupil',
      lineDiameter_mm: usualLine_mm(age_years),
      opticDiameter_mm: 6,
    },
    tolerances: [],
    aids: { arrows: true, targetCircle: true, tipCard: true },
    timeLimit_s: 120,
    seed: 1,
  };
}

/** A world torn for a stretch of arc along the usual line, pull let go, at rest. */
export function partlyTorn(
  age_years: number,
  netPressure_mmHg: number,
  arc_deg: number,
  options: SampleOptions,
  line_mm = usualLine_mm(age_years),
): World {
  const start: ScenarioStart = { kind: 'flap', clock_h: 12, radius_mm: line_mm / 2, arc_deg, innerRadius_mm: 0.2 };
  return createWorld(sampleScenario(age_years, netPressure_mmHg, start, options));
}

/** Puts another uncut tension on a world without a grip and brings it to rest; the tears stay. */
export function retense(world: World, tension_mN_per_mm: number): void {
  world.chamber = { ...world.chamber, tension_mN_per_mm };
  setRimAnchors(world.frame, world.mesh, world.body, tension_mN_per_mm);
  settle(world);
  updateTipForces(world);
}

/** How many of the virtual trainees finish an opening in one kind of eye. */
import type { MeshSizes } from '../mesh/sizes.ts';
import { runHand } from '../scenario/attempt.ts';
import type { FluidId, Scenario } from '../scenario/scenario.ts';
import type { Ended } from '../world/contract.ts';
import { sampleScenario, usualLine_mm } from './sample-eye.ts';
import { traineeHand } from './trainees.ts';

/** One kind of eye, and which trainees work in it. */
export interface CompletionCell {
  readonly age_years: number;
  readonly fluid: FluidId;
  /** Pressure of the vitreous on the lens; the chamber is filled against it, so the attempt begins at no net pressure. */
  readonly behindPressure_mmHg: number;
  readonly firstSeed: number;
  readonly count: number;
}

/** What came of one attempt. */
export interface TraineeOutcome {
  readonly seed: number;
  readonly ended: Ended;
  readonly time_s: number;
  readonly digest: string;
}

/**
 * Two thirds as fine as for a person: a whole population is many attempts, and what counts is whether each is finished. Three
 * attempts played on both meshes ended alike, two openings of 6.05 and 6.19 mm coming out as 6.05 and 6.40 mm; more have not
 * been compared.
 */
const SIZES: MeshSizes = { tip_mm: 0.09, face_mm: 0.18, far_mm: 0.84, levels: 2, growth: 0.33, rim_mm: 0.6 };
/** Arc of the prepared flap, degrees, and where its radial cut begins, mm: as in the eyes that ship. */
const FLAP = { arc_deg: 70, innerRadius_mm: 0.2 } as const;
/** After this an attempt counts as not finished, s. Assumed; a guided hand takes about 40. */
const TIME_LIMIT_s = 150;

/** The eye of a cell: usual opening of the age, prepared flap, chamber filled against the pressure behind. */
export function completionScenario(cell: Omit<CompletionCell, 'firstSeed' | 'count'>): Scenario {
  const radius_mm = usualLine_mm(cell.age_years) / 2;
  const sample = sampleScenario(
    cell.age_years,
    0,
    { kind: 'flap', clock_h: 12, radius_mm, ...FLAP },
    { preset: 'uniaxial', dyed: false },
  );
  const chamber = {
    fluid: cell.fluid,
    behindPressure_mmHg: cell.behindPressure_mmHg,
    insidePressure_mmHg: 0,
    fillPressure_mmHg: cell.behindPressure_mmHg,
  };
  return { ...sample, chamber, timeLimit_s: TIME_LIMIT_s };
}

/** Plays the trainees of a cell, in the order of their seeds. The seed is also that of the tremor. */
export function traineeOutcomes(cell: CompletionCell): readonly TraineeOutcome[] {
  const scenario = completionScenario(cell);
  return Array.from({ length: cell.count }, (_, k) => {
    const seed = cell.firstSeed + k;
    const result = runHand(scenario, traineeHand(seed, scenario.target.lineDiameter_mm), { seed, sizes: SIZES });
    return { seed, ended: result.ended, time_s: result.work.time_s, digest: result.digest };
  });
}

export interface Share {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** 97.5 % point of the standard normal distribution. */
const Z = 1.959964;

/**
 * A share with its 95 % interval (Wilson 1927: the score interval, which stays within 0 and 1).
 *
 * @param hits 0 to `of`
 * @param of 1 or more
 */
export function shareWithInterval(hits: number, of: number): Share {
  const p = hits / of;
  const z2 = (Z * Z) / of;
  const middle = (p + z2 / 2) / (1 + z2);
  const half = (Z * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of))) / (1 + z2);
  return { share: p, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}

import { exp } from '../core/elementary/exponential.ts';
import type { FluidId, ScenarioChamber } from '../scenario/scenario.ts';
import { leakTime_s } from './fluid.ts';

/** 1 mmHg in kPa, which is mN/mm^2. */
export const MMHG_kPa = 0.133322;

/**
 * Least tension of an uncut capsule as a share of its base tension, when fluid in the chamber presses it flat. The
 * zonules still hold the rim and the lens bears the rest. Assumed 0.1, 0.02 to 0.3.
 */
export const LEAST_TENSION_SHARE = 0.1;

/** Time in which a cannula refills an empty chamber. Common practice, about a second. */
const REFILL_s = 1;

/**
 * Share of the capsule opened at which the pressure inside a swollen lens has fallen to 1/e. Assumed 0.02 (0.005 to
 * 0.1), about 1 mm^2 of opening: the first puncture of a white lens lets most of it out.
 */
const INSIDE_RELEASE_SHARE = 0.02;

/** What the chamber needs of an eye. */
export interface ChamberEye {
  readonly baseTension_mN_per_mm: number;
  readonly anteriorRadius_mm: number;
}

/** Chamber, pressures and the tension they give. Plain numbers: it can be stored, sent and compared. */
export interface Chamber {
  readonly fluid: FluidId;
  readonly behindPressure_mmHg: number;
  readonly insidePressure_mmHg: number;
  readonly fillPressure_mmHg: number;
  readonly baseTension_mN_per_mm: number;
  readonly anteriorRadius_mm: number;
  /** Excess fluid over that of a merely full chamber, as a share of a refill; 1 right after one. */
  readonly fill_share: number;
  /** Excess fluid lost since the start, in refills; it may pass 1 when the chamber was refilled. */
  readonly fluidLost_share: number;
  /** Above a chamber that is merely full. */
  readonly chamberPressure_mmHg: number;
  /** On the capsule, positive outward: behind and inside, less the chamber. */
  readonly netPressure_mmHg: number;
  /** N0 of the uncut capsule. */
  readonly tension_mN_per_mm: number;
}

export interface ChamberStep {
  /** A shaft lies in the wound. */
  readonly instrumentIn: boolean;
  /** Force of the shaft on the side of the wound, mN, 0 or more. */
  readonly sideLoad_mN: number;
  /** The cannula injects. */
  readonly refilling: boolean;
  /** Area opened over the area of the whole anterior capsule, 0 to 1. */
  readonly openAreaShare: number;
}

/**
 * Tension of the uncut capsule: N0 = base + dp R/2 (Laplace, spherical cap), at least LEAST_TENSION_SHARE of the base.
 *
 * @param netPressure_mmHg positive outward
 * @returns mN/mm
 */
export function uncutTension_mN_per_mm(eye: ChamberEye, netPressure_mmHg: number): number {
  const carried =
    eye.baseTension_mN_per_mm + laplaceTension_mN_per_mm(netPressure_mmHg * MMHG_kPa, eye.anteriorRadius_mm);
  return Math.max(LEAST_TENSION_SHARE * eye.baseTension_mN_per_mm, carried);
}

/** Net pressure at which the uncut capsule carries a tension; undoes uncutTension_mN_per_mm above its floor. mmHg. */
export function netPressureAtTension_mmHg(eye: ChamberEye, tension_mN_per_mm: number): number {
  return (2 * (tension_mN_per_mm - eye.baseTension_mN_per_mm)) / eye.anteriorRadius_mm / MMHG_kPa;
}

/** Laplace for a spherical cap: N = dp R/2; kPa times mm is mN/mm. */
export const laplaceTension_mN_per_mm = (pressure_kPa: number, radius_mm: number): number =>
  (pressure_kPa * radius_mm) / 2;

/** A chamber at the start of an attempt, just filled unless the scenario says how full; capsule whole. */
export function createChamber(scenario: ScenarioChamber, eye: ChamberEye): Chamber {
  const given = {
    fluid: scenario.fluid,
    behindPressure_mmHg: scenario.behindPressure_mmHg,
    insidePressure_mmHg: scenario.insidePressure_mmHg,
    fillPressure_mmHg: scenario.fillPressure_mmHg,
    baseTension_mN_per_mm: eye.baseTension_mN_per_mm,
    anteriorRadius_mm: eye.anteriorRadius_mm,
  };
  return { ...given, fluidLost_share: 0, ...pressuresOf(given, scenario.startFill_share ?? 1, 0) };
}

type Given = Pick<Chamber, 'behindPressure_mmHg' | 'insidePressure_mmHg' | 'fillPressure_mmHg' | keyof ChamberEye>;

function pressuresOf(given: Given, fill_share: number, openAreaShare: number) {
  const inside_mmHg = given.insidePressure_mmHg * exp(-openAreaShare / INSIDE_RELEASE_SHARE);
  const chamberPressure_mmHg = given.fillPressure_mmHg * fill_share;
  const netPressure_mmHg = given.behindPressure_mmHg + inside_mmHg - chamberPressure_mmHg;
  const tension_mN_per_mm = uncutTension_mN_per_mm(given, netPressure_mmHg);
  return { fill_share, chamberPressure_mmHg, netPressure_mmHg, tension_mN_per_mm };
}

/**
 * The chamber one step later: the excess leaks exponentially (exactly, so the step length does not matter) and a
 * cannula adds to it at a constant rate up to full.
 *
 * @param dt_s above 0
 * @returns a new state; the old one is not touched
 */
export function stepChamber(chamber: Chamber, step: ChamberStep, dt_s: number): Chamber {
  const leak_s = leakTime_s(chamber.fluid, step.instrumentIn, step.sideLoad_mN);
  const left_share = chamber.fill_share * exp(-dt_s / leak_s);
  const lost_share = chamber.fill_share - left_share;
  const fill_share = step.refilling ? Math.min(1, left_share + dt_s / REFILL_s) : left_share;
  const open = Math.min(1, Math.max(0, step.openAreaShare));
  return {
    ...chamber,
    fluidLost_share: chamber.fluidLost_share + lost_share,
    ...pressuresOf(chamber, fill_share, open),
  };
}

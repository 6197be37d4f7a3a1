import type { HandCommand, Vec2 } from '../world/contract.ts';

/** Fixed facts the instrument needs of an eye. */
export interface InstrumentSite {
  readonly limbusDiameter_mm: number;
  readonly pupilDiameter_mm: number;
  readonly pupilCentre_mm: Vec2;
  readonly incisions: readonly { readonly position_mm: Vec2; readonly width_mm: number }[];
  /** Drag of the chamber's fluid on the shaft, mN s/mm, 0 to 5; a middling value when absent. */
  readonly fluidDrag_mN_s_per_mm?: number;
}

export interface InstrumentPose {
  /** True tip position, mm, eye frame; z is height over the capsule. */
  readonly tip_mm: readonly [number, number, number];
  /** Shaft direction at the tip, from incision to tip, degrees. */
  readonly shaft_deg: number;
  /** Force of the shaft on the side of the incision, mN. */
  readonly sideLoad_mN: number;
  readonly reachLimited: boolean;
}

/** A rigid shaft in its incision. Deterministic; owns a matter-js engine of its own. */
export interface InstrumentRig {
  /** Advance by one world step. `reaction_mN` is the membrane's force on the tip. */
  step(command: HandCommand, reaction_mN: readonly [number, number, number], dt_s: number): InstrumentPose;
  /** Current pose without stepping. */
  pose(): InstrumentPose;
}

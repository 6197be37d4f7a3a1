/** The data that goes into and comes out of the world. Views are read-only copies; nothing in them reaches back. */
import type { InstrumentKind } from '../scenario/scenario.ts';

/** Fixed step of the world, seconds. */
export const STEP_S = 1 / 60;

/** What a hand asks of the instrument during one step. */
export interface HandCommand {
  /** Asked tip position in the eye frame, mm. Finite; clamped to 20 mm from the centre. */
  readonly x_mm: number;
  readonly y_mm: number;
  /** Asked height over the capsule, mm, clamped to 0..3. */
  readonly lift_mm: number;
  /** 0 open to 1 closed. Forceps grip above 0.5; the needle presses, the cannula injects above 0.5. */
  readonly jaws: number;
  readonly instrument: InstrumentKind;
  readonly incision: number;
}

export type Vec2 = readonly [number, number];

/** One live or resting end of a tear, in the deformed eye frame unless said otherwise. */
export interface TipView {
  readonly id: number;
  readonly live: boolean;
  readonly position_mm: Vec2;
  readonly reference_mm: Vec2;
  /** Present forward tangent, degrees counter-clockwise from +x. */
  readonly tangent_deg: number;
  /** Direction the tear would take now, degrees counter-clockwise from +x. */
  readonly heading_deg: number;
  /** |J|, mN, and its ratio to the tear resistance. The tear goes at a ratio above 1. */
  readonly drivingForce_mN: number;
  readonly drivingRatio: number;
  /** The three arrows, mN, eye frame. resultant = pull + sheet. Null when the sheet's part has not been computed yet. */
  readonly resultant_mN: Vec2;
  readonly sheet_mN: Vec2 | null;
  readonly pull_mN: Vec2 | null;
  /** Forceps force resolved along the tear's heading (shear) and across it toward the centre (stretch), mN. */
  readonly shear_mN: number;
  readonly stretch_mN: number;
  /** Shares of the tip opening in mode I, II, III; they add to 1 (all 0 when closed). */
  readonly modeShares: readonly [number, number, number];
}

export interface InstrumentView {
  readonly kind: InstrumentKind;
  readonly incision: number;
  readonly tip_mm: readonly [number, number, number];
  /** Where the shaft passes the incision, mm. */
  readonly fulcrum_mm: Vec2;
  readonly jaws: number;
  readonly gripping: boolean;
  /** Force of the membrane on the instrument, mN, and its magnitude. */
  readonly force_mN: readonly [number, number, number];
  readonly gripForce_mN: number;
  readonly sideLoad_mN: number;
  /** True where the incision or the eye wall keeps the tip from where the hand asks it to be. */
  readonly reachLimited: boolean;
}

export interface ChamberView {
  readonly chamberPressure_mmHg: number;
  readonly netPressure_mmHg: number;
  /** Net pressure at which this tear would run without a pull, mmHg; null when not known. */
  readonly runsByItselfAt_mmHg: number | null;
  readonly fluidLost_share: number;
  readonly tension_mN_per_mm: number;
}

export type WorldEventKind =
  | 'grasp'
  | 'release'
  | 'grasp-missed'
  | 'slipped'
  | 'puncture'
  | 'tear-starts'
  | 'tear-stops'
  | 'near-run-out'
  | 'rescued'
  | 'run-out-inevitable'
  | 'run-out'
  | 'joined'
  | 'disc-free'
  | 'refill'
  | 'stalled'
  | 'resumed'
  | 'complete'
  | 'time-up';

export interface WorldEvent {
  readonly step: number;
  readonly time_s: number;
  readonly kind: WorldEventKind;
  /** Clock hour of the place it happened, 0 to 12, when it has one. */
  readonly clock_h: number | null;
}

export type Ended = 'complete' | 'run-out' | 'open' | 'stalled';
export type WorldPhase = 'working' | 'relaxing' | 'ended';

/** Everything drawing needs of one moment. Typed arrays are fresh copies and may be transferred. */
export interface WorldView {
  readonly step: number;
  readonly time_s: number;
  readonly phase: WorldPhase;
  readonly ended: Ended | null;
  /** Changes whenever nodes or triangles do; positions of equal topology may be interpolated. */
  readonly topology: number;
  /** 3 per node, mm, eye frame; z is height over the capsule. */
  readonly position_mm: Float32Array;
  /** 2 per node, mm: place in the unloaded disc. */
  readonly reference_mm: Float32Array;
  /** 3 per triangle, node indices, counter-clockwise in the reference disc (upper side up when unfolded). */
  readonly triangle: Uint32Array;
  /** 1 per triangle: 0 still held by the rim, 1 a free piece. */
  readonly piece: Uint8Array;
  /** Larger principal line tension per triangle, mN/mm. */
  readonly tension_mN_per_mm: Float32Array;
  /** Torn margins as runs of node indices, both sides of each tear. */
  readonly margins: readonly Uint32Array[];
  /** Tear lines in the deformed eye frame along the outer side, x,y pairs, mm. */
  readonly tearPath_mm: readonly Float32Array[];
  readonly tips: readonly TipView[];
  readonly instrument: InstrumentView;
  readonly chamber: ChamberView;
  /** Distance and force budgets so far, for the strip. */
  readonly torn_mm: number;
  readonly grasps: number;
  /** Events since the previous view. */
  readonly events: readonly WorldEvent[];
  readonly stalled: boolean;
}

/** Fixed facts of an eye for the stage, in the living eye before any cut. */
export interface StageGeometry {
  readonly limbusDiameter_mm: number;
  readonly pupilDiameter_mm: number;
  readonly opacityDiameter_mm: number;
  readonly lensDiameter_mm: number;
  readonly zonuleFreeDiameter_mm: number;
  readonly anteriorRadius_mm: number;
  readonly dyed: boolean;
  readonly pupilCentre_mm: Vec2;
  readonly lensCentre_mm: Vec2;
  readonly target: { readonly centre_mm: Vec2; readonly diameter_mm: number; readonly lineDiameter_mm: number };
  readonly incisions: readonly { readonly position_mm: Vec2; readonly clock_h: number; readonly width_mm: number }[];
}

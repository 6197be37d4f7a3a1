/** The whole state of an attempt. Changed only by stepWorld; read through views. */
import type { Chamber } from '../eye/chamber.ts';
import type { InstrumentPose, InstrumentRig } from '../instrument/contract.ts';
import type { Body } from '../membrane/body.ts';
import type { Material } from '../membrane/material.ts';
import type { SolverState } from '../membrane/solve.ts';
import type { DiscMesh } from '../mesh/disc-mesh.ts';
import type { MeshSizes } from '../mesh/sizes.ts';
import type { TearLine, TipRef } from '../mesh/tear-line.ts';
import type { TornIncrement, WorkRecorder } from '../opening/metrics.ts';
import type { InstrumentKind, Scenario } from '../scenario/scenario.ts';
import type { DirectionRule } from '../tear/direction.ts';
import type { TipPatch } from '../tear/tip-force.ts';
import type { Ended, HandCommand, WorldEvent, WorldPhase } from './contract.ts';
import type { EyeFrame } from './frame.ts';

/** A live tip between steps. */
export interface Tip {
  readonly ref: TipRef;
  readonly id: number;
  /** Node of the tip and patch of its domain integral in the present mesh. */
  node: number;
  patch: TipPatch;
  /** Driving force, mN, reference axes. */
  force: [number, number];
  /** The sheet's part: with the pull let go; null until it has been computed. */
  sheet: [number, number] | null;
  /** Advance that the law has granted but that is shorter than an element, mm. */
  debt_mm: number;
  /** Step of the last advance, for the start and stop of tearing. */
  lastAdvance_step: number;
  tearing: boolean;
  /** Whether the sheet's part alone nearly tears, or does. */
  danger: 'near-run-out' | 'run-out-inevitable' | null;
}

/** Tissue held by the instrument. */
export interface Grip {
  readonly instrument: InstrumentKind;
  /** Place of the grip in the reference disc. */
  readonly reference: readonly [number, number];
  /** Shape of the held patch at the grasp, 3x2 row by row, and its turn since, 3x3. */
  readonly shape: Float64Array;
  readonly turn: Float64Array;
  /** Tissue's place less the jaws' when it was taken, mm; the jaws draw it in. */
  readonly offset: [number, number, number];
  /** Held nodes in the present mesh, first the grip's own. */
  nodes: Int32Array;
}

/** The energy account of an attempt, mN mm. */
export interface EnergyAccount {
  /** Work done on the tissue by the instrument and by the rim's anchors. */
  work: number;
  /** Sum of the sizes of the steps' contributions to `work`, the scale of the comparison. */
  turnover: number;
  dragged: number;
  torn: number;
  /** Potential of membrane, folds and springs at the start. */
  initial: number;
  /** Largest share by which one rebuilt mesh raised the stored energy. */
  remeshGain: number;
  /** Energy released when a grip is let go (the springs' own). */
  released: number;
  /** The gap when the work ended, as a share of the turnover; negative before. */
  mismatch: number;
}

export interface World {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly frame: EyeFrame;
  readonly material: Material;
  readonly sizes: MeshSizes;
  /** Rule by which tips find their direction; 'vector' in every attempt so far. */
  readonly direction: DirectionRule;
  /** Parts into which the sheet's way in each step is split; 1 in every attempt. */
  readonly parts: number;
  readonly rig: InstrumentRig;
  readonly recorder: WorkRecorder;
  chamber: Chamber;
  pose: InstrumentPose;
  command: HandCommand;
  tears: TearLine[];
  mesh: DiscMesh;
  body: Body;
  solver: SolverState;
  /** Twin with the pull let go: its own springs and factor, and its own state. */
  sheetBody: Body;
  sheetSolver: SolverState;
  sheet: Float64Array;
  /** 3 per node, mm, eye frame. */
  x: Float64Array;
  /** State one step before, for the first guess of the next; empty after a rebuild. */
  last: Float64Array;
  tips: Tip[];
  nextId: number;
  grip: Grip | null;
  /** Step in which tissue was last let go. */
  letGo_step: number;
  /** Slit being cut by the needle. */
  cutting: TearLine | null;
  /** 1 per triangle: 0 held by the rim, 1 free. */
  piece: Uint8Array;
  topology: number;
  step: number;
  phase: WorldPhase;
  ended: Ended | null;
  /** Step in which the disc came free. */
  freed_step: number;
  events: WorldEvent[];
  /** How many events earlier views have shown. */
  seenEvents: number;
  stalled: boolean;
  account: EnergyAccount;
  /** Torn in the present step, for the recorder. */
  tornNow: TornIncrement[];
  torn_mm: number;
  grasps: number;
  /** Largest area inside the torn line so far, over that of the capsule. */
  openArea_share: number;
  linearIterations: number;
  newtonIterations: number;
  remeshes: number;
}

import type { WorldEventKind } from '../world/contract.ts';

/** What is measured of a finished opening and of the work that made it. Definitions in physics/doc/model.md. */

export interface OpeningMetrics {
  readonly equivalentDiameter_mm: number;
  readonly largestDiameter_mm: number;
  readonly largestDiameterAxis_deg: number;
  readonly smallestDiameter_mm: number;
  readonly smallestDiameterAxis_deg: number;
  readonly area_mm2: number;
  readonly perimeter_mm: number;
  /** Distance and direction of the area centroid from the reference centre; direction as a clock hour. */
  readonly centroidDistance_mm: number;
  readonly centroidDirection_clock_h: number;
  /** 4 pi A / P^2, 1 for a circle. */
  readonly circularity: number;
  /** Smallest over largest diameter. */
  readonly axisRatio: number;
  readonly rmsDeviation_mm: number;
  readonly peakDeviation_mm: number;
  /** Smallest overlap of the optic's edge by the capsule all round, mm; negative where there is none. */
  readonly opticOverlapSmallest_mm: number;
  /** Clock hours (0.1 h steps collapsed to ranges) where the optic is not covered. */
  readonly opticUncovered_clock_h: readonly (readonly [number, number])[];
  readonly largestKink_deg: number;
  readonly radialNicks: number;
  readonly longestNick_mm: number;
}

export interface WorkMetrics {
  readonly time_s: number;
  readonly grasps: number;
  readonly arcPerGrasp_deg: number;
  readonly tornLength_mm: number;
  readonly gripToTipMean_mm: number;
  readonly peakForce_mN: number;
  /** Over the time in which the forceps hold tissue. */
  readonly rmsForce_mN: number;
  readonly handPath_mm: number;
  readonly handPathOverTorn: number;
  /** Shares of the torn length in which the pull was mostly along the tear, or mostly across it; they add to 1. */
  readonly shearShare: number;
  readonly stretchShare: number;
  /** Time with more than half the tear resistance at the tip and no tearing. */
  readonly tensionWithoutTear_s: number;
  readonly refills: number;
  readonly fluidLost_share: number;
  readonly peakSideLoad_mN: number;
  readonly nearRunOuts: number;
  readonly rescues: number;
}

export interface GradedItem {
  readonly metric: string;
  readonly value: number | null;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly met: boolean;
  /** The reason in one plain sentence. */
  readonly reason: string;
}

/** One advance of one tear tip. */
export interface TornIncrement {
  readonly length_mm: number;
  /** Arc about the target's centre, degrees, never negative. */
  readonly arc_deg: number;
  /** Forceps force along and across the tear at that moment, mN; both 0 without a pull. */
  readonly shear_mN: number;
  readonly stretch_mN: number;
}

/** What one step of the world tells about the work. All numbers finite. */
export interface WorkSample {
  /** Time at the end of the step, s, rising from call to call. */
  readonly time_s: number;
  readonly dt_s: number;
  /** Where the hand asks the tip to be, mm. */
  readonly asked_mm: readonly [number, number, number];
  readonly gripping: boolean;
  /** Force of the membrane on the instrument, mN. */
  readonly force_mN: readonly [number, number, number];
  readonly sideLoad_mN: number;
  readonly torn: readonly TornIncrement[];
  /** Largest driving force over tear resistance of all live tips; 0 without one. */
  readonly drivingRatio: number;
  /** Distance from the grip to the nearest live tip, mm; null without a grip or a live tip. */
  readonly gripToTip_mm: number | null;
  /** Share of the chamber's fluid lost so far. */
  readonly fluidLost_share: number;
  readonly events: readonly { readonly kind: WorldEventKind }[];
}

export interface WorkRecorder {
  record(sample: WorkSample): void;
  /** Metrics up to the last sample, all finite; may be asked at any time. */
  result(): WorkMetrics;
}

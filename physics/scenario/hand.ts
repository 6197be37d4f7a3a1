import type { InstrumentKind } from './scenario.ts';

/** One moment of a recorded hand: where the hand asks the tip to be, not where it is. */
export interface TrackSample {
  readonly t_s: number;
  readonly x_mm: number;
  readonly y_mm: number;
  /** Height above the capsule, 0 to 3 mm. */
  readonly lift_mm: number;
  /** 0 open, 1 closed (forceps); for the needle 1 presses, for the cannula 1 injects. */
  readonly jaws: number;
  readonly instrument: InstrumentKind;
  /** Index into the scenario's incisions. */
  readonly incision: number;
}

export interface HandTrack {
  readonly rimwardHand: 1;
  readonly kind: 'track';
  readonly id: string;
  readonly title: string;
  readonly samples: readonly TrackSample[];
}

/** A number, or a function of the arc torn so far, given as points [arc_deg, value], interpolated linearly. */
export type ArcFunction = number | readonly (readonly [number, number])[];

export interface GuidedHand {
  readonly rimwardHand: 1;
  readonly kind: 'guided';
  readonly id: string;
  readonly title: string;
  readonly start: 'flap' | 'needle' | 'two-nicks';
  /** From the tear's forward tangent toward the centre, degrees. */
  readonly pullAngle_deg: ArcFunction;
  /** Speed of the hand while it pulls. */
  readonly speed_mm_per_s: number;
  /** Arc torn after which the hand lets go and grasps again, degrees. */
  readonly regraspEvery_deg: number;
  /** Where the flap is grasped: distance behind the tip along the torn edge, and inside of that edge, mm. */
  readonly graspBehind_mm: number;
  readonly graspInside_mm: number;
  /** Whether the flap is laid over before pulling. */
  readonly fold: boolean;
  /** Cannula is used when the chamber falls below this; absent means never. */
  readonly refillBelow_mmHg?: number;
  /** Hand tremor, RMS in micrometres; absent means none. */
  readonly tremor?: { readonly across_um: number; readonly along_um: number };
  /** Corrects the pull angle by what a person sees: the distance of the tip from the line. */
  readonly follow?: {
    readonly diameter_mm: number;
    readonly gain_deg_per_mm: number;
    readonly minAngle_deg: number;
    readonly maxAngle_deg: number;
  };
  /** Needle only: the puncture alone, at a place about the line's centre; absent means a slit drawn out to the line. */
  readonly puncture?: {
    readonly radius_mm: number;
    readonly clock_h: number;
    /** Where the needle is drawn to, still pressed; absent means nowhere. */
    readonly drawnTo?: { readonly radius_mm: number; readonly clock_h: number };
    /** How long the hand then stays still, so that a cut that splits by itself comes to rest, s; absent means not at all. */
    readonly wait_s?: number;
  };
  /** What is done first while the tip lies outside of the line: a running tear is brought back. Absent means nothing of the kind. */
  readonly rescue?: {
    /** The chamber is filled before the flap is touched. */
    readonly refillFirst: boolean;
    /** Direction in which the flap, laid flat, is pulled meanwhile; above 90 degrees leads back along the tear. */
    readonly backAngle_deg: number;
    /** The tear is brought back while its tip lies more than this outside of the line, mm. */
    readonly outside_mm: number;
    /** Length torn after which the hand lets go and looks again meanwhile, mm. */
    readonly regraspEvery_mm: number;
  };
  /**
   * Two nicks only: the edge of each nick is drawn to the centre, and this length is torn, both ends together, before the other
   * nick has its turn, mm. Absent: one end of one nick is led along as a flap is.
   */
  readonly nickTurn_mm?: number;
  /** Arc torn from which the hand lets go and only watches, degrees; absent means never. */
  readonly stopAfter_deg?: number;
}

export type Hand = HandTrack | GuidedHand;

/**
 * What a scenario file holds after parsing. Units are in the names. The eye's own frame is used everywhere:
 * origin at the reference centre, x to the right of the surgeon, y away from the surgeon; clock hour 12 is +y, 3 is +x.
 */

export type FluidId = 'saline' | 'hpmc-2' | 'ha-1.0' | 'ha-1.4' | 'ha-1.8' | 'ha-2.3' | 'ha-3.0';
export type StiffnessPreset = 'uniaxial' | 'inflation';
export type ReferenceCentre = 'pupil' | 'limbus' | 'lens';
export type InstrumentKind = 'forceps' | 'needle' | 'cannula';

export interface ScenarioEye {
  /** 0 to 95. */
  readonly age_years: number;
  readonly stiffnessPreset: StiffnessPreset;
  readonly dyed: boolean;
  readonly pupilDiameter_mm: number;
  /** Diameter of the opaque part of the lens, drawn against the red reflex; 0 for a clear lens. */
  readonly opacityDiameter_mm: number;
  /** Lens centre relative to the pupil centre, mm. */
  readonly lensOffset_mm: readonly [number, number];
  /** Replacements for what the age function gives; each must be positive and finite. */
  readonly overrides: {
    readonly thickness_um?: number;
    readonly youngModulus_MPa?: number;
    readonly stiffening?: number;
    readonly tearResistance_mN?: number;
    readonly lensDiameter_mm?: number;
    readonly anteriorRadius_mm?: number;
    readonly zonuleFreeDiameter_mm?: number;
    readonly zonuleStiffness_mN_per_mm2?: number;
    readonly baseTension_mN_per_mm?: number;
  };
  /** A sector of weaker zonule, absent when the ring is whole. */
  readonly weakZonule?: { readonly fromClock_h: number; readonly toClock_h: number; readonly strength: number };
}

export interface ScenarioChamber {
  readonly fluid: FluidId;
  /** Pressure of the vitreous on the lens, above a chamber that is merely full, mmHg. */
  readonly behindPressure_mmHg: number;
  /** Raised pressure inside the lens, mmHg; falls as the capsule opens. */
  readonly insidePressure_mmHg: number;
  /** Chamber pressure right after a refill, mmHg, against which the two above act. */
  readonly fillPressure_mmHg: number;
  /** How full the chamber is when the attempt begins, 0 to 1; 1, just refilled, when absent. */
  readonly startFill_share?: number;
}

export type ScenarioStart =
  | {
      /** A radial cut that turns into an arc, leaving a flap whose free corner can be grasped. */
      readonly kind: 'flap';
      readonly clock_h: number;
      /** Radius of the arc in the living eye before any cut, mm. */
      readonly radius_mm: number;
      /** Length of the arc, degrees; positive runs counter-clockwise as seen on the stage. */
      readonly arc_deg: number;
      /** Radius at which the radial cut begins, mm. */
      readonly innerRadius_mm: number;
      /** How far outside of that radius the arc's end lies, mm, in the living eye: a tear that has begun to run. 0 when absent. */
      readonly outward_mm?: number;
    }
  | { readonly kind: 'needle'; readonly slitLimit_mm: number }
  | {
      readonly kind: 'two-nicks';
      readonly distance_mm: number;
      readonly nick_mm: number;
      readonly axisClock_h: number;
    };

export interface ScenarioIncision {
  readonly clock_h: number;
  readonly width_mm: number;
}

/** A limit that a metric must keep; either end may be missing. */
export interface ToleranceItem {
  /** Key of OpeningMetrics or WorkMetrics. */
  readonly metric: string;
  readonly atLeast?: number;
  readonly atMost?: number;
}

export interface Scenario {
  readonly rimwardScenario: 1;
  readonly id: string;
  readonly title: string;
  /** One or two plain sentences: what to do and what to watch. */
  readonly brief: string;
  readonly eye: ScenarioEye;
  readonly chamber: ScenarioChamber;
  readonly start: ScenarioStart;
  readonly incisions: readonly ScenarioIncision[];
  readonly target: {
    readonly diameter_mm: number;
    readonly reference: ReferenceCentre;
    /** Radius of the line drawn on the capsule before cutting that should give the target after relaxing, as a diameter. */
    readonly lineDiameter_mm: number;
    readonly opticDiameter_mm: number;
  };
  readonly tolerances: readonly ToleranceItem[];
  readonly aids: { readonly arrows: boolean; readonly targetCircle: boolean; readonly tipCard: boolean };
  readonly timeLimit_s: number;
  /** Rules of a trial. Absent: no pause. */
  readonly trial?: { readonly pause: boolean };
  /** Seed of hand tremor and of nothing else. */
  readonly seed: number;
}

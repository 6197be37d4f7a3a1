/** What the parts of the Lecture place pass to each other: the twin eyes, their clock, and what is recorded of them. */
import type {
  FluidId,
  Hand,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldEvent,
  WorldView,
} from '../../../physics/index.ts';

/** Which of the two eyes. The hand is led by what happens in the first. */
export type SideId = 'left' | 'right';

export const SIDES: readonly SideId[] = ['left', 'right'];

/** How an eye of a pair differs from the scenario it is made from. What is left out stays as in the scenario. */
export interface EyeChange {
  readonly age_years?: number;
  readonly behindPressure_mmHg?: number;
  readonly fluid?: FluidId;
  readonly dyed?: boolean;
}

/** One eye of a pair. */
export interface TwinEye {
  /** What stands over the eye, such as "6 months". */
  readonly label: string;
  /** Complete, with the changes made. */
  readonly scenario: Scenario;
}

/** What moves the instrument in both eyes: one stream of commands for both. */
export type TwinHand =
  | { readonly kind: 'live' }
  /** A guided program that sees the first eye only, or a recorded track. */
  | { readonly kind: 'program'; readonly hand: Hand }
  | { readonly kind: 'commands'; readonly commands: readonly HandCommand[] };

/** Everything that is needed to run a pair; one eye where the second is null. */
export interface TwinSetup {
  readonly left: TwinEye;
  readonly right: TwinEye | null;
  readonly hand: TwinHand;
  readonly seed: number;
}

/** What the plots show, one value per world step computed, from step 0; NaN-free: null where there is no value. */
export interface SeriesPoint {
  readonly step: number;
  readonly time_s: number;
  /** Arc torn round the target's centre by the leading tip, degrees, from where it stood at the start. */
  readonly arcTorn_deg: number | null;
  /** Distance of that tip from the target's centre in the living eye, mm. */
  readonly tipRadius_mm: number | null;
  /** |J| over the tear resistance. */
  readonly drivingRatio: number | null;
  /** Heading of the tear less the tangent of the circle through the tip, degrees; positive outward. */
  readonly headingError_deg: number | null;
  readonly gripForce_mN: number;
  readonly netPressure_mmHg: number;
}

export interface TwinSideState {
  readonly label: string;
  readonly scenario: Scenario;
  readonly geometry: StageGeometry | null;
  /** Line tension of the capsule when the pair began, away from any cut, mN/mm; null before that. */
  readonly uncutTension_mN_per_mm: number | null;
  /** The moment shown. */
  readonly view: WorldView | null;
  /** Up to the last computed step; a new array only when points were added. */
  readonly series: readonly SeriesPoint[];
  readonly events: readonly WorldEvent[];
  readonly fault: string | null;
}

/** The state that every part of the place reads; changed only through TwinControls. */
export interface TwinState {
  readonly setup: TwinSetup | null;
  readonly left: TwinSideState | null;
  readonly right: TwinSideState | null;
  /** The moment shown and the last one computed in both eyes, steps of STEP_S. */
  readonly step: number;
  readonly lastStep: number;
  readonly playing: boolean;
  /** 0.1 to 1 of real time. */
  readonly speed: number;
  /** A span that is played over and over, steps; null for none. */
  readonly loop: { readonly from: number; readonly to: number } | null;
  /** True while a question holds the tear: nothing is stepped or shown past `step`. */
  readonly held: boolean;
  /** True once both eyes have ended and nothing more will be computed. */
  readonly ended: boolean;
  /** What the hand works with. */
  readonly instrument: HandCommand['instrument'];
}

export interface TwinControls {
  start(setup: TwinSetup): void;
  play(playing: boolean): void;
  /** Any computed moment; both eyes show it within 150 ms. */
  seek(step: number): void;
  /** Single steps on or back; stops playing. */
  nudge(steps: number): void;
  setSpeed(speed: number): void;
  setLoop(loop: { readonly from: number; readonly to: number } | null): void;
  hold(held: boolean): void;
  /** From the start with the same setup. */
  restart(): void;
  /** The frames of one side between two steps, in order, for the exports; all kept ones where the span is left out. */
  frames(side: SideId, from?: number, to?: number): readonly WorldView[];
  /** From the moment shown on, the hand is the live one; what was computed after it is dropped. */
  takeOver(): void;
  /** What moved the instrument, one command per computed step: played again in the same eye it gives the same tear. */
  commands(): readonly HandCommand[];
  /** The canvases of the stages now on the page, for pictures and recordings. */
  canvas(side: SideId): HTMLCanvasElement | null;
}

/** What is drawn over the membrane in both eyes. */
export interface LectureAids {
  readonly arrows: boolean;
  /** The pull directions that keep the tear from turning outward. */
  readonly safeCone: boolean;
  readonly tensionMap: boolean;
  readonly principalStrokes: boolean;
  /** Driving force by direction, round the tip. */
  readonly polarCurve: boolean;
  readonly targetCircle: boolean;
  readonly numbers: boolean;
}

/** Where both stages look. */
export interface LectureCamera {
  /** 1 shows the whole pupil. */
  readonly magnification: number;
}

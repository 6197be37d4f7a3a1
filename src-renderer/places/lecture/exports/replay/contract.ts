/** What a saved replay holds: the drawing of two eyes over a span, small enough for one file. */

/** Cells of the sheet's map along a side. */
export const GRID_SIDE = 84;
/** Values of a cell: nothing there, then tensions from 1, then tissue that lies folded over or is free. */
export const BARE = 0;
export const TENSION_LEVELS = 48;
export const FOLDED = TENSION_LEVELS + 1;

export interface ReplayTip {
  readonly x_mm: number;
  readonly y_mm: number;
  /** mN, eye frame; null where it is not known. */
  readonly sheet_mN: readonly [number, number] | null;
  readonly pull_mN: readonly [number, number] | null;
  readonly resultant_mN: readonly [number, number];
  /** Driving force over resistance; the tear goes above 1. */
  readonly ratio: number;
  readonly resistance_mN: number;
}

/** One moment of one eye. */
export interface ReplayMoment {
  /** Torn margins of both sides, x,y pairs, mm. */
  readonly margins: readonly (readonly number[])[];
  readonly tearLines: readonly (readonly number[])[];
  readonly tips: readonly ReplayTip[];
  readonly instrument: { readonly x_mm: number; readonly y_mm: number; readonly gripping: boolean };
  readonly gripForce_mN: number;
  readonly netPressure_mmHg: number;
  /** GRID_SIDE squared, row by row from the top. */
  readonly sheet: Uint8Array;
}

export interface ReplayEye {
  readonly label: string;
  readonly limbusDiameter_mm: number;
  readonly pupilDiameter_mm: number;
  readonly lensDiameter_mm: number;
  readonly pupilCentre_mm: readonly [number, number];
  readonly lensCentre_mm: readonly [number, number];
  readonly targetCentre_mm: readonly [number, number];
  readonly lineDiameter_mm: number;
  /** Half the width of the map, mm, about the pupil's centre. */
  readonly gridReach_mm: number;
  /** Tension of the highest level, mN/mm. */
  readonly tensionMost_mN_per_mm: number;
  readonly moments: readonly ReplayMoment[];
}

export interface Replay {
  /** Time of each moment in the eyes, s; the same in both. */
  readonly times_s: readonly number[];
  readonly eyes: readonly ReplayEye[];
}

/** What the page says by itself; a name in braces is filled in. */
export const PAGE_WORDS = [
  'play',
  'pause',
  'moment',
  'speed',
  'real',
  'half',
  'quarter',
  'tenth',
  'arrows',
  'tension',
  'pull',
  'sheet',
  'resultant',
  'key',
  'eye',
  'seconds',
  'rests',
  'goes',
  'trouble',
] as const;

export type PageWords = Readonly<Record<(typeof PAGE_WORDS)[number], string>>;

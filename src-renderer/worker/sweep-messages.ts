import type { SweepMeasure } from '../../physics/index.ts';

/** From the page to a sweep worker: one point of a chart. */
export interface SweepAsked {
  readonly index: number;
  readonly measure: SweepMeasure;
  readonly age_years: number;
  readonly netPressure_mmHg: number;
  /** For `line`: the planned opening, mm; null takes the usual one of the age. */
  readonly opening_mm: number | null;
}

/** What came of it. */
export type FromSweep =
  | { readonly index: number; readonly value: number | null }
  | { readonly index: number; readonly fault: string };

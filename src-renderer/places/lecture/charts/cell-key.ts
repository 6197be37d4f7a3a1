import type { AgeMeasure } from './age-measures.ts';

/** What is asked of one chart. */
export interface AgeAsked {
  readonly ages_years: readonly number[];
  /** One curve each. */
  readonly pressures_mmHg: readonly number[];
  readonly opening_mm: number;
}

/** One point of a chart over age. */
export interface AgeCell {
  readonly measure: AgeMeasure;
  readonly age_years: number;
  /** 0 where the measure itself looks for a pressure. */
  readonly netPressure_mmHg: number;
  /** Planned opening, mm; null for a measure that does not read it. */
  readonly opening_mm: number | null;
}

/** What came of it: null where the model gives no value. */
export type AgeValue = { readonly value: number | null } | { readonly fault: string };

/** Under which a value is kept: everything it depends on, the model's version first. */
export const cellKey = (modelVersion: string, { measure, age_years, netPressure_mmHg, opening_mm }: AgeCell): string =>
  [modelVersion, measure, age_years, netPressure_mmHg, opening_mm ?? ''].join('|');

export const isOfVersion = (key: string, modelVersion: string): boolean => key.startsWith(`${modelVersion}|`);

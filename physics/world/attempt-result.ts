import type { GradedItem, OpeningMetrics, WorkMetrics } from '../opening/metrics.ts';
import type { Ended, WorldEvent } from './contract.ts';

/** What comes of one attempt; the same object for the window, the command line and the store. */
export interface AttemptResult {
  readonly scenario: string;
  readonly hand: string;
  readonly seed: number;
  readonly modelVersion: string;
  readonly ended: Ended;
  /** Null unless the opening is complete. */
  readonly opening: OpeningMetrics | null;
  readonly work: WorkMetrics;
  readonly graded: readonly GradedItem[];
  /** True when complete and every item is met. */
  readonly passed: boolean;
  readonly tears: readonly {
    /** x,y pairs, mm. */
    readonly reference_mm: readonly (readonly [number, number])[];
    readonly relaxed_mm: readonly (readonly [number, number])[];
  }[];
  /** Relaxed outline of the opening, closed without repeating the first point; null unless complete. */
  readonly outline_mm: readonly (readonly [number, number])[] | null;
  readonly events: readonly WorldEvent[];
  readonly steps: number;
  readonly digest: string;
  /** Largest mismatch of the energy account over the attempt, as a share of the work done. */
  readonly energyMismatch: number;
  /** Stated with every result. */
  readonly caution: string;
}

export const TEACHING_CAUTION =
  'Teaching model, not for planning surgery. Local protocol and supervised practice come first.';

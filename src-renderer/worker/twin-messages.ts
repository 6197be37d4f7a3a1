import type { Hand, HandCommand, PolarDrivingForce, Scenario, WorldView } from '../../physics/index.ts';
import type { SeriesPoint } from '../places/lecture/contract.ts';

/** From the page to one eye of a pair. Each message but the first is for the run of that number only. */
export type ToTwin =
  | {
      readonly kind: 'start';
      readonly run: number;
      readonly scenario: Scenario;
      readonly seed: number;
      /** Moves the instrument by what it sees in this eye; null for an eye that only takes commands. */
      readonly hand: Hand | null;
    }
  /** The hand may go on up to this number of steps. */
  | { readonly kind: 'allow'; readonly run: number; readonly steps: number }
  | { readonly kind: 'commands'; readonly run: number; readonly commands: readonly HandCommand[] }
  /** The driving force by direction at a computed step, in place of any asked before; null takes back what was asked. */
  | { readonly kind: 'polar'; readonly run: number; readonly step: number | null };

/** From one eye of a pair to the page. */
export type FromTwin =
  | { readonly kind: 'began'; readonly run: number; readonly first: TwinMoment }
  | ({ readonly kind: 'stepped'; readonly run: number; readonly command: HandCommand } & Stepped)
  /** The hand has nothing more to do after the steps so far. */
  | { readonly kind: 'hand-done'; readonly run: number }
  | ({ readonly kind: 'polar'; readonly run: number; readonly step: number } & PolarAnswer)
  | { readonly kind: 'fault'; readonly run: number; readonly message: string };

/** What trying every direction gave; the eye itself goes on where that failed. */
export interface PolarAnswer {
  /** Tips that can tear at that step. */
  readonly tips: number;
  /** Fewer than the tips where nothing can be meshed round one. */
  readonly curves: readonly PolarDrivingForce[];
  readonly fault: string | null;
}

/** One computed moment of one eye. */
export interface TwinMoment {
  readonly view: WorldView;
  readonly point: SeriesPoint;
}

export interface Stepped {
  /** Commands taken so far. */
  readonly at: number;
  /** Null where the eye had ended before and stays as it is. */
  readonly moment: TwinMoment | null;
}

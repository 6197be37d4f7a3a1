import type {
  AttemptResult,
  CostlyMoment,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldView,
} from '../../physics/index.ts';

/** From the page to the replay worker. */
export type ToReplay =
  | {
      readonly kind: 'start';
      readonly scenario: Scenario;
      readonly seed: number;
      readonly commands: readonly HandCommand[];
      /** False where only the end is wanted. */
      readonly frames: boolean;
    }
  /** From now on only every so many steps a frame. */
  | { readonly kind: 'thin'; readonly every: number };

/** From the replay worker to the page. */
export type FromReplay =
  | { readonly kind: 'began'; readonly geometry: StageGeometry }
  /** `done` steps of `of` are computed. */
  | { readonly kind: 'progress'; readonly done: number; readonly of: number }
  | { readonly kind: 'frame'; readonly view: WorldView }
  | ({ readonly kind: 'ended' } & ReplayEnd)
  | { readonly kind: 'fault'; readonly message: string };

/** What a replay comes to. */
export interface ReplayEnd {
  readonly result: AttemptResult;
  /** The worst first, at most five. */
  readonly moments: readonly CostlyMoment[];
}

/** What is played again. */
export interface Replayed {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly commands: readonly HandCommand[];
}

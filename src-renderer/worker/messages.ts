import type {
  AttemptResult,
  CostlyMoment,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldView,
} from '../../physics/index.ts';

/** What was recorded of an attempt up to the step from which it is to go on. */
export interface Recorded {
  readonly seed: number;
  /** One per world step, from the first. */
  readonly commands: readonly HandCommand[];
}

/** From the page to the physics. */
export type ToWorker =
  | {
      readonly kind: 'start';
      readonly scenario: Scenario;
      /** Played silently first; the hand goes on from there. */
      readonly recorded?: Recorded;
    }
  /** For the attempt of that number only: a hand that has not heard of a new attempt yet must not work in it. */
  | { readonly kind: 'command'; readonly attempt: number; readonly command: HandCommand }
  | { readonly kind: 'pause'; readonly paused: boolean }
  /** Puts the attempt before this one back, where it still can be. */
  | { readonly kind: 'bring-back' }
  /** Ends the attempt of that number as it stands. */
  | { readonly kind: 'end'; readonly attempt: number }
  /** Gives up playing what was recorded; the attempt before stays. */
  | { readonly kind: 'stop-replaying' };

/** Asked of the worker now and then, and what it answers, so that the page knows that it is still there. */
export interface AreYouThere {
  readonly kind: 'are-you-there';
}
export interface Here {
  readonly kind: 'here';
}

/** From the physics to the page. Every message but a fault carries the number of the attempt it belongs to. */
export type FromWorker =
  | {
      readonly kind: 'began';
      readonly attempt: number;
      readonly scenario: Scenario;
      readonly seed: number;
      readonly geometry: StageGeometry;
      /** True when this is an earlier attempt, brought back. */
      readonly broughtBack: boolean;
      /** What the hand asked last, where the attempt goes on from a recorded one. */
      readonly lastAsked: HandCommand | null;
    }
  | { readonly kind: 'view'; readonly attempt: number; readonly view: WorldView; readonly pace: number }
  /** What the world was stepped with since the last such message, one per step; `fromStep` commands came before. */
  | {
      readonly kind: 'commands';
      readonly attempt: number;
      readonly fromStep: number;
      readonly commands: readonly HandCommand[];
    }
  | { readonly kind: 'replaying'; readonly attempt: number; readonly done: number; readonly of: number }
  | { readonly kind: 'replay-stopped'; readonly attempt: number }
  /** An attempt that was not over made room for the next one; it may still be brought back. */
  | { readonly kind: 'laid-aside'; readonly attempt: number; readonly result: AttemptResult }
  | {
      readonly kind: 'ended';
      readonly attempt: number;
      readonly result: AttemptResult;
      /** The moments that cost the most, the worst first. */
      readonly moments: readonly CostlyMoment[];
    }
  | { readonly kind: 'fault'; readonly message: string };

import type { AttemptResult, HandCommand, Scenario, StageGeometry, WorldView } from '../../physics/index.ts';

/** From the page to the physics. */
export type ToWorker =
  | { readonly kind: 'start'; readonly scenario: Scenario }
  /** For the attempt of that number only: a hand that has not heard of a new attempt yet must not work in it. */
  | { readonly kind: 'command'; readonly attempt: number; readonly command: HandCommand }
  | { readonly kind: 'pause'; readonly paused: boolean }
  /** Puts the attempt before this one back, where it still can be. */
  | { readonly kind: 'bring-back' };

/** From the physics to the page. Every message carries the number of the attempt it belongs to. */
export type FromWorker =
  | {
      readonly kind: 'began';
      readonly attempt: number;
      readonly scenario: Scenario;
      readonly geometry: StageGeometry;
      /** True when this is an earlier attempt, brought back. */
      readonly broughtBack: boolean;
    }
  | { readonly kind: 'view'; readonly attempt: number; readonly view: WorldView; readonly pace: number }
  | {
      readonly kind: 'ended';
      readonly attempt: number;
      readonly result: AttemptResult;
      /** One per step: what the hand asked, for playing the attempt again. */
      readonly commands: readonly HandCommand[];
    }
  | { readonly kind: 'fault'; readonly message: string };

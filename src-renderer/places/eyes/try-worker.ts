/** Plays one guided hand in one eye, away from the page. Cancelled by ending the worker. */
import { type AttemptResult, type GuidedHand, runHand, type Scenario } from '../../../physics/index.ts';

export interface TryRequest {
  readonly scenario: Scenario;
  readonly hand: GuidedHand;
}

export type TryAnswer =
  | { readonly kind: 'progress'; readonly time_s: number; readonly torn_mm: number }
  | { readonly kind: 'done'; readonly result: AttemptResult }
  | { readonly kind: 'fault'; readonly message: string };

interface WorkerScope {
  postMessage(message: TryAnswer): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<TryRequest>) => void): void;
}
const scope = globalThis as unknown as WorkerScope;

/** Views between two words about how far it has come. */
const EVERY = 15;

scope.addEventListener('message', ({ data: { scenario, hand } }) => {
  try {
    const result = runHand(scenario, hand, {
      onView: ({ step, time_s, torn_mm }) => {
        if (step % EVERY === 0) scope.postMessage({ kind: 'progress', time_s, torn_mm });
      },
    });
    scope.postMessage({ kind: 'done', result });
  } catch (fault) {
    scope.postMessage({ kind: 'fault', message: fault instanceof Error ? fault.message : String(fault) });
  }
});

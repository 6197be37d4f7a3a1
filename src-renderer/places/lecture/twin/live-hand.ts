import type { HandCommand, Scenario, WorldView } from '../../../../physics/index.ts';
import {
  commandOf,
  type HandEvent,
  type HandState,
  handAfter,
  restingHand,
  type Seen,
  takenOver,
} from '../../../tools/hand.ts';
import { roundedCommand } from '../../../worker/rounded-command.ts';

const NOTHING_SEEN: Seen = { instrument: { tip_mm: [0, 0, 3], gripping: false }, tips: [] };
/** Where the hand waits before it has moved: a little inside the first incision's side, mm. */
const RESTING_mm = [0.6, -1.2] as const;

/** The person's own hand over a pair: one hand, led by what the first eye shows. */
export class LiveHand {
  #hand: HandState;
  /** True once the hand has done anything: before that the eyes rest. */
  begun = false;

  /** @param last what was asked last, where the hand takes over from another */
  constructor(scenario: Scenario, last: HandCommand | null) {
    this.#hand =
      last === null ? restingHand(RESTING_mm, scenario.start.kind === 'flap' ? 'forceps' : 'needle') : takenOver(last);
  }

  get instrument(): HandCommand['instrument'] {
    return this.#hand.instrument;
  }

  act(event: HandEvent, seen: WorldView | null): void {
    this.#hand = handAfter(this.#hand, event, seen ?? NOTHING_SEEN);
    if (event.kind !== 'pass') this.begun = true;
  }

  command(seen: WorldView | null): HandCommand {
    return roundedCommand(commandOf(this.#hand, seen ?? NOTHING_SEEN));
  }
}

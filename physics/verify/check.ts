/** What a check of the model is: a problem with an answer from outside, and the product's own answer to it. */
import type { Hand } from '../scenario/hand.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Tolerance } from './compare.ts';

/** One number of a check beside its reference. */
export interface Finding {
  /** What was computed, in plain words; tells the rows of one check apart. */
  readonly quantity: string;
  readonly computed: number;
  readonly reference: number;
  readonly unit: string;
  readonly tolerance: Tolerance;
  /** What a reader should know of this number, such as what else was seen. */
  readonly note?: string;
  /** A miss that is known: how far off it may be at most, in the tolerance's own measure, and why. */
  readonly knownMiss?: KnownMiss;
}

export interface KnownMiss {
  readonly size: number;
  readonly reason: string;
}

/** A whole attempt to be played, for the checks that need one. */
export interface Attempt {
  readonly scenario: Scenario;
  readonly hand: Hand;
}

export interface CheckContext {
  /** Eyes with hands that complete an opening in them; may be empty, then checks of whole attempts fail and say so. */
  readonly attempts: readonly Attempt[];
  /** The eye with two nicks and a hand that finishes it; without it the check of two nicks fails and says so. */
  readonly twoNicks: Attempt | null;
}

export interface Check {
  /** Letter and number, such as B4. */
  readonly name: string;
  readonly problem: string;
  /** Where the reference comes from. */
  readonly source: string;
  /** Among the checks that had to stand first. */
  readonly first: boolean;
  /** A few seconds at most. */
  readonly quick: boolean;
  /** Computes everything anew. Throws when the solver does not get there; the runner turns that into a failed row. */
  readonly run: (context: CheckContext) => readonly Finding[];
}

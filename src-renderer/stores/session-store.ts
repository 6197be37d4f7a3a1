import { create } from 'zustand';
import type {
  AttemptResult,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldEvent,
  WorldView,
} from '../../physics/index.ts';
import type { Doing } from '../tools/hand.ts';

/** What the cards show of the hand. */
export interface HandSummary {
  readonly doing: Doing;
  readonly instrument: HandCommand['instrument'];
  readonly incision: number;
  readonly lift_mm: number;
}

/** The attempt in hand as the cards and the strip show it; refreshed about ten times a second. */
export interface SessionState {
  readonly scenarios: readonly Scenario[];
  readonly problems: readonly string[];
  readonly scenario: Scenario | null;
  readonly geometry: StageGeometry | null;
  readonly attempt: number;
  readonly view: WorldView | null;
  readonly events: readonly WorldEvent[];
  readonly pace: number;
  readonly paused: boolean;
  /** False until the hand has moved; time stands still until then. */
  readonly handSeen: boolean;
  readonly canBringBack: boolean;
  readonly hand: HandSummary;
  readonly result: AttemptResult | null;
  readonly fault: string | null;
  /** One line about keeping the attempt; null while there is nothing to say. */
  readonly kept: string | null;
}

export const useSession = create<SessionState>(() => ({
  scenarios: [],
  problems: [],
  scenario: null,
  geometry: null,
  attempt: 0,
  view: null,
  events: [],
  pace: 1,
  paused: false,
  handSeen: false,
  canBringBack: false,
  hand: { doing: 'hovering', instrument: 'forceps', incision: 0, lift_mm: 0 },
  result: null,
  fault: null,
  kept: null,
}));

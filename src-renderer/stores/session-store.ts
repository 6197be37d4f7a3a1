import { createContext, useContext } from 'react';
import { createStore, type StoreApi, useStore } from 'zustand';
import type {
  AttemptResult,
  CostlyMoment,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldEvent,
  WorldView,
} from '../../physics/index.ts';
import type { AttemptPlace } from '../../src-main/ipc/contract.ts';
import type { Doing } from '../tools/hand.ts';
import type { Keeping } from './attempt-keeper.ts';

/** What the cards show of the hand. */
export interface HandSummary {
  readonly doing: Doing;
  readonly instrument: HandCommand['instrument'];
  readonly incision: number;
  readonly lift_mm: number;
}

/** One attempt in hand as the cards and the strip show it; refreshed about ten times a second. */
export interface SessionState {
  readonly place: AttemptPlace;
  readonly scenarios: readonly Scenario[];
  readonly problems: readonly string[];
  readonly scenario: Scenario | null;
  readonly geometry: StageGeometry | null;
  readonly attempt: number;
  readonly view: WorldView | null;
  readonly events: readonly WorldEvent[];
  readonly pace: number;
  readonly paused: boolean;
  /** True when the pause came of going to another place. */
  readonly wasAway: boolean;
  /** False until time runs: at the bench until the hand has moved, in a trial until the countdown is over. */
  readonly begun: boolean;
  readonly canBringBack: boolean;
  readonly hand: HandSummary;
  readonly result: AttemptResult | null;
  /** The moments that cost the most, the worst first; empty until the end. */
  readonly moments: readonly CostlyMoment[];
  readonly fault: string | null;
  readonly keeping: Keeping;
  /** Steps of a recorded attempt being played before the hand goes on; null while nothing is. */
  readonly replaying: { readonly done: number; readonly of: number } | null;
  /** Gives what the attempt goes on from, as a line in the language. */
  readonly goesOnFrom: (() => string) | null;
  /** What else belongs to this attempt, such as a lost focus, as lines. */
  readonly notes: readonly string[];
}

export type SessionStore = StoreApi<SessionState>;

/** A session of its own for each place where a hand works. */
export const createSessionStore = (place: AttemptPlace): SessionStore =>
  createStore<SessionState>(() => ({
    place,
    scenarios: [],
    problems: [],
    scenario: null,
    geometry: null,
    attempt: 0,
    view: null,
    events: [],
    pace: 1,
    paused: false,
    wasAway: false,
    begun: false,
    canBringBack: false,
    hand: { doing: 'hovering', instrument: 'forceps', incision: 0, lift_mm: 0 },
    result: null,
    moments: [],
    fault: null,
    keeping: { state: 'nothing-yet' },
    replaying: null,
    goesOnFrom: null,
    notes: [],
  }));

/** The session that the cards and the stage below belong to. */
export const SessionOfPlace = createContext<SessionStore | null>(null);

export function useSession<T>(select: (state: SessionState) => T): T {
  const store = useContext(SessionOfPlace);
  if (store === null) throw new Error('no session above this card');
  return useStore(store, select);
}

import { type Draft, sameJson } from './draft.ts';

/** A draft with what it was before and what was undone. */
export interface DraftHistory {
  readonly past: readonly Draft[];
  readonly now: Draft;
  readonly future: readonly Draft[];
  /** The field that the last edit was made in; typing on in it is one edit. Null after anything else. */
  readonly field: string | null;
}

/** Older states are forgotten; two hundred edits back is farther than anybody remembers. */
const LONGEST_PAST = 200;

export const freshHistory = (now: Draft): DraftHistory => ({ past: [], now, future: [], field: null });

/** The next state. An edit in the same field as the one before joins it; an edit that changes nothing is none. */
export function edited(history: DraftHistory, next: Draft, field: string): DraftHistory {
  if (sameJson(history.now, next)) return history;
  const goesOn = history.field === field && history.future.length === 0 && history.past.length > 0;
  const past = goesOn ? history.past : [...history.past, history.now].slice(-LONGEST_PAST);
  return { past, now: next, future: [], field };
}

/** Ends the present edit: what is typed next, even in the same field, is undone on its own. */
export const settled = (history: DraftHistory): DraftHistory =>
  history.field === null ? history : { ...history, field: null };

export function undone(history: DraftHistory): DraftHistory {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { past: history.past.slice(0, -1), now: before, future: [history.now, ...history.future], field: null };
}

export function redone(history: DraftHistory): DraftHistory {
  const [next, ...future] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.now], now: next, future, field: null };
}

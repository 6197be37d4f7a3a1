import { type Json, sameJson } from './draft.ts';

/** Something that is being edited, with what it was before and what was undone. Plain data only. */
export interface EditHistory<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** The field that the last edit was made in; going on in it is one edit. Null after anything else. */
  readonly field: string | null;
}

/** Older states are forgotten; two hundred edits back is farther than anybody remembers. */
const LONGEST_PAST = 200;

export const freshHistory = <T>(now: T): EditHistory<T> => ({ past: [], now, future: [], field: null });

/** The next state. An edit in the same field as the one before joins it; an edit that changes nothing is none. */
export function edited<T>(history: EditHistory<T>, next: T, field: string): EditHistory<T> {
  if (sameJson(history.now as Json, next as Json)) return history;
  const goesOn = history.field === field && history.future.length === 0 && history.past.length > 0;
  const past = goesOn ? history.past : [...history.past, history.now].slice(-LONGEST_PAST);
  return { past, now: next, future: [], field };
}

/** Ends the present edit: what comes next, even in the same field, is undone on its own. */
export const settled = <T>(history: EditHistory<T>): EditHistory<T> =>
  history.field === null ? history : { ...history, field: null };

export function undone<T>(history: EditHistory<T>): EditHistory<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { past: history.past.slice(0, -1), now: before, future: [history.now, ...history.future], field: null };
}

export function redone<T>(history: EditHistory<T>): EditHistory<T> {
  const [next, ...future] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.now], now: next, future, field: null };
}

import { create } from 'zustand';
import type { AttemptSummary, ClassGroup, Person } from '../../../src-main/ipc/contract.ts';
import type { Sorting } from './attempt-columns.ts';
import { type LogbookFilter, NO_FILTER } from './attempt-filter.ts';
import { faultWords, storeHost } from './store-host.ts';

export type LogbookTab = 'attempts' | 'curve' | 'class' | 'people' | 'outside' | 'machine';

/** What is open in the list's place. */
export type OpenPage =
  | { readonly kind: 'list' }
  | { readonly kind: 'attempt'; readonly id: string }
  | { readonly kind: 'replay'; readonly id: string; readonly step: number }
  | { readonly kind: 'compare'; readonly ids: readonly [string, string] };

export const LIST: OpenPage = { kind: 'list' };

export interface LogbookState {
  readonly tab: LogbookTab;
  readonly page: OpenPage;
  readonly filter: LogbookFilter;
  readonly sorting: Sorting;
  readonly people: readonly Person[];
  readonly classes: readonly ClassGroup[];
  /** Newest first. */
  readonly attempts: readonly AttemptSummary[];
  /** True when the store holds more than were asked for. */
  readonly cutOff: boolean;
  readonly state: 'loading' | 'ready' | 'failed';
  readonly problem: string | null;
  /** Attempts ticked in the list. */
  readonly ticked: ReadonlySet<string>;
}

/** Most attempts that the list takes in at once. */
export const MOST_ATTEMPTS = 5000;

export const useLogbook = create<LogbookState>(() => ({
  tab: 'attempts',
  page: LIST,
  filter: NO_FILTER,
  sorting: { column: 'when', descending: true },
  people: [],
  classes: [],
  attempts: [],
  cutOff: false,
  state: 'loading',
  problem: null,
  ticked: new Set(),
}));

let asked = 0;

/** Reads people, classes and attempts anew; the list stands until they are there. */
export async function loadLogbook(): Promise<void> {
  asked += 1;
  const mine = asked;
  try {
    const host = storeHost();
    const { cutOff, filter } = useLogbook.getState();
    const [people, classes, attempts] = await Promise.all([
      host.listPeople(),
      host.listClasses(),
      host.listAttempts({ ...(cutOff ? askedOfStore(filter) : {}), limit: MOST_ATTEMPTS }),
    ]);
    if (mine !== asked) return;
    const known = new Set(attempts.map(({ id }) => id));
    const ticked = new Set([...useLogbook.getState().ticked].filter((id) => known.has(id)));
    const full = attempts.length >= MOST_ATTEMPTS || cutOff;
    useLogbook.setState({ people, classes, attempts, ticked, cutOff: full, state: 'ready', problem: null });
  } catch (fault) {
    if (mine === asked) useLogbook.setState({ state: 'failed', problem: faultWords(fault) });
  }
}

/** A store with more than the list takes in is asked for a part of it only. Days are widened by one for time zones. */
function askedOfStore({ personId, classId, scenarioId, place, since, until }: LogbookFilter) {
  const day = (text: string, by: number) => new Date(Date.parse(text) + by * 86_400_000).toISOString();
  return {
    ...(personId === null ? {} : { personId }),
    ...(classId === null ? {} : { classId }),
    ...(scenarioId === null ? {} : { scenarioId }),
    ...(place === null ? {} : { place }),
    ...(since === '' ? {} : { since: day(since, -1) }),
    ...(until === '' ? {} : { until: day(until, 2) }),
  };
}

export function setFilter(change: Partial<LogbookFilter>): void {
  const { filter, cutOff } = useLogbook.getState();
  useLogbook.setState({ filter: { ...filter, ...change } });
  if (cutOff) void loadLogbook();
}

export const showTab = (tab: LogbookTab): void => useLogbook.setState({ tab, page: LIST });
export const openPage = (page: OpenPage): void => useLogbook.setState({ tab: 'attempts', page });

export function tick(ids: readonly string[], on: boolean): void {
  const ticked = new Set(useLogbook.getState().ticked);
  for (const id of ids) {
    if (on) ticked.add(id);
    else ticked.delete(id);
  }
  useLogbook.setState({ ticked });
}

/** Puts a changed line in the place of the old one. */
export function noteSummary(summary: AttemptSummary): void {
  const { attempts } = useLogbook.getState();
  useLogbook.setState({ attempts: attempts.map((one) => (one.id === summary.id ? summary : one)) });
}

/** Takes an errand: "<id>" or "attempt:<id>", "replay:<id>", "compare:<id>:<id>", "tab:<name>". */
export function takeErrand(errand: string | null): void {
  if (errand === null || errand === '') return;
  const [kind, ...rest] = errand.split(':');
  const [first = '', second = ''] = rest;
  if (rest.length === 0) openPage({ kind: 'attempt', id: kind });
  else if (kind === 'attempt') openPage({ kind: 'attempt', id: first });
  else if (kind === 'replay') openPage({ kind: 'replay', id: first, step: Number(second) || 0 });
  else if (kind === 'compare') openPage({ kind: 'compare', ids: [first, second] });
  else if (kind === 'tab') showTab(first as LogbookTab);
}

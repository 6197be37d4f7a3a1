import { useEffect, useState } from 'react';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { replayToEnd } from '../../worker/replay-client.ts';
import type { ReplayEnd } from '../../worker/replay-messages.ts';
import { noteSummary } from './logbook-store.ts';
import { faultWords, storeHost } from './store-host.ts';

/** Ends of replays that were computed since the page was opened; small, so that a few hundred may stay. */
const known = new Map<string, ReplayEnd>();
const MOST_KNOWN = 300;

export interface AttemptReplay {
  readonly share: number;
  readonly end: ReplayEnd | null;
  readonly fault: string | null;
}

/** Tells the store what a replay gave, and puts the changed line into the list. */
export async function noteReplayed({ summary }: StoredAttempt, { result }: ReplayEnd): Promise<void> {
  if (summary.digest === null) return;
  const replay = await storeHost().noteReplay(summary.id, result.digest);
  noteSummary({ ...summary, replay });
}

/** Plays an attempt again beside the page, for its costly moments and to prove it; once, then it is remembered. */
export function useAttemptReplay(stored: StoredAttempt | null): AttemptReplay {
  const [state, setState] = useState<AttemptReplay>({ share: 0, end: null, fault: null });
  useEffect(() => {
    if (stored === null) return;
    const id = stored.summary.id;
    const before = known.get(id);
    if (before !== undefined) return setState({ share: 1, end: before, fault: null });
    const stop = new AbortController();
    const replayed = { scenario: stored.scenario, seed: stored.summary.seed, commands: stored.commands };
    setState({ share: 0, end: null, fault: null });
    replayToEnd(replayed, stop.signal, (share) => setState((now) => ({ ...now, share })))
      .then(async (end) => {
        if (known.size >= MOST_KNOWN) known.clear();
        known.set(id, end);
        setState({ share: 1, end, fault: null });
        await noteReplayed(stored, end);
      })
      .catch((fault: unknown) => {
        if (!stop.signal.aborted) setState((now) => ({ ...now, fault: faultWords(fault) }));
      });
    return () => stop.abort();
  }, [stored]);
  return state;
}

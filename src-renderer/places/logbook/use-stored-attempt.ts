import { useEffect, useState } from 'react';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { noteSummary } from './logbook-store.ts';
import { faultWords, storeHost } from './store-host.ts';

export interface Loading {
  readonly stored: StoredAttempt | null;
  readonly problem: string | null;
}

/** An attempt with its commands; the store looks at its seal on the way. */
export function useStoredAttempt(id: string): Loading {
  const [loading, setLoading] = useState<Loading>({ stored: null, problem: null });
  useEffect(() => {
    let wanted = true;
    setLoading({ stored: null, problem: null });
    Promise.resolve()
      .then(() => storeHost().loadAttempt(id))
      .then(
        (stored) => {
          if (!wanted) return;
          noteSummary(stored.summary);
          setLoading({ stored, problem: null });
        },
        (fault: unknown) => wanted && setLoading({ stored: null, problem: faultWords(fault) }),
      );
    return () => {
      wanted = false;
    };
  }, [id]);
  return loading;
}

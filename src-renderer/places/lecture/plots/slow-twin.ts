import { useEffect, useState } from 'react';
import type { TwinState } from '../contract.ts';
import { useTwin } from '../twin/twin-store.ts';

/** At most ten times a second: drawing plots may not slow the eyes down. */
const EVERY_ms = 100;

/** The state of the pair, renewed at most ten times a second; the last state always comes through. */
export function useSlowTwin(): TwinState {
  const [state, setState] = useState(useTwin.getState);
  useEffect(() => {
    let due: ReturnType<typeof setTimeout> | null = null;
    const later = () => {
      due ??= setTimeout(() => {
        due = null;
        setState(useTwin.getState());
      }, EVERY_ms);
    };
    later();
    const stop = useTwin.subscribe(later);
    return () => {
      stop();
      if (due !== null) clearTimeout(due);
    };
  }, []);
  return state;
}

/** Both eyes, or the one there is. */
export const eyesOf = ({ left, right }: Pick<TwinState, 'left' | 'right'>) =>
  [left, right].filter((eye) => eye !== null);

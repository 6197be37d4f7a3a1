import { useEffect } from 'react';
import { clockTime } from '../../ui/format.ts';
import type { AttemptSession } from '../bench/attempt-session.ts';
import { useTrial } from './trial-store.ts';

/** While a trial runs: a lost focus is noted, and closing the window asks first. */
export function useTrialGuards(session: AttemptSession): void {
  const working = useTrial((state) => state.phase === 'working');
  useEffect(() => {
    if (!working) return;
    const blurred = () => {
      const time_s = session.store.getState().view?.time_s ?? 0;
      session.note(`The window lost the focus at ${clockTime(time_s)}; the clock ran on`);
    };
    const closing = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener('blur', blurred);
    window.addEventListener('beforeunload', closing);
    return () => {
      window.removeEventListener('blur', blurred);
      window.removeEventListener('beforeunload', closing);
    };
  }, [working, session]);
}

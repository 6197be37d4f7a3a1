import { useEffect } from 'react';
import { t } from '../../i18n/text.ts';
import { clockTime } from '../../ui/format.ts';
import type { AttemptSession } from '../bench/attempt-session.ts';
import { useTrial } from './trial-store.ts';

/** A window of the program closes without a word or not at all; only a browser asks by itself. */
const asksByItself = !navigator.userAgent.includes('Electron/');

/**
 * While a trial runs: a lost focus is noted, and closing the window asks first.
 * @param closing asks the person where the window does not; must stay the same from call to call
 */
export function useTrialGuards(session: AttemptSession, closing: () => void): void {
  const working = useTrial((state) => state.phase === 'working');
  useEffect(() => {
    if (!working) return;
    const blurred = () => {
      const time_s = session.store.getState().view?.time_s ?? 0;
      session.note(t('trial.work.lostFocus', { time: clockTime(time_s) }));
    };
    const unloading = (event: BeforeUnloadEvent) => {
      event.preventDefault();
      if (!asksByItself) closing();
    };
    window.addEventListener('blur', blurred);
    window.addEventListener('beforeunload', unloading);
    return () => {
      window.removeEventListener('blur', blurred);
      window.removeEventListener('beforeunload', unloading);
    };
  }, [working, session, closing]);
}

/** Closes the window once the ended trial is in the logbook; where it cannot be kept, the window stays and says so. */
export function closeWhenKept({ store }: AttemptSession): void {
  const stop = store.subscribe(({ keeping }) => {
    if (keeping.state !== 'finished') return;
    stop();
    window.close();
  });
}

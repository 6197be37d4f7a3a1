import { useEffect, useState } from 'react';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { COUNTDOWN_s, closeTrial, runTrial, useTrial } from './trial-store.ts';

/** Three, two, one over the stage, once the eye is ready. Until its end the trial can be called off without a trace. */
export function Countdown() {
  const counting = useTrial((state) => state.phase === 'counting');
  const ready = useSession((state) => state.view !== null);
  const [left, setLeft] = useState(COUNTDOWN_s);
  useEffect(() => {
    if (!counting || !ready) return;
    const timer = window.setTimeout(() => (left > 1 ? setLeft(left - 1) : runTrial()), 1000);
    return () => window.clearTimeout(timer);
  }, [counting, ready, left]);
  useEffect(() => {
    if (!counting) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.key === 'Escape') closeTrial();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [counting]);
  if (!counting) return null;
  return (
    <div className="stage-note countdown" data-testid="countdown">
      <p className="countdown-number" role="status">
        {ready ? left : t('trial.countdown.preparing')}
      </p>
      <p>{t('trial.countdown.startsAtEnd')}</p>
      <button type="button" onClick={closeTrial} data-testid="call-off">
        {t('trial.countdown.callOff')} <kbd>{'Esc'}</kbd>
      </button>
    </div>
  );
}

import { useCallback, useEffect, useRef, useState } from 'react';
import { askBeforeLeaving } from '../../stores/place-store.ts';
import { useSession } from '../../stores/session-store.ts';
import { clockTime } from '../../ui/format.ts';
import { SessionVoice } from '../../ui/StageVoice.tsx';
import type { AttemptSession } from '../bench/attempt-session.ts';
import { EyeCard } from '../bench/EyeCard.tsx';
import { StageView } from '../bench/StageView.tsx';
import { Strip } from '../bench/Strip.tsx';
import { TipCard } from '../bench/TipCard.tsx';
import { useAttemptKeys } from '../bench/use-attempt-keys.ts';
import { useFittingCards } from '../bench/use-fitting-cards.ts';
import '../bench/bench.css';
import { Trans } from 'react-i18next';
import { t } from '../../i18n/text.ts';
import { Countdown } from './Countdown.tsx';
import { useTrial } from './trial-store.ts';
import { closeWhenKept, useTrialGuards } from './use-trial-guards.ts';

/** The stage under the rules of a trial. */
export function TrialAtWork({ session }: { readonly session: AttemptSession }) {
  useAttemptKeys(session);
  useFittingCards();
  const working = useTrial((state) => state.phase === 'working');
  const dialog = useRef<HTMLDialogElement>(null);
  const [goOn, setGoOn] = useState<(() => void) | null>(null);
  const ask = useCallback((leave: () => void) => {
    setGoOn(() => leave);
    if (dialog.current?.open === false) dialog.current.showModal();
  }, []);
  const askToClose = useCallback(() => ask(() => closeWhenKept(session)), [ask, session]);
  useTrialGuards(session, askToClose);
  useEffect(() => (working ? askBeforeLeaving(ask) : undefined), [working, ask]);
  const end = () => {
    session.end();
    goOn?.();
  };
  return (
    <div className="bench">
      <EyeCard session={session}>
        <h2 className="trial-title">{t('trial.work.title')}</h2>
        <TrialClock />
      </EyeCard>
      <StageView session={session}>
        <Countdown />
      </StageView>
      <TipCard />
      <Strip session={session}>
        <button
          type="button"
          data-testid="end-trial"
          disabled={!working}
          onClick={() => {
            setGoOn(null);
            dialog.current?.showModal();
          }}
        >
          {t('trial.work.end')}
        </button>
      </Strip>
      <SessionVoice />
      <dialog ref={dialog} aria-label={t('trial.work.askEnd')} data-testid="leave-trial">
        <h2>{t('trial.work.askEnd')}</h2>
        <p>{t('trial.work.leftOpen')}</p>
        <form method="dialog" className="buttons">
          <button type="submit" className="first" data-testid="stay">
            {t('trial.work.goOn')}
          </button>
          <button type="submit" data-testid="end-it" onClick={end}>
            {t(goOn === null ? 'trial.work.endIt' : 'trial.work.endAndLeave')}
          </button>
        </form>
      </dialog>
    </div>
  );
}

/** What is left of the time. */
function TrialClock() {
  const limit_s = useSession((state) => state.scenario?.timeLimit_s ?? 0);
  const time_s = useSession((state) => state.view?.time_s ?? 0);
  return (
    <p className="trial-clock" data-testid="time-left">
      <Trans
        i18nKey="trial.work.left"
        values={{ time: clockTime(Math.max(0, limit_s - time_s)) }}
        components={{ b: <b /> }}
      />
    </p>
  );
}

import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { number } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';
import { takeUpBench } from './bench-errands.ts';

/** Covers the stage while a recorded attempt is played up to the moment from which the hand goes on. */
export function Replaying({ session }: { readonly session: AttemptSession }) {
  const replaying = useSession((state) => state.replaying);
  if (replaying === null) return null;
  const { done, of } = replaying;
  const cancel = () => {
    session.stopReplaying();
    if (session.store.getState().attempt === 0) void takeUpBench(session);
  };
  return (
    <div className="stage-note" role="status" data-testid="replaying">
      <p>{t('bench.replaying.what')}</p>
      <progress max={Math.max(1, of)} value={done} aria-label={t('bench.replaying.played')} />
      <p>
        {t('bench.replaying.share', {
          percent: number((100 * done) / Math.max(1, of), 0),
          seconds: number(of / 60, 1),
        })}
      </p>
      <button type="button" onClick={cancel} data-testid="stop-replaying">
        {t('bench.replaying.stop')}
      </button>
    </div>
  );
}

import type { ReactNode } from 'react';
import type { WorldEvent } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import type { Keeping } from '../../stores/attempt-keeper.ts';
import { type SessionState, useSession } from '../../stores/session-store.ts';
import { Explained } from '../../ui/Explained.tsx';
import { clockTime, number, quantity } from '../../ui/format.ts';
import { eventWords } from '../../ui/words.ts';
import type { AttemptSession } from './attempt-session.ts';

/** Below this share of real time the strip says that simulated time is slowed. */
const SLOWED = 0.9;
const LATEST = 30;

function statusWords({ fault, view, paused, wasAway, pace, begun, result, place }: SessionState): string {
  const trial = place === 'trial';
  if (fault !== null) return t(trial ? 'bench.strip.faultInTrial' : 'bench.strip.fault', { fault });
  if (view === null) return t('bench.strip.preparing');
  if (result !== null) return t('bench.strip.ended');
  if (paused) return wasAway ? t('bench.strip.wasAway') : t('bench.strip.paused');
  if (!begun) return trial ? t('bench.strip.readyInTrial') : t('bench.strip.ready');
  if (view.stalled) return t('bench.strip.stalled');
  if (view.phase === 'relaxing') return t('bench.strip.relaxing');
  if (pace < SLOWED) return t('bench.strip.slowed', { pace: number(100 * pace, 0) });
  return t('bench.strip.real');
}

/** Rests between two runs of the tear say nothing that the next line does not. */
const worthTelling = (event: WorldEvent): boolean => event.kind !== 'tear-stops';

/** Whether what is done here is kept, as a line; nothing while there is nothing to say. */
function keepingWords(keeping: Keeping): string | null {
  if (keeping.state === 'kept') return t('bench.strip.kept');
  if (keeping.state === 'not-kept') return t('bench.strip.notKept', { why: keeping.why });
  return keeping.state === 'finished' ? t('bench.strip.inLogbook') : null;
}

/** How far the attempt is, how the machine keeps up, and what happened. */
export function Strip({
  session,
  children,
}: {
  readonly session: AttemptSession;
  /** What else may be done with the attempt here. */
  readonly children?: ReactNode;
}) {
  const state = useSession((all) => all);
  const { view, events, paused, result, replaying, scenario, place, notes } = state;
  const pausing = place === 'bench' || scenario?.trial?.pause === true;
  const kept = keepingWords(state.keeping);
  const time = clockTime(view?.time_s ?? 0);
  const limit = place === 'trial' && scenario !== null ? clockTime(scenario.timeLimit_s).slice(0, -2) : null;
  const told = events.filter(worthTelling).slice(-LATEST).reverse();
  return (
    <section className="strip" aria-label={t('bench.strip.label')}>
      <div className="strip-now">
        {pausing ? (
          <button
            type="button"
            onClick={() => session.pause(!paused)}
            disabled={result !== null || replaying !== null}
            aria-pressed={paused}
            data-testid="pause"
          >
            {paused ? t('bench.strip.goOn') : t('bench.strip.pause')} <kbd>Space</kbd>
          </button>
        ) : (
          <span className="status">{t('bench.strip.noPause')}</span>
        )}
        {children}
        <span className="figure">
          <Explained of="attemptTime">{limit === null ? time : t('bench.strip.timeOf', { time, limit })}</Explained>
        </span>
        <span className="figure" data-testid="torn">
          <Explained of="torn">{t('bench.strip.torn', { length: quantity(view?.torn_mm, 1, 'mm') })}</Explained>
        </span>
        <span className="figure" data-testid="grasps">
          <Explained of="grasps">
            {t('bench.strip.grasps', { count: view?.grasps ?? 0, grasps: number(view?.grasps, 0) })}
          </Explained>
        </span>
        <span className={state.fault === null ? 'status' : 'status status-whole'} data-testid="status" role="status">
          {statusWords(state)}
        </span>
        {state.fault !== null && place === 'bench' && view !== null && (
          <button type="button" onClick={() => session.goOn()} data-testid="go-on-after-fault">
            {t('bench.strip.goOnFromThere')}
          </button>
        )}
        {kept !== null && (
          <span
            className={state.keeping.state === 'not-kept' ? 'keeping keeping-not' : 'keeping'}
            data-testid="keeping"
            role="status"
          >
            {kept}
          </span>
        )}
      </div>
      {notes.length > 0 && (
        <p className="notes" data-testid="notes">
          {notes.join(' · ')}
        </p>
      )}
      <ol className="events" aria-label={t('bench.strip.events')}>
        {told.map((event, i) => (
          <li key={`${event.step}-${event.kind}-${told.length - i}`} className={`event event-${event.kind}`}>
            <time>{clockTime(event.time_s)}</time> {eventWords(event)}
          </li>
        ))}
      </ol>
    </section>
  );
}

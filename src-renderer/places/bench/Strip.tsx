import type { ReactNode } from 'react';
import type { WorldEvent } from '../../../physics/index.ts';
import type { Keeping } from '../../stores/attempt-keeper.ts';
import { type SessionState, useSession } from '../../stores/session-store.ts';
import { clockTime, number, quantity } from '../../ui/format.ts';
import { eventWords } from '../../ui/words.ts';
import type { AttemptSession } from './attempt-session.ts';

/** Below this share of real time the strip says that simulated time is slowed. */
const SLOWED = 0.9;
const LATEST = 30;

function statusWords({ fault, view, paused, wasAway, pace, begun, result, place }: SessionState): string {
  if (fault !== null) {
    const way =
      place === 'trial' ? 'Leave this trial and start another.' : 'Go on from where it stopped, or start over.';
    return `Stopped by a fault of the program: ${fault}. ${way}`;
  }
  if (view === null) return 'Preparing the eye';
  if (result !== null) return 'Ended';
  if (paused) return wasAway ? 'Paused while you were away' : 'Paused';
  if (!begun)
    return place === 'trial' ? 'Time starts with the countdown’s end' : 'Ready: time starts when the hand moves';
  if (view.stalled) return 'Stalled: last good state shown';
  if (view.phase === 'relaxing') return 'Opening relaxes';
  if (pace < SLOWED) return `Slowed: ${number(100 * pace, 0)} % of real time`;
  return 'In real time';
}

/** Rests between two runs of the tear say nothing that the next line does not. */
const worthTelling = (event: WorldEvent): boolean => event.kind !== 'tear-stops';

/** Whether what is done here is kept, as a line; nothing while there is nothing to say. */
function keepingWords(keeping: Keeping): string | null {
  if (keeping.state === 'kept') return 'Being kept';
  if (keeping.state === 'not-kept') return `Not being kept: ${keeping.why}. Trying again.`;
  return keeping.state === 'finished' ? 'Kept in the logbook' : null;
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
  const told = events.filter(worthTelling).slice(-LATEST).reverse();
  return (
    <section className="strip" aria-label="Attempt">
      <div className="strip-now">
        {pausing ? (
          <button
            type="button"
            onClick={() => session.pause(!paused)}
            disabled={result !== null || replaying !== null}
            aria-pressed={paused}
            data-testid="pause"
          >
            {paused ? 'Go on' : 'Pause'} <kbd>Space</kbd>
          </button>
        ) : (
          <span className="status">No pause</span>
        )}
        {children}
        <span className="figure" title="Time of the attempt">
          {clockTime(view?.time_s ?? 0)}
          {place === 'trial' && scenario !== null && ` of ${clockTime(scenario.timeLimit_s).slice(0, -2)}`}
        </span>
        <span className="figure" data-testid="torn">
          {quantity(view?.torn_mm, 1, 'mm')} torn
        </span>
        <span className="figure" data-testid="grasps">
          {number(view?.grasps, 0)} {view?.grasps === 1 ? 'grasp' : 'grasps'}
        </span>
        <span className="status" data-testid="status" role="status">
          {statusWords(state)}
        </span>
        {state.fault !== null && place === 'bench' && view !== null && (
          <button type="button" onClick={() => session.goOn()} data-testid="go-on-after-fault">
            Go on from there
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
      <ol className="events" aria-label="Events, latest first" aria-live="polite">
        {told.map((event, i) => (
          <li key={`${event.step}-${event.kind}-${told.length - i}`} className={`event event-${event.kind}`}>
            <time>{clockTime(event.time_s)}</time> {eventWords(event)}
          </li>
        ))}
      </ol>
    </section>
  );
}

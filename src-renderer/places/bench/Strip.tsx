import type { WorldEvent } from '../../../physics/index.ts';
import { type SessionState, useSession } from '../../stores/session-store.ts';
import { clockTime, number, quantity } from '../../ui/format.ts';
import { eventWords } from '../../ui/words.ts';
import type { BenchSession } from './bench-session.ts';

/** Below this share of real time the strip says that simulated time is slowed. */
const SLOWED = 0.9;
const LATEST = 30;

function statusWords({ fault, view, paused, pace, handSeen, result }: SessionState): string {
  if (fault !== null) return `Stopped by a fault of the program: ${fault}. Start over to go on.`;
  if (view === null) return 'Preparing the eye';
  if (result !== null) return 'Ended';
  if (paused) return 'Paused';
  if (!handSeen) return 'Ready: time starts when the hand moves';
  if (view.stalled) return 'Stalled: last good state shown';
  if (view.phase === 'relaxing') return 'Opening relaxes';
  if (pace < SLOWED) return `Slowed: ${number(100 * pace, 0)} % of real time`;
  return 'In real time';
}

/** Rests between two runs of the tear say nothing that the next line does not. */
const worthTelling = (event: WorldEvent): boolean => event.kind !== 'tear-stops';

/** How far the attempt is, how the machine keeps up, and what happened. */
export function Strip({ session }: { readonly session: BenchSession }) {
  const state = useSession();
  const { view, events, paused, result } = state;
  const told = events.filter(worthTelling).slice(-LATEST).reverse();
  return (
    <section className="strip" aria-label="Attempt">
      <div className="strip-now">
        <button type="button" onClick={() => session.pause(!paused)} disabled={result !== null} aria-pressed={paused}>
          {paused ? 'Go on' : 'Pause'} <kbd>Space</kbd>
        </button>
        <span className="figure" title="Time of the attempt">
          {clockTime(view?.time_s ?? 0)}
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
      </div>
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

import { type CostlyMoment, STEP_S } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { usePlace } from '../../stores/place-store.ts';
import { clockTime, number, quantity } from '../../ui/format.ts';
import type { AttemptReplay } from './attempt-replay.ts';
import { openPage } from './logbook-store.ts';

/** Steps shown before a moment begins, so that one sees it come: half a second. */
const BEFORE = Math.round(0.5 / STEP_S);

/** The five moments that cost most, each one a click from being seen or tried again. */
export function CostlyMoments({ stored, replay }: { readonly stored: StoredAttempt; readonly replay: AttemptReplay }) {
  return (
    <section aria-label="Moments that cost the most" data-testid="moments">
      <h3>Moments that cost the most</h3>
      <Found stored={stored} replay={replay} />
    </section>
  );
}

function Found({ stored, replay }: { readonly stored: StoredAttempt; readonly replay: AttemptReplay }) {
  const { end, share, fault } = replay;
  if (fault !== null) return <p className="log-missed">They could not be found: {fault}</p>;
  if (end === null)
    return (
      <p className="log-quiet">
        Playing the attempt again to find them: {number(100 * share, 0)} %{' '}
        <progress value={share} max={1} aria-label="Playing the attempt again" />
      </p>
    );
  if (end.moments.length === 0) return <p>Nothing in this attempt cost anything worth a word.</p>;
  return (
    <ol className="log-moments">
      {end.moments.map((moment) => (
        <Moment key={`${moment.kind}-${moment.from_s}`} moment={moment} id={stored.summary.id} />
      ))}
    </ol>
  );
}

function Moment({ moment, id }: { readonly moment: CostlyMoment; readonly id: string }) {
  const step = Math.max(0, Math.round(moment.from_s / STEP_S) - BEFORE);
  return (
    <li data-testid="moment">
      <p>
        <time>{clockTime(moment.from_s)}</time> {moment.sentence}
        {moment.cost > 0 && <small> Cost: {quantity(moment.cost, 2, moment.unit)}.</small>}
      </p>
      <span className="log-buttons">
        <button type="button" onClick={() => openPage({ kind: 'replay', id, step })}>
          Look
        </button>
        <button type="button" onClick={() => usePlace.getState().go('bench', `from:${id}:${step}`)}>
          Try from here
        </button>
      </span>
    </li>
  );
}

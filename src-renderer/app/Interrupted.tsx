import { useEffect, useState } from 'react';
import type { AttemptSummary } from '../../src-main/ipc/contract.ts';
import { usePlace } from '../stores/place-store.ts';
import { number } from '../ui/format.ts';

const STEPS_PER_s = 60;

/** Time of day for today, date and time for earlier. */
function startWords(iso: string): string {
  const at = new Date(iso);
  if (!Number.isFinite(at.getTime())) return 'an unknown time';
  const time = at.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  const today = at.toDateString() === new Date().toDateString();
  return today ? time : `${at.toLocaleDateString(undefined, { dateStyle: 'medium' })}, ${time}`;
}

/** Attempts that a closed window, a crash or a power cut interrupted are offered as they stand; none is lost silently. */
export function Interrupted() {
  const [attempts, setAttempts] = useState<readonly AttemptSummary[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    window.rimwardHost
      ?.unfinishedAttempts()
      .then(setAttempts)
      .catch((fault: unknown) => console.warn('unfinished attempts:', fault));
  }, []);
  const [attempt] = attempts;
  if (attempt === undefined) return null;
  const next = () => {
    setProblem(null);
    setAttempts(attempts.slice(1));
  };
  const drop = () =>
    window.rimwardHost
      ?.removeAttempt(attempt.id)
      .then(next)
      .catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault)));
  const watch = () => {
    next();
    usePlace.getState().go('logbook', `attempt:${attempt.id}`);
  };
  const what = attempt.place === 'trial' ? 'A trial' : 'An attempt';
  return (
    <section className="interrupted" role="status" data-testid="interrupted" data-attempt={attempt.id}>
      <p>
        {what} of {startWords(attempt.startedAt)} ({attempt.scenarioTitle}, {attempt.personName}) was interrupted after{' '}
        {number(attempt.steps / STEPS_PER_s, 0)} s of work. It is kept as it stands.
        {attempts.length > 1 && ` ${attempts.length - 1} more like it.`}
        {problem !== null && <b className="problems"> {problem}</b>}
      </p>
      <button type="button" onClick={watch} data-testid="watch-interrupted">
        See it in the logbook
      </button>
      <button type="button" onClick={() => void drop()} data-testid="drop-interrupted">
        Remove it for good
      </button>
      <button type="button" onClick={next} data-testid="later-interrupted">
        Ask me next time
      </button>
    </section>
  );
}

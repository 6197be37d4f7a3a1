import { useEffect, useState } from 'react';
import type { AttemptSummary } from '../../src-main/ipc/contract.ts';
import { faultText, textOf } from '../i18n/content.ts';
import { t, useLanguage } from '../i18n/text.ts';
import { usePlace } from '../stores/place-store.ts';
import { number } from '../ui/format.ts';

const STEPS_PER_s = 60;

/** Time of day for today, date and time for earlier. */
function startWords(iso: string): string {
  const language = `${useLanguage.getState().language}-u-nu-latn`;
  const at = new Date(iso);
  if (!Number.isFinite(at.getTime())) return t('common.interrupted.unknownTime');
  const time = at.toLocaleTimeString(language, { hour: '2-digit', minute: '2-digit' });
  const today = at.toDateString() === new Date().toDateString();
  return today ? time : `${at.toLocaleDateString(language, { dateStyle: 'medium' })}, ${time}`;
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
      .catch((fault: unknown) => setProblem(faultText(fault)));
  const watch = () => {
    next();
    usePlace.getState().go('logbook', `attempt:${attempt.id}`);
  };
  return (
    <section className="interrupted" role="status" data-testid="interrupted" data-attempt={attempt.id}>
      <p>
        {t(attempt.place === 'trial' ? 'common.interrupted.trial' : 'common.interrupted.attempt', {
          when: startWords(attempt.startedAt),
          eye: textOf(attempt.scenarioTitle),
          person: attempt.personName,
          seconds: number(attempt.steps / STEPS_PER_s, 0),
        })}
        {attempts.length > 1 && ` ${t('common.interrupted.more', { count: attempts.length - 1 })}`}
        {problem !== null && <b className="problems"> {problem}</b>}
      </p>
      <button type="button" onClick={watch} data-testid="watch-interrupted">
        {t('common.interrupted.see')}
      </button>
      <button type="button" onClick={() => void drop()} data-testid="drop-interrupted">
        {t('common.interrupted.remove')}
      </button>
      <button type="button" onClick={next} data-testid="later-interrupted">
        {t('common.interrupted.later')}
      </button>
    </section>
  );
}

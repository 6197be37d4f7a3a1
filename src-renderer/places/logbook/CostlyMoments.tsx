import { type CostlyMoment, STEP_S } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { momentSentence } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { clockTime, number, quantity } from '../../ui/format.ts';
import type { AttemptReplay } from './attempt-replay.ts';
import { openPage } from './logbook-store.ts';

/** Steps shown before a moment begins, so that one sees it come: half a second. */
const BEFORE = Math.round(0.5 / STEP_S);

/** The five moments that cost most, each one a click from being seen or tried again. */
export function CostlyMoments({ stored, replay }: { readonly stored: StoredAttempt; readonly replay: AttemptReplay }) {
  return (
    <section aria-label={t('logbook.moments.heading')} data-testid="moments">
      <h3>{t('logbook.moments.heading')}</h3>
      <Found stored={stored} replay={replay} />
    </section>
  );
}

function Found({ stored, replay }: { readonly stored: StoredAttempt; readonly replay: AttemptReplay }) {
  const { end, share, fault } = replay;
  if (fault !== null) return <p className="log-missed">{t('logbook.moments.failed', { fault })}</p>;
  if (end === null)
    return (
      <p className="log-quiet">
        {t('logbook.moments.finding', { percent: number(100 * share, 0) })}{' '}
        <progress value={share} max={1} aria-label={t('logbook.moments.playing')} />
      </p>
    );
  if (end.moments.length === 0) return <p>{t('logbook.moments.none')}</p>;
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
        <time>{clockTime(moment.from_s)}</time> {momentSentence(moment)}
        {moment.cost > 0 && (
          <small> {t('logbook.moments.cost', { cost: quantity(moment.cost, 2, moment.unit) })}</small>
        )}
      </p>
      <span className="log-buttons">
        <button
          type="button"
          aria-label={t('logbook.moments.lookAt', { time: clockTime(moment.from_s) })}
          onClick={() => openPage({ kind: 'replay', id, step })}
        >
          {t('logbook.moments.look')}
        </button>
        <button
          type="button"
          aria-label={t('logbook.moments.tryFromTime', { time: clockTime(moment.from_s) })}
          onClick={() => usePlace.getState().go('bench', `from:${id}:${step}`)}
        >
          {t('logbook.moments.tryFrom')}
        </button>
      </span>
    </li>
  );
}

import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { type AttemptResult, MODEL_VERSION, STEP_S, type WorldEvent } from '../../../../physics/index.ts';
import type { ReplayState as Sameness, StoredAttempt } from '../../../../src-main/ipc/contract.ts';
import { usePlace } from '../../../stores/place-store.ts';
import { clockTime, number } from '../../../ui/format.ts';
import { ProgramLine } from '../../../ui/ProgramLine.tsx';
import { eventWords } from '../../../ui/words.ts';
import { attemptTitle } from '../attempt-words.ts';
import { noteSummary, openPage } from '../logbook-store.ts';
import { faultWords, storeHost } from '../store-host.ts';
import { useStoredAttempt } from '../use-stored-attempt.ts';
import { marksOf } from './event-marks.ts';
import { ReplayStage } from './ReplayStage.tsx';
import { ReplayTip } from './ReplayTip.tsx';
import { ReplayPlayer } from './replay-player.ts';
import { Transport } from './Transport.tsx';
import { useReplayKeys } from './use-replay-keys.ts';
import './replay.css';
import { t } from '../../../i18n/text.ts';

/** An attempt computed again from its commands, to be looked at moment by moment with every aid on. */
export function ReplayPage({ id, step }: { readonly id: string; readonly step: number }) {
  const { stored, problem } = useStoredAttempt(id);
  const back = () => openPage({ kind: 'attempt', id });
  if (problem !== null)
    return (
      <div className="log-failed" role="alert">
        <p>
          <ProgramLine line={problem} />
        </p>
        <button type="button" onClick={back}>
          {t('logbook.does.back')}
        </button>
      </div>
    );
  if (stored === null) return <p className="log-quiet">{t('logbook.reading.attempt')}</p>;
  return <Replay stored={stored} from_step={step} onBack={back} />;
}

/** What the comparison with the stored digest came to. */
type Verdict = { readonly state: Sameness | 'nothing-to-compare'; readonly note: string | null };

/** Tells the store what the replay gave, and hears what the store makes of it. */
async function compared(stored: StoredAttempt, result: AttemptResult): Promise<Verdict> {
  const { summary } = stored;
  if (summary.digest === null) return { state: 'nothing-to-compare', note: null };
  const same = result.digest === summary.digest;
  try {
    const state = await storeHost().noteReplay(summary.id, result.digest);
    noteSummary({ ...summary, replay: state });
    return { state, note: null };
  } catch (fault) {
    return { state: same ? 'same' : 'different', note: t('logbook.replay.notNoted', { fault: faultWords(fault) }) };
  }
}

function Replay({
  stored,
  from_step,
  onBack,
}: {
  readonly stored: StoredAttempt;
  readonly from_step: number;
  readonly onBack: () => void;
}) {
  const [player, setPlayer] = useState<ReplayPlayer | null>(null);
  const [verdict, setVerdict] = useState<Verdict | null>(null);
  useEffect(() => {
    const { scenario, summary, commands } = stored;
    const made = new ReplayPlayer({ scenario, seed: summary.seed, commands }, from_step, (result) => {
      void compared(stored, result).then(setVerdict);
    });
    setPlayer(made);
    return () => made.close();
  }, [stored]);
  return player === null ? null : <OpenReplay player={player} stored={stored} verdict={verdict} onBack={onBack} />;
}

function OpenReplay({
  player,
  stored,
  verdict,
  onBack,
}: {
  readonly player: ReplayPlayer;
  readonly stored: StoredAttempt;
  readonly verdict: Verdict | null;
  readonly onBack: () => void;
}) {
  const { geometry, view, step, events } = useStore(player.store);
  useReplayKeys(player);
  const told = stored.result?.events ?? events;
  const tryFrom = () => usePlace.getState().go('bench', `from:${stored.summary.id}:${step}`);
  return (
    <div className="log-replay" data-testid="replay">
      <header className="log-head">
        <button type="button" onClick={onBack} data-testid="replay-back">
          {t('logbook.replay.back')}
        </button>
        <h2>{t('logbook.replay.heading', { attempt: attemptTitle(stored.summary) })}</h2>
        <span className="log-space" />
        <button type="button" onClick={tryFrom} data-testid="try-from" title={t('logbook.replay.tryFromTitle')}>
          {t('logbook.replay.tryFrom', { time: clockTime(step * STEP_S) })}
        </button>
      </header>
      <SamenessLine player={player} stored={stored} verdict={verdict} />
      {geometry === null ? (
        <p className="log-quiet">{t('logbook.replay.preparing')}</p>
      ) : (
        <ReplayStage player={player} scenario={stored.scenario} geometry={geometry} />
      )}
      <aside className="log-side" aria-label={t('logbook.replay.atThisMoment')}>
        <ReplayTip view={view} centre_mm={geometry?.target.centre_mm ?? [0, 0]} />
        <EventList events={told} step={step} seek={(at) => player.seek(at)} />
      </aside>
      <Transport player={player} events={told} />
    </div>
  );
}

const SAME_WORDS = {
  same: 'same',
  different: 'different',
  'not-tried': 'notTried',
  'nothing-to-compare': 'nothingToCompare',
} as const satisfies Readonly<Record<Verdict['state'], string>>;

/** What the comparison came to, in whole sentences. */
function verdictWords({ state, note }: Verdict, madeWith: string): string {
  const other = state === 'different' && madeWith !== MODEL_VERSION;
  return [
    t(`logbook.replay.${SAME_WORDS[state]}`),
    other ? t('logbook.replay.otherModel', { made: madeWith, here: MODEL_VERSION }) : '',
    note ?? '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

function SamenessLine({
  player,
  stored,
  verdict,
}: {
  readonly player: ReplayPlayer;
  readonly stored: StoredAttempt;
  readonly verdict: Verdict | null;
}) {
  const { phase, done, of, fault, result } = useStore(player.store);
  if (phase === 'computing')
    return (
      <p className="log-same" role="status">
        <progress value={done} max={Math.max(1, of)} aria-label={t('logbook.replay.computing')} />
        <span data-testid="replay-progress">
          {t('logbook.replay.progress', { percent: number((100 * done) / Math.max(1, of), 0) })}
        </span>
        <button type="button" onClick={() => player.stopComputing()} data-testid="replay-stop">
          {t('logbook.does.stop')}
        </button>
      </p>
    );
  const words =
    phase === 'fault'
      ? t('logbook.replay.fault', { fault })
      : phase === 'stopped'
        ? t('logbook.replay.stoppedAfter', { time: clockTime(done * STEP_S) })
        : verdict === null
          ? t('logbook.replay.comparing')
          : verdictWords(verdict, stored.summary.modelVersion);
  return (
    <p className="log-same" role="status" data-testid="sameness" data-state={verdict?.state ?? phase}>
      {words}
      {result !== null && <small> {t('logbook.replay.digest', { digest: result.digest })}</small>}
    </p>
  );
}

function EventList({
  events,
  step,
  seek,
}: {
  readonly events: readonly WorldEvent[];
  readonly step: number;
  readonly seek: (step: number) => void;
}) {
  const marks = marksOf(events);
  const now = marks.findLastIndex(({ event }) => event.step <= step);
  return (
    <section aria-label={t('logbook.replay.events')}>
      <h3>{t('logbook.replay.happened')}</h3>
      {marks.length === 0 && <p className="log-quiet">{t('logbook.replay.nothing')}</p>}
      <ol className="log-events">
        {marks.map(({ event, weight }, at) => (
          <li key={`${event.step}-${event.kind}`}>
            <button
              type="button"
              className={weight === 'heavy' ? 'log-event log-event-heavy' : 'log-event'}
              aria-current={at === now ? 'step' : undefined}
              onClick={() => seek(event.step)}
              data-testid={`event-${event.kind}`}
            >
              <time>{clockTime(event.time_s)}</time> {eventWords(event)}
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

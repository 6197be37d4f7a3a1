import type { ReactNode } from 'react';
import { MODEL_VERSION } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { Explained } from '../../ui/Explained.tsx';
import { number, quantity } from '../../ui/format.ts';
import { endedWord, whenWords } from './attempt-columns.ts';
import type { AttemptReplay } from './attempt-replay.ts';
import { useLogbook } from './logbook-store.ts';

const SEAL_SENTENCE = { fits: 'sealFits', broken: 'sealBroken', unsealed: 'sealUnsealed' } as const;
const REPLAY_SENTENCE = { same: 'replaySame', different: 'replayDifferent', 'not-tried': 'replayNotTried' } as const;

const Fact = ({ label, children }: { readonly label: ReactNode; readonly children: ReactNode }) => (
  <div className="log-line">
    <dt>{label}</dt>
    <dd>{children}</dd>
  </div>
);

/** Where an attempt comes from, and whether it can be trusted. */
export function AttemptFacts({ stored, replay }: { readonly stored: StoredAttempt; readonly replay: AttemptReplay }) {
  // the line in the list is the fresher one once a replay was noted
  const listed = useLogbook((state) => state.attempts.find(({ id }) => id === stored.summary.id));
  const summary = listed ?? stored.summary;
  const bad = summary.seal === 'broken' || summary.replay === 'different';
  const running = replay.end === null && replay.fault === null;
  return (
    <section aria-label={t('logbook.facts.label')} data-testid="facts">
      <h3>{t('logbook.facts.heading')}</h3>
      <p className={summary.seal === 'broken' ? 'log-missed' : undefined} data-testid="seal" data-seal={summary.seal}>
        {t(`logbook.facts.${SEAL_SENTENCE[summary.seal]}`)}
      </p>
      <p className={bad ? 'log-missed' : undefined} data-testid="replay-state" data-replay={summary.replay}>
        {running && summary.replay === 'not-tried'
          ? t('logbook.facts.replayRunning', { percent: number(100 * replay.share, 0) })
          : t(`logbook.facts.${REPLAY_SENTENCE[summary.replay]}`)}{' '}
        {summary.replay === 'different' && summary.modelVersion !== MODEL_VERSION
          ? t('logbook.facts.otherModel', { made: summary.modelVersion, here: MODEL_VERSION })
          : ''}
      </p>
      <dl className="log-lines">
        <Fact label={t('logbook.facts.place')}>{t(`logbook.place.${summary.place}`)}</Fact>
        <Fact label={t('logbook.facts.ended')}>{endedWord(summary)}</Fact>
        <Fact label={t('logbook.facts.begun')}>{whenWords(summary.startedAt)}</Fact>
        <Fact label={<Explained of="attemptTime">{t('logbook.facts.lasted')}</Explained>}>
          {quantity(summary.steps / 60, 1, 's')}
        </Fact>
        <Fact label={t('logbook.facts.model')}>{summary.modelVersion}</Fact>
        <Fact label={t('logbook.facts.seed')}>{summary.seed}</Fact>
        <Fact label={t('logbook.facts.cameFrom')}>{summary.fromBundle ?? t('logbook.facts.thisMachine')}</Fact>
        <Fact label={t('logbook.facts.digest')}>
          <code>{summary.digest ?? '–'}</code>
        </Fact>
        <Fact label={t('logbook.facts.scenarioDigest')}>
          <code title={summary.scenarioDigest}>{summary.scenarioDigest.slice(0, 16)}…</code>
        </Fact>
      </dl>
    </section>
  );
}

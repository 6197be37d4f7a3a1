import type { ReactNode } from 'react';
import { MODEL_VERSION } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { number, quantity } from '../../ui/format.ts';
import { endedWord, whenWords } from './attempt-columns.ts';
import type { AttemptReplay } from './attempt-replay.ts';
import { useLogbook } from './logbook-store.ts';

const SEAL_SENTENCE = {
  fits: '✓ The seal fits: nothing in this attempt was changed since it was closed.',
  broken: '✕ The seal is broken: something was changed since it was closed. Do not rely on it.',
  unsealed: '– Not sealed: it was never closed.',
} as const;
const REPLAY_SENTENCE = {
  same: '✓ Played again, it gave the same opening.',
  different: '✕ Played again, it gave another opening.',
  'not-tried': '– Not played again yet.',
} as const;

const Fact = ({ label, children }: { readonly label: string; readonly children: ReactNode }) => (
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
    <section aria-label="Evidence" data-testid="facts">
      <h3>Can it be relied on?</h3>
      <p className={summary.seal === 'broken' ? 'log-missed' : undefined} data-testid="seal" data-seal={summary.seal}>
        {SEAL_SENTENCE[summary.seal]}
      </p>
      <p className={bad ? 'log-missed' : undefined} data-testid="replay-state" data-replay={summary.replay}>
        {running && summary.replay === 'not-tried'
          ? `Playing it again: ${number(100 * replay.share, 0)} %`
          : REPLAY_SENTENCE[summary.replay]}
        {summary.replay === 'different' && summary.modelVersion !== MODEL_VERSION
          ? ` It was made with model version ${summary.modelVersion}, this is ${MODEL_VERSION}.`
          : ''}
      </p>
      <dl className="log-lines">
        <Fact label="Place">{summary.place === 'trial' ? 'Trial' : 'Bench'}</Fact>
        <Fact label="Ended">{endedWord(summary)}</Fact>
        <Fact label="Begun">{whenWords(summary.startedAt)}</Fact>
        <Fact label="Lasted">{quantity(summary.steps / 60, 1, 's')}</Fact>
        <Fact label="Model version">{summary.modelVersion}</Fact>
        <Fact label="Seed">{summary.seed}</Fact>
        <Fact label="Came from">{summary.fromBundle ?? 'this machine'}</Fact>
        <Fact label="Digest">
          <code>{summary.digest ?? '–'}</code>
        </Fact>
        <Fact label="Digest of the scenario">
          <code title={summary.scenarioDigest}>{summary.scenarioDigest.slice(0, 16)}…</code>
        </Fact>
      </dl>
    </section>
  );
}

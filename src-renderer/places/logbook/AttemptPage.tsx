import { useState } from 'react';
import { type AttemptResult, stageGeometry, TEACHING_CAUTION } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { endedWords, runOutStory } from '../../ui/words.ts';
import { openingRows, workRows } from '../bench/metric-rows.ts';
import { Ask } from './Ask.tsx';
import { AttemptFacts } from './AttemptFacts.tsx';
import { useAttemptReplay } from './attempt-replay.ts';
import { attemptTitle } from './attempt-words.ts';
import { CompareWith } from './CompareWith.tsx';
import { CostlyMoments } from './CostlyMoments.tsx';
import { Graded } from './Graded.tsx';
import { exportBundle, fileNameOf } from './jobs.ts';
import { LIST, loadLogbook, noteSummary, openPage } from './logbook-store.ts';
import { DrawingLegend, OpeningDrawing, shapeOf } from './OpeningDrawing.tsx';
import { say, tryOrSay } from './save-text.ts';
import { storeHost } from './store-host.ts';
import { useStoredAttempt } from './use-stored-attempt.ts';

/** One attempt: what came of it beside what was wanted, what cost most, and what can be done with it. */
export function AttemptPage({ id, onBack }: { readonly id: string; readonly onBack: () => void }) {
  const { stored, problem } = useStoredAttempt(id);
  const replay = useAttemptReplay(stored);
  if (problem !== null)
    return (
      <div className="log-failed" role="alert">
        <h2>This attempt could not be read</h2>
        <p>{problem}</p>
        <button type="button" onClick={onBack}>
          Back to the list
        </button>
      </div>
    );
  if (stored === null) return <p className="log-quiet">Reading the attempt…</p>;
  const result = stored.result ?? replay.end?.result ?? null;
  return (
    <article className="log-attempt" data-testid="attempt-page">
      <header className="log-head">
        <button type="button" onClick={onBack} data-testid="back">
          ◀ All attempts
        </button>
        <h2>{attemptTitle(stored.summary)}</h2>
      </header>
      <AttemptButtons stored={stored} />
      {stored.summary.ended === null && <Unfinished stored={stored} result={result} />}
      <div className="log-columns">
        <Opening stored={stored} result={result} />
        <div className="log-column">
          {result !== null && <Outcome result={result} />}
          <CostlyMoments stored={stored} replay={replay} />
        </div>
        <div className="log-column">
          <AttemptFacts stored={stored} replay={replay} />
          {result !== null && <AllMetrics result={result} />}
          <p className="log-quiet">{result?.caution ?? TEACHING_CAUTION}</p>
        </div>
      </div>
    </article>
  );
}

function Opening({ stored, result }: { readonly stored: StoredAttempt; readonly result: AttemptResult | null }) {
  if (result === null) return <p className="log-quiet">The opening is being computed from the commands.</p>;
  const complete = result.outline_mm !== null;
  const name = complete ? 'relaxed opening' : 'torn margin';
  return (
    <figure className="log-figure-box">
      <OpeningDrawing
        geometry={stageGeometry(stored.scenario)}
        tolerances={stored.scenario.tolerances}
        shapes={[shapeOf(stored.summary.id, result, 'first', null)]}
        title={`The ${name} over the target circle, to scale`}
      />
      <DrawingLegend names={[name]} />
    </figure>
  );
}

function Outcome({ result }: { readonly result: AttemptResult }) {
  const story = runOutStory(result.events);
  return (
    <section aria-label="Result" data-testid="outcome" data-passed={String(result.passed)}>
      <p className={result.passed ? 'log-verdict log-met' : 'log-verdict log-missed'}>
        {result.passed
          ? '✓ All tolerances met'
          : result.ended === 'complete'
            ? '✕ Not all tolerances met'
            : '✕ No complete opening'}
      </p>
      <p>
        {endedWords(result.ended)} {story}
      </p>
      <Graded graded={result.graded} />
    </section>
  );
}

function AllMetrics({ result }: { readonly result: AttemptResult }) {
  const rows = [...(result.opening === null ? [] : openingRows(result.opening)), ...workRows(result.work)];
  return (
    <details className="log-details">
      <summary>All metrics</summary>
      <dl className="log-lines">
        {rows.map(({ key, label, text }) => (
          <div className="log-line" key={key}>
            <dt>{label}</dt>
            <dd data-testid={`metric-${key}`}>{text}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** An attempt that a crash or a closed window cut short. */
function Unfinished({ stored, result }: { readonly stored: StoredAttempt; readonly result: AttemptResult | null }) {
  const close = async (end: AttemptResult) => {
    const summary = await tryOrSay(() => storeHost().finishAttempt(stored.summary.id, end));
    if (summary === null) return;
    noteSummary(summary);
    say('Closed as it stands.');
    openPage(LIST);
  };
  return (
    <p className="log-warning" data-testid="unfinished">
      ⚠ This attempt was never closed, as after a power cut. What was done until then is all here.
      <button type="button" disabled={result === null} onClick={() => result !== null && void close(result)}>
        {result === null ? 'Working out how it stands…' : 'Close it as it stands'}
      </button>
    </p>
  );
}

function AttemptButtons({ stored }: { readonly stored: StoredAttempt }) {
  const [asking, setAsking] = useState(false);
  const { id } = stored.summary;
  const name = fileNameOf(attemptTitle(stored.summary));
  const report = async () => {
    const saved = await tryOrSay(() => storeHost().saveAttemptReport(id));
    if (saved !== null) say(`Saved as ${saved}.`);
  };
  const remove = async () => {
    setAsking(false);
    if (
      (await tryOrSay(() =>
        storeHost()
          .removeAttempt(id)
          .then(() => true),
      )) === null
    )
      return;
    await loadLogbook();
    openPage(LIST);
    say('The attempt was removed.');
  };
  return (
    <div className="log-buttons log-actions">
      <button type="button" onClick={() => openPage({ kind: 'replay', id, step: 0 })} data-testid="open-replay">
        ▶ Replay
      </button>
      <CompareWith summary={stored.summary} />
      <button
        type="button"
        onClick={() => void tryOrSay(() => storeHost().openAttemptReport(id))}
        data-testid="open-report"
      >
        Report to print
      </button>
      <button type="button" onClick={() => void report()} data-testid="save-report">
        Report as PDF
      </button>
      <button type="button" onClick={() => void exportBundle(name, [id])} data-testid="export-one">
        Export
      </button>
      <button type="button" onClick={() => setAsking(true)} data-testid="remove">
        Remove
      </button>
      {asking && (
        <Ask
          question="Remove this attempt for good?"
          yes="Remove it"
          onYes={() => void remove()}
          onNo={() => setAsking(false)}
        >
          <p>{attemptTitle(stored.summary)}. It cannot be brought back, except from a backup or a bundle.</p>
        </Ask>
      )}
    </div>
  );
}

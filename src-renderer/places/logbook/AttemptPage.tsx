import { useState } from 'react';
import { type AttemptResult, stageGeometry } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { ProgramLine } from '../../ui/ProgramLine.tsx';
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
import { MetricName } from './MetricName.tsx';
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
        <h2>{t('logbook.attempt.failed')}</h2>
        <p>
          <ProgramLine line={problem} />
        </p>
        <button type="button" onClick={onBack}>
          {t('logbook.attempt.backToList')}
        </button>
      </div>
    );
  if (stored === null) return <p className="log-quiet">{t('logbook.reading.attempt')}</p>;
  const result = stored.result ?? replay.end?.result ?? null;
  return (
    <article className="log-attempt" data-testid="attempt-page">
      <header className="log-head">
        <button type="button" onClick={onBack} data-testid="back">
          {t('logbook.attempt.all')}
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
          <p className="log-quiet">{t('common.caution')}</p>
        </div>
      </div>
    </article>
  );
}

function Opening({ stored, result }: { readonly stored: StoredAttempt; readonly result: AttemptResult | null }) {
  if (result === null) return <p className="log-quiet">{t('logbook.attempt.computing')}</p>;
  const complete = result.outline_mm !== null;
  const name = t(complete ? 'logbook.attempt.relaxedOpening' : 'logbook.attempt.tornMargin');
  return (
    <figure className="log-figure-box">
      <OpeningDrawing
        geometry={stageGeometry(stored.scenario)}
        tolerances={stored.scenario.tolerances}
        shapes={[shapeOf(stored.summary.id, result, 'first', null)]}
        title={t(complete ? 'logbook.attempt.relaxedDrawing' : 'logbook.attempt.tornDrawing')}
      />
      <DrawingLegend names={[name]} />
    </figure>
  );
}

function Outcome({ result }: { readonly result: AttemptResult }) {
  const story = runOutStory(result.events);
  return (
    <section aria-label={t('logbook.attempt.result')} data-testid="outcome" data-passed={String(result.passed)}>
      <p className={result.passed ? 'log-verdict log-met' : 'log-verdict log-missed'}>
        {t(
          result.passed
            ? 'logbook.attempt.allMet'
            : result.ended === 'complete'
              ? 'logbook.attempt.notAllMet'
              : 'logbook.attempt.notComplete',
        )}
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
      <summary>{t('logbook.attempt.allMetrics')}</summary>
      <dl className="log-lines">
        {rows.map(({ key, text }) => (
          <div className="log-line" key={key}>
            <dt>
              <MetricName of={key} />
            </dt>
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
    say(t('logbook.said.closed'));
    openPage(LIST);
  };
  return (
    <p className="log-warning" data-testid="unfinished">
      {t('logbook.attempt.unfinished')}
      <button type="button" disabled={result === null} onClick={() => result !== null && void close(result)}>
        {t(result === null ? 'logbook.attempt.workingOut' : 'logbook.attempt.close')}
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
    if (saved !== null) say(t('logbook.said.saved', { name: saved }));
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
    say(t('logbook.said.removed'));
  };
  return (
    <div className="log-buttons log-actions">
      <button type="button" onClick={() => openPage({ kind: 'replay', id, step: 0 })} data-testid="open-replay">
        {t('logbook.attempt.replay')}
      </button>
      <CompareWith summary={stored.summary} />
      <button
        type="button"
        onClick={() => void tryOrSay(() => storeHost().openAttemptReport(id))}
        data-testid="open-report"
      >
        {t('logbook.does.reportToPrint')}
      </button>
      <button type="button" onClick={() => void report()} data-testid="save-report">
        {t('logbook.does.reportAsPdf')}
      </button>
      <button type="button" onClick={() => void exportBundle(name, [id])} data-testid="export-one">
        {t('logbook.does.exportOne')}
      </button>
      <button type="button" onClick={() => setAsking(true)} data-testid="remove">
        {t('logbook.does.remove')}
      </button>
      {asking && (
        <Ask
          question={t('logbook.attempt.askRemove')}
          yes={t('logbook.does.removeIt')}
          onYes={() => void remove()}
          onNo={() => setAsking(false)}
        >
          <p>{t('logbook.attempt.cannotBringBack', { attempt: attemptTitle(stored.summary) })}</p>
        </Ask>
      )}
    </div>
  );
}

import type { AttemptResult } from '../../../physics/index.ts';
import { scenarioTitle } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { Explained } from '../../ui/Explained.tsx';
import { quantity } from '../../ui/format.ts';
import { endedWords, runOutStory } from '../../ui/words.ts';
import type { AttemptSession } from '../bench/attempt-session.ts';
import { KeptButtons } from '../bench/KeptButtons.tsx';
import { Moments } from '../bench/Moments.tsx';
import { gradedRows, openingRows, workRows } from '../bench/metric-rows.ts';
import { MetricTable } from '../bench/ResultCard.tsx';
import { DrawingLegend, OpeningDrawing, shapeOf } from '../logbook/OpeningDrawing.tsx';
import { Stored } from './Stored.tsx';
import { closeTrial, startTrial } from './trial-store.ts';

/** How a trial went: item by item, with the opening over what was asked for. */
export function TrialResult({ session }: { readonly session: AttemptSession }) {
  const result = useSession((state) => state.result);
  const scenario = useSession((state) => state.scenario);
  const notes = useSession((state) => state.notes);
  if (result === null || scenario === null) return null;
  return (
    <div className="trial-result" data-testid="trial-result" data-ended={result.ended}>
      <header>
        <h2>{t('trial.result.heading', { scenario: scenarioTitle(scenario) })}</h2>
        <Verdict result={result} />
        {notes.map((note) => (
          <p key={note} className="hint" data-testid="trial-note">
            {t('trial.result.note', { note })}
          </p>
        ))}
        <Stored />
        <div className="buttons">
          <KeptButtons />
          <button type="button" data-testid="try-again" onClick={() => startTrial(scenario)}>
            {t('trial.result.tryAgain')}
          </button>
          <button type="button" data-testid="another-trial" onClick={closeTrial}>
            {t('trial.result.another')}
          </button>
        </div>
        <p className="hint">{t('common.caution')}</p>
      </header>
      <Drawn session={session} result={result} />
      <div className="trial-items">
        <Items result={result} />
        <Moments />
        {result.opening !== null && (
          <MetricTable
            title={t('trial.result.relaxed', { target: quantity(scenario.target.diameter_mm, 1, 'mm') })}
            rows={openingRows(result.opening)}
            open={false}
          />
        )}
        <MetricTable title={t('trial.result.work')} rows={workRows(result.work)} open={false} />
      </div>
    </div>
  );
}

function Verdict({ result }: { readonly result: AttemptResult }) {
  const met = result.graded.filter((item) => item.met).length;
  const story = runOutStory(result.events);
  return (
    <>
      <p className={result.passed ? 'verdict met' : 'verdict missed'} data-testid="verdict">
        <span aria-hidden="true">{result.passed ? '✓' : '✕'}</span>{' '}
        {t(result.passed ? 'trial.result.passed' : 'trial.result.notPassed', { met, count: result.graded.length })}
      </p>
      <p>
        {endedWords(result.ended)} {story}
      </p>
    </>
  );
}

function Drawn({ session, result }: { readonly session: AttemptSession; readonly result: AttemptResult }) {
  const geometry = useSession((state) => state.geometry);
  const { scenario } = session.store.getState();
  if (geometry === null || scenario === null) return null;
  const complete = result.outline_mm !== null;
  return (
    <figure className="trial-drawing">
      <OpeningDrawing
        geometry={geometry}
        tolerances={scenario.tolerances}
        shapes={[shapeOf('trial', result, 'first', null)]}
        title={t(complete ? 'trial.result.drawnRelaxed' : 'trial.result.drawnMargin')}
      />
      <DrawingLegend names={[t(complete ? 'trial.result.theRelaxed' : 'trial.result.theMargin')]} />
    </figure>
  );
}

function Items({ result }: { readonly result: AttemptResult }) {
  const rows = gradedRows(result);
  if (rows.length === 0) return <p>{t('trial.result.noTolerances')}</p>;
  return (
    <ol className="trial-graded" aria-label={t('trial.result.tolerances')}>
      {rows.map((row) => (
        <li key={row.key} data-testid={`graded-${row.key}`} data-met={String(row.met)}>
          <span className={row.met ? 'mark met' : 'mark missed'}>
            <span aria-hidden="true">{row.met ? '✓' : '✕'}</span>{' '}
            {t(row.met ? 'trial.result.met' : 'trial.result.missed')}
          </span>
          <span className="what">
            {row.of === null ? row.label : <Explained of={row.of}>{row.label}</Explained>}
            <small>{row.reason}</small>
          </span>
          <b>{row.text}</b>
        </li>
      ))}
    </ol>
  );
}

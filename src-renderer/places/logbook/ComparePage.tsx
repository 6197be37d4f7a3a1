import { Trans } from 'react-i18next';
import { stageGeometry } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { ProgramLine } from '../../ui/ProgramLine.tsx';
import { passedWords } from './attempt-columns.ts';
import { attemptTitle } from './attempt-words.ts';
import { comparedMetrics } from './compared-metrics.ts';
import { openPage } from './logbook-store.ts';
import { MetricName } from './MetricName.tsx';
import { DrawingLegend, OpeningDrawing, shapeOf } from './OpeningDrawing.tsx';
import { useStoredAttempt } from './use-stored-attempt.ts';

/** What the two are called on the drawing and in the table, in every language. */
const [A, B] = ['A', 'B'];

/** Two attempts on one stage, and their metrics side by side. */
export function ComparePage({ ids, onBack }: { readonly ids: readonly [string, string]; readonly onBack: () => void }) {
  const a = useStoredAttempt(ids[0]);
  const b = useStoredAttempt(ids[1]);
  const problem = a.problem ?? b.problem;
  return (
    <article className="log-attempt" data-testid="compare-page">
      <header className="log-head">
        <button type="button" onClick={onBack} data-testid="back">
          {t('logbook.attempt.all')}
        </button>
        <h2>{t('logbook.compare.heading')}</h2>
      </header>
      {problem !== null && (
        <p className="log-missed" role="alert">
          <ProgramLine line={problem} />
        </p>
      )}
      {a.stored !== null && b.stored !== null ? (
        <Both a={a.stored} b={b.stored} />
      ) : (
        problem === null && <p className="log-quiet">{t('logbook.reading.attempts')}</p>
      )}
    </article>
  );
}

function Both({ a, b }: { readonly a: StoredAttempt; readonly b: StoredAttempt }) {
  if (a.result === null || b.result === null) return <p className="log-warning">{t('logbook.compare.unfinished')}</p>;
  const otherEye = a.summary.scenarioDigest !== b.summary.scenarioDigest;
  const shapes = [shapeOf('a', a.result, 'first', A), shapeOf('b', b.result, 'second', B)];
  return (
    <>
      {otherEye && <p className="log-warning">{t('logbook.compare.otherEye')}</p>}
      <div className="log-compare">
        <figure className="log-figure-box">
          <OpeningDrawing
            geometry={stageGeometry(a.scenario)}
            tolerances={a.scenario.tolerances}
            shapes={shapes}
            title={t('logbook.compare.drawing')}
          />
          <DrawingLegend names={[t('logbook.compare.solid'), t('logbook.compare.dashed')]} />
        </figure>
        <div className="log-compared">
          <Named letter={A} attempt={a} />
          <Named letter={B} attempt={b} />
        </div>
        <MetricsSideBySide a={a} b={b} />
      </div>
    </>
  );
}

function Named({ letter, attempt }: { readonly letter: string; readonly attempt: StoredAttempt }) {
  return (
    <p>
      <Trans
        i18nKey="logbook.compare.named"
        values={{ letter, attempt: attemptTitle(attempt.summary), passed: passedWords(attempt.summary.passed) }}
        components={{ b: <b /> }}
      />{' '}
      <button
        type="button"
        aria-label={t('logbook.compare.openLetter', { letter })}
        onClick={() => openPage({ kind: 'attempt', id: attempt.summary.id })}
      >
        {t('logbook.does.open')}
      </button>
    </p>
  );
}

function MetricsSideBySide({ a, b }: { readonly a: StoredAttempt; readonly b: StoredAttempt }) {
  if (a.result === null || b.result === null) return null;
  const rows = comparedMetrics(a.result, b.result, a.scenario.tolerances);
  return (
    <table className="log-table" data-testid="compare-table">
      <thead>
        <tr>
          <th scope="col">{t('logbook.compare.metric')}</th>
          <th scope="col">{t('logbook.compare.allowed')}</th>
          <th scope="col" className="log-figure">
            {A}
          </th>
          <th scope="col" className="log-figure">
            {B}
          </th>
          <th scope="col" className="log-figure">
            {t('logbook.compare.difference')}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, limits, a: left, b: right, difference }) => (
          <tr key={key} data-testid={`compare-${key}`}>
            <td>
              <MetricName of={key} />
            </td>
            <td>{limits}</td>
            <td className="log-figure">{left}</td>
            <td className="log-figure">{right}</td>
            <td className="log-figure">{difference}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import { stageGeometry } from '../../../physics/index.ts';
import type { StoredAttempt } from '../../../src-main/ipc/contract.ts';
import { passedWords } from './attempt-columns.ts';
import { attemptTitle } from './attempt-words.ts';
import { comparedMetrics } from './compared-metrics.ts';
import { openPage } from './logbook-store.ts';
import { DrawingLegend, OpeningDrawing, shapeOf } from './OpeningDrawing.tsx';
import { useStoredAttempt } from './use-stored-attempt.ts';

/** Two attempts on one stage, and their metrics side by side. */
export function ComparePage({ ids, onBack }: { readonly ids: readonly [string, string]; readonly onBack: () => void }) {
  const a = useStoredAttempt(ids[0]);
  const b = useStoredAttempt(ids[1]);
  const problem = a.problem ?? b.problem;
  return (
    <article className="log-attempt" data-testid="compare-page">
      <header className="log-head">
        <button type="button" onClick={onBack} data-testid="back">
          ◀ All attempts
        </button>
        <h2>Two attempts, one over the other</h2>
      </header>
      {problem !== null && (
        <p className="log-missed" role="alert">
          {problem}
        </p>
      )}
      {a.stored !== null && b.stored !== null ? (
        <Both a={a.stored} b={b.stored} />
      ) : (
        problem === null && <p className="log-quiet">Reading the attempts…</p>
      )}
    </article>
  );
}

function Both({ a, b }: { readonly a: StoredAttempt; readonly b: StoredAttempt }) {
  if (a.result === null || b.result === null)
    return (
      <p className="log-warning">
        An attempt that was never closed has no opening to compare yet. Open it and close it as it stands.
      </p>
    );
  const otherEye = a.summary.scenarioDigest !== b.summary.scenarioDigest;
  const shapes = [shapeOf('a', a.result, 'first', 'A'), shapeOf('b', b.result, 'second', 'B')];
  return (
    <>
      {otherEye && (
        <p className="log-warning">
          ⚠ Two different eyes: they are laid over each other at the reference centre; target and tolerance shown are
          those of A.
        </p>
      )}
      <div className="log-columns">
        <figure className="log-figure-box">
          <OpeningDrawing
            geometry={stageGeometry(a.scenario)}
            tolerances={a.scenario.tolerances}
            shapes={shapes}
            title="Both openings over the target circle, to scale"
          />
          <DrawingLegend names={['A, solid line', 'B, dashed line']} />
        </figure>
        <div className="log-column log-wide">
          <Named letter="A" attempt={a} />
          <Named letter="B" attempt={b} />
          <MetricsSideBySide a={a} b={b} />
        </div>
      </div>
    </>
  );
}

function Named({ letter, attempt }: { readonly letter: string; readonly attempt: StoredAttempt }) {
  return (
    <p>
      <b>{letter}</b> {attemptTitle(attempt.summary)}: {passedWords(attempt.summary.passed)}{' '}
      <button type="button" onClick={() => openPage({ kind: 'attempt', id: attempt.summary.id })}>
        Open
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
          <th scope="col">Metric</th>
          <th scope="col">Allowed (A)</th>
          <th scope="col" className="log-figure">
            A
          </th>
          <th scope="col" className="log-figure">
            B
          </th>
          <th scope="col" className="log-figure">
            B − A
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, title, limits, a: left, b: right, difference }) => (
          <tr key={key} data-testid={`compare-${key}`}>
            <td>{title}</td>
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

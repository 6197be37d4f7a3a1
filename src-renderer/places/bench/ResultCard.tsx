import type { AttemptResult } from '../../../physics/index.ts';
import { useSession } from '../../stores/session-store.ts';
import { quantity } from '../../ui/format.ts';
import { endedWords, runOutStory } from '../../ui/words.ts';
import type { AttemptSession } from './attempt-session.ts';
import { Card } from './Card.tsx';
import { KeptButtons } from './KeptButtons.tsx';
import { Moments } from './Moments.tsx';
import { gradedRows, type MetricRow, openingRows, workRows } from './metric-rows.ts';
import './result.css';

/** What came of the attempt, beside what was wanted. */
export function ResultCard({ session, result }: { readonly session: AttemptSession; readonly result: AttemptResult }) {
  const target = useSession((state) => state.geometry?.target.diameter_mm);
  return (
    <Card name="tip" title="The opening">
      <div data-testid="result" data-ended={result.ended} data-passed={String(result.passed)} aria-live="polite">
        <p className={result.passed ? 'verdict met' : 'verdict missed'}>
          <span aria-hidden="true">{result.passed ? '✓' : '✕'}</span>{' '}
          {result.passed
            ? 'All tolerances met'
            : result.ended === 'complete'
              ? 'Not all tolerances met'
              : 'No complete opening'}
        </p>
        <p>{endedWords(result.ended)}</p>
        {runOutStory(result.events) !== null && <p data-testid="run-out-story">{runOutStory(result.events)}</p>}
      </div>
      <div className="buttons">
        <button type="button" className="first" onClick={() => session.startOver()}>
          Start over <kbd>R</kbd>
        </button>
        <KeptButtons />
      </div>
      <Graded result={result} />
      <Moments />
      {result.opening !== null && (
        <MetricTable
          title={`Relaxed opening, target ${quantity(target, 1, 'mm')}`}
          rows={openingRows(result.opening)}
          open
        />
      )}
      <MetricTable title="The work" rows={workRows(result.work)} open={result.opening === null} />
      <p className="hint">{result.caution}</p>
    </Card>
  );
}

export function Graded({ result }: { readonly result: AttemptResult }) {
  const rows = gradedRows(result);
  if (rows.length === 0) return null;
  return (
    <ul className="graded" aria-label="Tolerances">
      {rows.map((row) => (
        <li
          key={row.key}
          className={row.met ? 'met' : 'missed'}
          data-testid={`graded-${row.key}`}
          data-met={String(row.met)}
          title={row.reason}
        >
          <span className="mark" aria-hidden="true">
            {row.met ? '✓' : '✕'}
          </span>
          <span className="what">
            {row.label}
            <small>
              {row.met ? 'met' : 'not met'}, {row.limits}
            </small>
          </span>
          <b>{row.text}</b>
        </li>
      ))}
    </ul>
  );
}

export function MetricTable({
  title,
  rows,
  open,
}: {
  readonly title: string;
  readonly rows: readonly MetricRow[];
  readonly open: boolean;
}) {
  return (
    <details className="metrics" open={open}>
      <summary>{title}</summary>
      <dl className="lines">
        {rows.map((row) => (
          <div className="line" key={row.key}>
            <dt>{row.label}</dt>
            <dd data-testid={`metric-${row.key}`} data-value={row.value}>
              {row.text}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

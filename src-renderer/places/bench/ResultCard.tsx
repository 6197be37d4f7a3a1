import type { AttemptResult } from '../../../physics/index.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { Explained } from '../../ui/Explained.tsx';
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
    <Card name="tip" title={t('bench.result.title')}>
      <div data-testid="result" data-ended={result.ended} data-passed={String(result.passed)} aria-live="polite">
        <p className={result.passed ? 'verdict met' : 'verdict missed'}>
          <span aria-hidden="true">{result.passed ? '✓' : '✕'}</span>{' '}
          {result.passed
            ? t('bench.result.met')
            : result.ended === 'complete'
              ? t('bench.result.notMet')
              : t('bench.result.none')}
        </p>
        <p>{endedWords(result.ended)}</p>
        {runOutStory(result.events) !== null && <p data-testid="run-out-story">{runOutStory(result.events)}</p>}
      </div>
      <div className="buttons">
        <button type="button" className="first" onClick={() => session.startOver()}>
          {t('bench.chooser.startOver')} <kbd>R</kbd>
        </button>
        <KeptButtons />
      </div>
      <Graded result={result} />
      <Moments />
      {result.opening !== null && (
        <MetricTable
          title={t('bench.result.relaxed', { target: quantity(target, 1, 'mm') })}
          rows={openingRows(result.opening)}
          open
        />
      )}
      <MetricTable title={t('bench.result.work')} rows={workRows(result.work)} open={result.opening === null} />
      <p className="hint">{textOf(result.caution)}</p>
    </Card>
  );
}

export function Graded({ result }: { readonly result: AttemptResult }) {
  const rows = gradedRows(result);
  if (rows.length === 0) return null;
  return (
    <ul className="graded" aria-label={t('bench.result.tolerances')}>
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
            <RowLabel row={row} />
            <small>{t(row.met ? 'bench.result.rowMet' : 'bench.result.rowNotMet', { limits: row.limits })}</small>
          </span>
          <b>{row.text}</b>
        </li>
      ))}
    </ul>
  );
}

const RowLabel = ({ row }: { readonly row: MetricRow }) =>
  row.of === null ? row.label : <Explained of={row.of}>{row.label}</Explained>;

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
            <dt>
              <RowLabel row={row} />
            </dt>
            <dd data-testid={`metric-${row.key}`} data-value={row.value}>
              {row.text}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

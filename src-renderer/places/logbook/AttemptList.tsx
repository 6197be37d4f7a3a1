import { useMemo } from 'react';
import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { AttemptTable } from './AttemptTable.tsx';
import { COLUMN_IDS, COLUMNS, sortAttempts } from './attempt-columns.ts';
import { filterAttempts } from './attempt-filter.ts';
import { csvOf } from './csv.ts';
import { FilterBar } from './FilterBar.tsx';
import { exportBundle, importBundle, jobRuns, today, useJob } from './jobs.ts';
import { MOST_ATTEMPTS, openPage, useLogbook } from './logbook-store.ts';
import { saveText } from './save-text.ts';

/** All attempts, filtered and sorted, and what can be done with the ticked ones. */
export function AttemptList() {
  const { attempts, filter, classes, sorting, cutOff } = useLogbook();
  const shown = useMemo(() => filterAttempts(attempts, filter, classes), [attempts, filter, classes]);
  const rows = useMemo(() => sortAttempts(shown, sorting), [shown, sorting]);
  if (attempts.length === 0 && !cutOff) return <NoAttempts />;
  return (
    <div className="log-list">
      <FilterBar />
      <Actions rows={rows} of={attempts.length} cutOff={cutOff} />
      {rows.length === 0 ? (
        <p className="log-quiet" data-testid="none-match">
          No attempt fits this filter.
        </p>
      ) : (
        <AttemptTable rows={rows} />
      )}
    </div>
  );
}

function Actions({
  rows,
  of,
  cutOff,
}: {
  readonly rows: readonly AttemptSummary[];
  readonly of: number;
  readonly cutOff: boolean;
}) {
  const ticked = useLogbook((state) => state.ticked);
  const busy = useJob(jobRuns);
  const chosen = rows.filter(({ id }) => ticked.has(id));
  const carried = chosen.length > 0 ? chosen : rows;
  const count = rows.length === of ? `${of} attempts` : `${rows.length} of ${of} attempts`;
  return (
    <div className="log-actions">
      <span data-testid="count" role="status">
        {count}
        {chosen.length > 0 ? `, ${chosen.length} ticked` : ''}
        {cutOff ? ` (the newest ${MOST_ATTEMPTS}; narrow the filter for older ones)` : ''}
      </span>
      <span className="log-space" />
      <button
        type="button"
        disabled={chosen.length !== 2}
        title="Tick two attempts to lay one over the other"
        onClick={() => openPage({ kind: 'compare', ids: [chosen[0].id, chosen[1].id] })}
        data-testid="compare"
      >
        Compare two
      </button>
      <button
        type="button"
        disabled={carried.length === 0 || busy}
        title="Write the ticked attempts, or all shown, into one file for another machine"
        onClick={() =>
          void exportBundle(
            `attempts-${today()}`,
            carried.map(({ id }) => id),
          )
        }
        data-testid="export-bundle"
      >
        Export {chosen.length > 0 ? `${chosen.length} ticked` : `all ${rows.length} shown`}
      </button>
      <button type="button" disabled={busy} onClick={() => void importBundle()} data-testid="import-bundle">
        Import a bundle
      </button>
      <button
        type="button"
        disabled={carried.length === 0}
        onClick={() => void saveText(`attempts-${today()}.csv`, attemptsCsv(carried))}
        data-testid="list-csv"
      >
        Save as CSV
      </button>
    </div>
  );
}

/** The list as it stands, one line an attempt. */
export function attemptsCsv(rows: readonly AttemptSummary[]): string {
  const head = COLUMN_IDS.map((id) =>
    COLUMNS[id].unit === '' ? COLUMNS[id].label : `${COLUMNS[id].label}, ${COLUMNS[id].unit}`,
  );
  return csvOf([
    head,
    ...rows.map((row) =>
      COLUMN_IDS.map((id) => {
        const { numeric, rank, text } = COLUMNS[id];
        return numeric ? rank(row) : id === 'when' ? row.startedAt : text(row);
      }),
    ),
  ]);
}

function NoAttempts() {
  return (
    <div className="log-empty" data-testid="empty">
      <h2>No attempts yet</h2>
      <p>
        Tear an opening on the bench or under the rules of a trial, and it is written down here as it happens. Or take
        in a bundle that somebody carried over from another machine.
      </p>
      <button type="button" onClick={() => void importBundle()} data-testid="import-bundle">
        Import a bundle
      </button>
    </div>
  );
}

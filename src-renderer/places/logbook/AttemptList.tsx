import { useMemo } from 'react';
import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { t, useLanguage } from '../../i18n/text.ts';
import { AttemptTable } from './AttemptTable.tsx';
import { COLUMN_IDS, CSV_COLUMNS, sortAttempts } from './attempt-columns.ts';
import { filterAttempts } from './attempt-filter.ts';
import { csvOf } from './csv.ts';
import { FilterBar } from './FilterBar.tsx';
import { exportBundle, importBundle, jobRuns, today, useJob } from './jobs.ts';
import { MOST_ATTEMPTS, openPage, useLogbook } from './logbook-store.ts';
import { saveText } from './save-text.ts';

/** All attempts, filtered and sorted, and what can be done with the ticked ones. */
export function AttemptList() {
  const { attempts, filter, classes, sorting, cutOff } = useLogbook();
  const language = useLanguage((state) => state.language);
  const shown = useMemo(() => filterAttempts(attempts, filter, classes), [attempts, filter, classes]);
  const rows = useMemo(() => sortAttempts(shown, sorting), [shown, sorting, language]);
  if (attempts.length === 0 && !cutOff) return <NoAttempts />;
  return (
    <div className="log-list">
      <FilterBar />
      <Actions rows={rows} of={attempts.length} cutOff={cutOff} />
      {rows.length === 0 ? (
        <p className="log-quiet" data-testid="none-match">
          {t('logbook.list.noneMatch')}
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
  const count =
    rows.length === of
      ? t('logbook.list.count', { count: of })
      : t('logbook.list.countOf', { count: of, shown: rows.length });
  const withTicked = chosen.length > 0 ? t('logbook.list.ticked', { attempts: count, ticked: chosen.length }) : count;
  return (
    <div className="log-actions">
      <span data-testid="count" role="status">
        {cutOff ? t('logbook.list.cutOff', { attempts: withTicked, most: MOST_ATTEMPTS }) : withTicked}
      </span>
      <span className="log-space" />
      <button
        type="button"
        disabled={chosen.length !== 2}
        title={t('logbook.list.compareTitle')}
        onClick={() => openPage({ kind: 'compare', ids: [chosen[0].id, chosen[1].id] })}
        data-testid="compare"
      >
        {t('logbook.list.compareTwo')}
      </button>
      <button
        type="button"
        disabled={carried.length === 0 || busy}
        title={t('logbook.list.exportTitle')}
        onClick={() =>
          void exportBundle(
            `attempts-${today()}`,
            carried.map(({ id }) => id),
          )
        }
        data-testid="export-bundle"
      >
        {chosen.length > 0
          ? t('logbook.list.exportTicked', { count: chosen.length })
          : t('logbook.list.exportShown', { count: rows.length })}
      </button>
      <button type="button" disabled={busy} onClick={() => void importBundle()} data-testid="import-bundle">
        {t('logbook.does.importBundle')}
      </button>
      <button
        type="button"
        disabled={carried.length === 0}
        onClick={() => void saveText(`attempts-${today()}.csv`, attemptsCsv(carried))}
        data-testid="list-csv"
      >
        {t('logbook.list.saveCsv')}
      </button>
    </div>
  );
}

/** The list as it stands, one line an attempt. In English in every language, as other programs read it. */
export function attemptsCsv(rows: readonly AttemptSummary[]): string {
  return csvOf([
    COLUMN_IDS.map((id) => CSV_COLUMNS[id].head),
    ...rows.map((row) => COLUMN_IDS.map((id) => CSV_COLUMNS[id].value(row))),
  ]);
}

function NoAttempts() {
  return (
    <div className="log-empty" data-testid="empty">
      <h2>{t('logbook.list.emptyTitle')}</h2>
      <p>{t('logbook.list.empty')}</p>
      <button type="button" onClick={() => void importBundle()} data-testid="import-bundle">
        {t('logbook.does.importBundle')}
      </button>
    </div>
  );
}

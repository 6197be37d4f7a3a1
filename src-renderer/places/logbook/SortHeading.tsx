import { t } from '../../i18n/text.ts';
import { Explained, type NumberId } from '../../ui/Explained.tsx';

/** The heading of a column that sorts. The name of a number explains itself, and the arrow beside it sorts. */
export function SortHeading({
  label,
  unit,
  of,
  sorted,
  onSort,
  testid,
}: {
  readonly label: string;
  /** Printed behind the name; empty where there is none. */
  readonly unit: string;
  /** What the column's numbers are; null where it holds none. */
  readonly of: NumberId | null;
  /** How the table is sorted by this column; null when it is by another. */
  readonly sorted: 'up' | 'down' | null;
  readonly onSort: () => void;
  readonly testid?: string;
}) {
  const sign = (
    <span className="log-sort" aria-hidden="true">
      {sorted === null ? '↕' : sorted === 'down' ? '▼' : '▲'}
    </span>
  );
  if (of === null)
    return (
      <button type="button" className="log-sorting" onClick={onSort} data-testid={testid}>
        {label} {sign}
      </button>
    );
  return (
    <span className="log-sorting">
      <span className="log-explained">
        <Explained of={of}>{label}</Explained>
        {unit !== '' && <small> {unit}</small>}
      </span>
      <button
        type="button"
        aria-label={t('logbook.list.sortBy', { column: label })}
        onClick={onSort}
        data-testid={testid}
      >
        {sign}
      </button>
    </span>
  );
}

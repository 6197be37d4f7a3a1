import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { useView } from '../../stores/view-store.ts';
import { COLUMN_IDS, COLUMNS, type ColumnId, sortingAfter } from './attempt-columns.ts';
import { openPage, tick, useLogbook } from './logbook-store.ts';

/** Height of a line, CSS pixels, as in logbook.css. */
const LINE_px = { room: 30, projector: 38 } as const;

/** The list as a table of which only the lines in sight are on the page. Arrow keys move, Enter opens, Space ticks. */
export function AttemptTable({ rows }: { readonly rows: readonly AttemptSummary[] }) {
  const theme = useView((state) => state.theme);
  const scroll = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState(0);
  const line_px = LINE_px[theme];
  const virtual = useVirtualizer({
    count: rows.length,
    getScrollElement: () => scroll.current,
    estimateSize: () => line_px,
    overscan: 12,
  });
  useEffect(() => virtual.measure(), [line_px]);
  const items = virtual.getVirtualItems();
  const above_px = items[0]?.start ?? 0;
  const below_px = virtual.getTotalSize() - (items.at(-1)?.end ?? 0);

  const move = (to: number): void => {
    const next = Math.max(0, Math.min(rows.length - 1, to));
    setActive(next);
    virtual.scrollToIndex(next);
    // the line may have to be put on the page first
    window.setTimeout(() => scroll.current?.querySelector<HTMLElement>(`[data-index="${next}"]`)?.focus(), 30);
  };
  const pressed = (event: KeyboardEvent, index: number): void => {
    const page = Math.max(1, Math.floor((scroll.current?.clientHeight ?? 300) / line_px) - 2);
    const by: Partial<Record<string, number>> = {
      ArrowDown: index + 1,
      ArrowUp: index - 1,
      PageDown: index + page,
      PageUp: index - page,
      Home: 0,
      End: rows.length - 1,
    };
    const to = by[event.key];
    if (to !== undefined) move(to);
    else if (event.key === 'Enter') openPage({ kind: 'attempt', id: rows[index].id });
    else if (event.key === ' ') tick([rows[index].id], !useLogbook.getState().ticked.has(rows[index].id));
    else return;
    event.preventDefault();
  };

  return (
    <div className="log-scroll" ref={scroll} data-testid="attempt-table">
      <table aria-label={t('logbook.list.table')} aria-rowcount={rows.length + 1}>
        <TableHead rows={rows} />
        <tbody>
          {above_px > 0 && <Gap height_px={above_px} />}
          {items.map(({ index }) => (
            <Line
              key={rows[index].id}
              attempt={rows[index]}
              index={index}
              focusable={index === Math.min(active, rows.length - 1)}
              onKey={pressed}
            />
          ))}
          {below_px > 0 && <Gap height_px={below_px} />}
        </tbody>
      </table>
    </div>
  );
}

const Gap = ({ height_px }: { readonly height_px: number }) => (
  <tr>
    <td style={{ height: height_px, padding: 0, border: 0 }} colSpan={COLUMN_IDS.length + 1} />
  </tr>
);

function TableHead({ rows }: { readonly rows: readonly AttemptSummary[] }) {
  const ticked = useLogbook((state) => state.ticked);
  const all = rows.length > 0 && rows.every(({ id }) => ticked.has(id));
  return (
    <thead>
      <tr>
        <th scope="col" className="log-tick">
          <input
            type="checkbox"
            checked={all}
            onChange={(event) =>
              tick(
                rows.map(({ id }) => id),
                event.target.checked,
              )
            }
            aria-label={t('logbook.list.tickAll')}
            data-testid="tick-all"
          />
        </th>
        {COLUMN_IDS.map((id) => (
          <Heading key={id} id={id} />
        ))}
      </tr>
    </thead>
  );
}

function Heading({ id }: { readonly id: ColumnId }) {
  const sorting = useLogbook((state) => state.sorting);
  const { unit, numeric } = COLUMNS[id];
  const mine = sorting.column === id;
  return (
    <th
      scope="col"
      className={numeric ? 'log-figure' : undefined}
      aria-sort={mine ? (sorting.descending ? 'descending' : 'ascending') : undefined}
    >
      <button
        type="button"
        onClick={() => useLogbook.setState({ sorting: sortingAfter(sorting, id) })}
        data-testid={`sort-${id}`}
      >
        {t(`logbook.column.${id}`)}
        {unit !== '' && <small> {unit}</small>}
        <span className="log-sort" aria-hidden="true">
          {mine ? (sorting.descending ? '▼' : '▲') : ''}
        </span>
      </button>
    </th>
  );
}

function Line({
  attempt,
  index,
  focusable,
  onKey,
}: {
  readonly attempt: AttemptSummary;
  readonly index: number;
  readonly focusable: boolean;
  readonly onKey: (event: KeyboardEvent, index: number) => void;
}) {
  const on = useLogbook((state) => state.ticked.has(attempt.id));
  return (
    <tr
      data-index={index}
      data-testid="attempt-row"
      data-id={attempt.id}
      tabIndex={focusable ? 0 : -1}
      aria-rowindex={index + 2}
      aria-selected={on}
      onKeyDown={(event) => onKey(event, index)}
      onClick={() => openPage({ kind: 'attempt', id: attempt.id })}
    >
      {/* a click beside the box is meant for the box */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the box in it has the keyboard */}
      <td className="log-tick" onClick={(event) => event.stopPropagation()}>
        <input
          type="checkbox"
          tabIndex={-1}
          checked={on}
          onChange={(event) => tick([attempt.id], event.target.checked)}
          aria-label={t('logbook.list.tick', { when: COLUMNS.when.text(attempt) })}
        />
      </td>
      {COLUMN_IDS.map((id) => (
        <td
          key={id}
          className={cellClass(id, attempt)}
          title={id === 'eye' || id === 'who' ? COLUMNS[id].text(attempt) : undefined}
        >
          {COLUMNS[id].text(attempt)}
        </td>
      ))}
    </tr>
  );
}

function cellClass(id: ColumnId, { passed, seal, replay }: AttemptSummary): string | undefined {
  if (COLUMNS[id].numeric) return 'log-figure';
  if (id === 'passed' && passed !== null) return passed ? 'log-met' : 'log-missed';
  if ((id === 'seal' && seal === 'broken') || (id === 'replayed' && replay === 'different')) return 'log-missed';
  return id === 'eye' || id === 'who' ? 'log-long' : undefined;
}

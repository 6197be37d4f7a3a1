import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { useView } from '../../stores/view-store.ts';
import type { NumberId } from '../../ui/Explained.tsx';
import { COLUMNS, type ColumnId, FOLDED_CELLS, sortingAfter, WIDE_CELLS } from './attempt-columns.ts';
import { openPage, tick, useLogbook } from './logbook-store.ts';
import { SortHeading } from './SortHeading.tsx';
import { useFolded } from './use-folded.ts';

/** Height of a line of the table in sizes of its letters, and of a folded one, which holds two. */
const LINE_em = 2.15;
const FOLDED_LINE_em = 3.3;
/** Before the letters have been measured. */
const FIRST_LETTER_px = 14;

/** What the numbers of a column are. */
const NUMBER_OF: Readonly<Partial<Record<ColumnId, NumberId>>> = {
  diameter: 'equivalentDiameter_mm',
  centreOff: 'centroidDistance_mm',
  circularity: 'circularity',
  time: 'time_s',
};

/** Size of the letters in the box, CSS pixels; follows the look and the size of text that the person chose. */
function useLetter_px(box: RefObject<HTMLElement | null>, folded: boolean): number {
  const theme = useView((state) => state.theme);
  const textSize = useView((state) => state.textSize);
  const [letter_px, setLetter] = useState(FIRST_LETTER_px);
  useLayoutEffect(() => {
    if (box.current !== null) setLetter(Number.parseFloat(getComputedStyle(box.current).fontSize) || FIRST_LETTER_px);
  }, [box, folded, theme, textSize]);
  return letter_px;
}

/** The list as a table of which only the lines in sight are on the page. Arrow keys move, Enter opens, Space ticks. */
export function AttemptTable({ rows }: { readonly rows: readonly AttemptSummary[] }) {
  const scroll = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState(0);
  const folded = useFolded(scroll);
  const line_px = Math.round(useLetter_px(scroll, folded) * (folded ? FOLDED_LINE_em : LINE_em));
  const cells = folded ? FOLDED_CELLS : WIDE_CELLS;
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
    <div className={folded ? 'log-scroll log-folded' : 'log-scroll'} ref={scroll} data-testid="attempt-table">
      <table aria-label={t('logbook.list.table')} aria-rowcount={rows.length + 1}>
        <TableHead rows={rows} cells={cells} />
        <tbody>
          {above_px > 0 && <Gap height_px={above_px} cells={cells.length} />}
          {items.map(({ index }) => (
            <Line
              key={rows[index].id}
              attempt={rows[index]}
              index={index}
              cells={cells}
              line_px={line_px}
              focusable={index === Math.min(active, rows.length - 1)}
              onKey={pressed}
            />
          ))}
          {below_px > 0 && <Gap height_px={below_px} cells={cells.length} />}
        </tbody>
      </table>
    </div>
  );
}

const Gap = ({ height_px, cells }: { readonly height_px: number; readonly cells: number }) => (
  <tr>
    <td style={{ height: height_px, padding: 0, border: 0 }} colSpan={cells + 1} />
  </tr>
);

function TableHead({
  rows,
  cells,
}: {
  readonly rows: readonly AttemptSummary[];
  readonly cells: readonly (readonly ColumnId[])[];
}) {
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
        {cells.map((ids) => (
          <Headings key={ids[0]} ids={ids} />
        ))}
      </tr>
    </thead>
  );
}

function Headings({ ids }: { readonly ids: readonly ColumnId[] }) {
  const sorting = useLogbook((state) => state.sorting);
  const way = sorting.descending ? 'down' : 'up';
  const mine = ids.includes(sorting.column);
  return (
    <th
      scope="col"
      className={COLUMNS[ids[0]].numeric ? 'log-figure' : undefined}
      aria-sort={mine ? (way === 'down' ? 'descending' : 'ascending') : undefined}
    >
      {ids.map((id) => (
        <SortHeading
          key={id}
          label={t(`logbook.column.${id}`)}
          unit={COLUMNS[id].unit}
          of={NUMBER_OF[id] ?? null}
          sorted={sorting.column === id ? way : null}
          onSort={() => useLogbook.setState({ sorting: sortingAfter(sorting, id) })}
          testid={`sort-${id}`}
        />
      ))}
    </th>
  );
}

function Line({
  attempt,
  index,
  cells,
  line_px,
  focusable,
  onKey,
}: {
  readonly attempt: AttemptSummary;
  readonly index: number;
  readonly cells: readonly (readonly ColumnId[])[];
  readonly line_px: number;
  readonly focusable: boolean;
  readonly onKey: (event: KeyboardEvent, index: number) => void;
}) {
  const on = useLogbook((state) => state.ticked.has(attempt.id));
  return (
    <tr
      data-index={index}
      style={{ height: line_px }}
      data-testid="attempt-row"
      data-id={attempt.id}
      tabIndex={focusable ? 0 : -1}
      aria-rowindex={index + 2}
      data-ticked={on}
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
      {cells.map((ids) => (
        <td
          key={ids[0]}
          className={COLUMNS[ids[0]].numeric ? 'log-figure' : ids[0] === 'eye' ? 'log-flexible' : undefined}
        >
          {ids.map((id) => (
            <span
              key={id}
              className={cellClass(id, attempt)}
              title={id === 'eye' || id === 'who' ? COLUMNS[id].text(attempt) : undefined}
            >
              {COLUMNS[id].text(attempt)}
            </span>
          ))}
        </td>
      ))}
    </tr>
  );
}

function cellClass(id: ColumnId, { passed, seal, replay }: AttemptSummary): string | undefined {
  if (id === 'passed' && passed !== null) return passed ? 'log-cell log-met' : 'log-cell log-missed';
  const bad = (id === 'seal' && seal === 'broken') || (id === 'replayed' && replay === 'different');
  if (bad) return 'log-cell log-missed';
  return id === 'eye' || id === 'who' ? 'log-cell log-long' : 'log-cell';
}

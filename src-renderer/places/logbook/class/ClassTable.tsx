import { useRef, useState } from 'react';
import type { Messages } from '../../../i18n/languages.ts';
import { t } from '../../../i18n/text.ts';
import type { NumberId } from '../../../ui/Explained.tsx';
import { DASH, number } from '../../../ui/format.ts';
import { whenWords } from '../attempt-columns.ts';
import { SortHeading } from '../SortHeading.tsx';
import { useFolded } from '../use-folded.ts';
import type { PersonRow } from './class-model.ts';

/** Columns of the table; each is named by the message `logbook.class.<name>`. */
interface ClassColumn {
  readonly id: keyof PersonRow;
  readonly name: keyof Messages['logbook']['class'];
  readonly unit: string;
  readonly of: NumberId | null;
  readonly text: (row: PersonRow) => string;
}

const figures = (
  id: keyof PersonRow,
  name: ClassColumn['name'],
  of: NumberId,
  unit: string,
  decimals: number,
): ClassColumn => ({
  id,
  name,
  unit,
  of,
  text: (row) => number(row[id] as number | null, decimals),
});

const COLUMNS: readonly ClassColumn[] = [
  { id: 'name', name: 'person', unit: '', of: null, text: ({ name }) => name },
  figures('attempts', 'attempts', 'closedAttempts', '', 0),
  {
    id: 'passedShare',
    name: 'passed',
    unit: '',
    of: 'passedAttempts',
    text: ({ passed, passedShare }) =>
      passedShare === null ? DASH : t('logbook.class.passedShare', { passed, percent: number(100 * passedShare, 0) }),
  },
  figures('streak', 'streak', 'passedInARow', '', 0),
  figures('diameter_mm', 'diameter', 'equivalentDiameter_mm', 'mm', 2),
  figures('centreOff_mm', 'centreOff', 'centroidDistance_mm', 'mm', 2),
  figures('circularity', 'circularity', 'circularity', '', 2),
  figures('time_s', 'time', 'time_s', 's', 0),
  {
    id: 'doubtful',
    name: 'doubtful',
    unit: '',
    of: 'doubtfulAttempts',
    text: ({ doubtful }) => (doubtful === 0 ? '0' : `⚠ ${doubtful}`),
  },
  {
    id: 'lastAt',
    name: 'latest',
    unit: '',
    of: null,
    text: ({ lastAt }) => (lastAt === null ? DASH : whenWords(lastAt)),
  },
];

function sorted(rows: readonly PersonRow[], by: keyof PersonRow, down: boolean): PersonRow[] {
  return [...rows].sort((a, b) => {
    const [x, y] = [a[by], b[by]];
    if (x === null || y === null) return x === y ? 0 : x === null ? 1 : -1;
    const order = typeof x === 'number' ? x - (y as number) : String(x).localeCompare(String(y));
    return down ? -order : order;
  });
}

/** Which columns stand in each cell of a wide and of a folded table. */
const WIDE: readonly (readonly ClassColumn[])[] = COLUMNS.map((column) => [column]);
const FOLDED: readonly (readonly ClassColumn[])[] = [
  ['name', 'lastAt'],
  ['attempts', 'streak'],
  ['passedShare', 'doubtful'],
  ['diameter_mm', 'centreOff_mm'],
  ['circularity', 'time_s'],
].map((ids) => COLUMNS.filter(({ id }) => ids.includes(id)).sort((a, b) => ids.indexOf(a.id) - ids.indexOf(b.id)));

interface SortedBy {
  readonly id: keyof PersonRow;
  readonly down: boolean;
}

/** One line a person; the middle columns are medians. A click brings out that person's openings. */
export function ClassTable({
  rows,
  brought,
  onBring,
}: {
  readonly rows: readonly PersonRow[];
  readonly brought: string | null;
  readonly onBring: (personId: string | null) => void;
}) {
  const [by, setBy] = useState<SortedBy>({ id: 'name', down: false });
  const box = useRef<HTMLDivElement>(null);
  const cells = useFolded(box) ? FOLDED : WIDE;
  return (
    <div className="log-class-table" ref={box}>
      <table className="log-table" data-testid="class-table">
        <caption className="log-quiet">{t('logbook.class.caption')}</caption>
        <thead>
          <tr>
            {cells.map((columns) => (
              <Headings key={columns[0].id} columns={columns} by={by} setBy={setBy} />
            ))}
          </tr>
        </thead>
        <tbody>
          {sorted(rows, by.id, by.down).map((row) => (
            <tr
              key={row.personId}
              data-testid="class-row"
              data-chosen={row.personId === brought}
              onClick={() => onBring(row.personId === brought ? null : row.personId)}
            >
              {cells.map((columns) => (
                <td key={columns[0].id} className={columns[0].id === 'name' ? undefined : 'log-figure'}>
                  {columns.map((column) => (
                    <span key={column.id} className="log-cell">
                      <Cell column={column} row={row} brought={brought} />
                    </span>
                  ))}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Headings({
  columns,
  by,
  setBy,
}: {
  readonly columns: readonly ClassColumn[];
  readonly by: SortedBy;
  readonly setBy: (by: SortedBy) => void;
}) {
  const mine = columns.some(({ id }) => id === by.id);
  return (
    <th
      scope="col"
      className={columns[0].id === 'name' ? undefined : 'log-figure'}
      aria-sort={mine ? (by.down ? 'descending' : 'ascending') : undefined}
    >
      {columns.map(({ id, name, unit, of }) => (
        <SortHeading
          key={id}
          label={t(`logbook.class.${name}`)}
          unit={unit}
          of={of}
          sorted={by.id === id ? (by.down ? 'down' : 'up') : null}
          onSort={() => setBy({ id, down: by.id === id ? !by.down : id !== 'name' })}
        />
      ))}
    </th>
  );
}

/** The name is the button that the keyboard uses; elsewhere in the line a click does the same. */
function Cell({
  column,
  row,
  brought,
}: {
  readonly column: ClassColumn;
  readonly row: PersonRow;
  readonly brought: string | null;
}) {
  if (column.id !== 'name') return column.text(row);
  return (
    <button type="button" className="log-link" aria-pressed={row.personId === brought}>
      {column.text(row)}
    </button>
  );
}

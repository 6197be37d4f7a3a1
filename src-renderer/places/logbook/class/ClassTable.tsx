import { useState } from 'react';
import type { Messages } from '../../../i18n/languages.ts';
import { t } from '../../../i18n/text.ts';
import { DASH, number } from '../../../ui/format.ts';
import { whenWords } from '../attempt-columns.ts';
import type { PersonRow } from './class-model.ts';

/** Columns of the table; each is named by the message `logbook.class.<name>`. */
interface ClassColumn {
  readonly id: keyof PersonRow;
  readonly name: keyof Messages['logbook']['class'];
  readonly unit: string;
  readonly text: (row: PersonRow) => string;
}

const figures = (id: keyof PersonRow, name: ClassColumn['name'], unit: string, decimals: number): ClassColumn => ({
  id,
  name,
  unit,
  text: (row) => number(row[id] as number | null, decimals),
});

const COLUMNS: readonly ClassColumn[] = [
  { id: 'name', name: 'person', unit: '', text: ({ name }) => name },
  figures('attempts', 'attempts', '', 0),
  {
    id: 'passedShare',
    name: 'passed',
    unit: '',
    text: ({ passed, passedShare }) =>
      passedShare === null ? DASH : t('logbook.class.passedShare', { passed, percent: number(100 * passedShare, 0) }),
  },
  figures('streak', 'streak', '', 0),
  figures('diameter_mm', 'diameter', 'mm', 2),
  figures('centreOff_mm', 'centreOff', 'mm', 2),
  figures('circularity', 'circularity', '', 2),
  figures('time_s', 'time', 's', 0),
  { id: 'doubtful', name: 'doubtful', unit: '', text: ({ doubtful }) => (doubtful === 0 ? '0' : `⚠ ${doubtful}`) },
  { id: 'lastAt', name: 'latest', unit: '', text: ({ lastAt }) => (lastAt === null ? DASH : whenWords(lastAt)) },
];

function sorted(rows: readonly PersonRow[], by: keyof PersonRow, down: boolean): PersonRow[] {
  return [...rows].sort((a, b) => {
    const [x, y] = [a[by], b[by]];
    if (x === null || y === null) return x === y ? 0 : x === null ? 1 : -1;
    const order = typeof x === 'number' ? x - (y as number) : String(x).localeCompare(String(y));
    return down ? -order : order;
  });
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
  const [by, setBy] = useState<{ readonly id: keyof PersonRow; readonly down: boolean }>({ id: 'name', down: false });
  return (
    <div className="log-class-table">
      <table className="log-table" data-testid="class-table">
        <caption className="log-quiet">{t('logbook.class.caption')}</caption>
        <thead>
          <tr>
            {COLUMNS.map(({ id, name, unit }) => (
              <th
                key={id}
                scope="col"
                className={id === 'name' ? undefined : 'log-figure'}
                aria-sort={by.id === id ? (by.down ? 'descending' : 'ascending') : undefined}
              >
                <button type="button" onClick={() => setBy({ id, down: by.id === id ? !by.down : id !== 'name' })}>
                  {t(`logbook.class.${name}`)}
                  {unit !== '' && <small> {unit}</small>}
                  <span className="log-sort" aria-hidden="true">
                    {by.id === id ? (by.down ? '▼' : '▲') : ''}
                  </span>
                </button>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sorted(rows, by.id, by.down).map((row) => (
            <tr
              key={row.personId}
              data-testid="class-row"
              aria-selected={row.personId === brought}
              onClick={() => onBring(row.personId === brought ? null : row.personId)}
            >
              {COLUMNS.map(({ id, text }) => (
                <td key={id} className={id === 'name' ? undefined : 'log-figure'}>
                  {id === 'name' ? (
                    <button type="button" className="log-link" aria-pressed={row.personId === brought}>
                      {text(row)}
                    </button>
                  ) : (
                    text(row)
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

import { useState } from 'react';
import { number } from '../../../ui/format.ts';
import { whenWords } from '../attempt-columns.ts';
import type { PersonRow } from './class-model.ts';

interface ClassColumn {
  readonly id: keyof PersonRow;
  readonly label: string;
  readonly unit: string;
  readonly text: (row: PersonRow) => string;
}

const figures = (id: keyof PersonRow, label: string, unit: string, decimals: number): ClassColumn => ({
  id,
  label,
  unit,
  text: (row) => number(row[id] as number | null, decimals),
});

const COLUMNS: readonly ClassColumn[] = [
  { id: 'name', label: 'Person', unit: '', text: ({ name }) => name },
  figures('attempts', 'Attempts', '', 0),
  {
    id: 'passedShare',
    label: 'Passed',
    unit: '',
    text: ({ passed, passedShare }) => (passedShare === null ? '–' : `${passed} (${number(100 * passedShare, 0)} %)`),
  },
  figures('streak', 'In a row', '', 0),
  figures('diameter_mm', 'Diameter', 'mm', 2),
  figures('centreOff_mm', 'Centre off', 'mm', 2),
  figures('circularity', 'Circularity', '', 2),
  figures('time_s', 'Time', 's', 0),
  { id: 'doubtful', label: 'Doubtful', unit: '', text: ({ doubtful }) => (doubtful === 0 ? '0' : `⚠ ${doubtful}`) },
  { id: 'lastAt', label: 'Latest', unit: '', text: ({ lastAt }) => (lastAt === null ? '–' : whenWords(lastAt)) },
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
        <caption className="log-quiet">
          Diameter to time: medians. Choose a line to bring out that person’s openings.
        </caption>
        <thead>
          <tr>
            {COLUMNS.map(({ id, label, unit }) => (
              <th
                key={id}
                scope="col"
                className={id === 'name' ? undefined : 'log-figure'}
                aria-sort={by.id === id ? (by.down ? 'descending' : 'ascending') : undefined}
              >
                <button type="button" onClick={() => setBy({ id, down: by.id === id ? !by.down : id !== 'name' })}>
                  {label}
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

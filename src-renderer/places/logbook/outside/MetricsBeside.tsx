import { METRIC_LABELS, type MetricKey, type OpeningMetrics } from '../../../../physics/index.ts';
import { number, quantity } from '../../../ui/format.ts';
import type { Compared } from './CompareAttempts.tsx';

const KEYS = (Object.keys(METRIC_LABELS) as MetricKey[]).filter((key) => METRIC_LABELS[key].of === 'opening');

function shown(opening: OpeningMetrics | null, key: MetricKey): string {
  const value = opening?.[key as keyof OpeningMetrics];
  const { decimals, unit } = METRIC_LABELS[key];
  return quantity(typeof value === 'number' ? value : null, decimals, unit === 'degrees' ? '°' : unit);
}

function uncovered(opening: OpeningMetrics | null): string {
  if (opening === null) return '–';
  const ranges = opening.opticUncovered_clock_h.map(([from, to]) => `${number(from, 1)} to ${number(to, 1)}`);
  return ranges.length === 0 ? 'none' : `${ranges.join(', ')} o’clock`;
}

/** The measures of the opening from outside, those of stored attempts in columns beside it. */
export function MetricsBeside({
  name,
  opening,
  compared,
}: {
  readonly name: string;
  readonly opening: OpeningMetrics | null;
  readonly compared: readonly Compared[];
}) {
  const columns = [{ id: 'outside', label: name, opening }, ...compared];
  return (
    <div className="outside-table">
      <table>
        <thead>
          <tr>
            <th scope="col">Measure</th>
            {columns.map(({ id, label }) => (
              <th key={id} scope="col">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {KEYS.map((key) => (
            <tr key={key}>
              <th scope="row">
                {METRIC_LABELS[key].label.charAt(0).toUpperCase() + METRIC_LABELS[key].label.slice(1)}
              </th>
              {columns.map((column) => (
                <td key={column.id} data-testid={`measure-${key}-${column.id}`}>
                  {shown(column.opening, key)}
                </td>
              ))}
            </tr>
          ))}
          <tr>
            <th scope="row">Optic without cover</th>
            {columns.map((column) => (
              <td key={column.id}>{uncovered(column.opening)}</td>
            ))}
          </tr>
        </tbody>
      </table>
      {compared.length > 0 && (
        <p className="outside-hint">Each attempt was measured against the target of its own scenario.</p>
      )}
    </div>
  );
}

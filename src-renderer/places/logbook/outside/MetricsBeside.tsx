import { METRIC_LABELS, type MetricKey, type OpeningMetrics } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { DASH } from '../../../ui/format.ts';
import { MetricName } from '../MetricName.tsx';
import { metricText, uncoveredWords } from '../metric-words.ts';
import type { Compared } from './CompareAttempts.tsx';

const KEYS = (Object.keys(METRIC_LABELS) as MetricKey[]).filter((key) => METRIC_LABELS[key].of === 'opening');

function shown(opening: OpeningMetrics | null, key: MetricKey): string {
  const value = opening?.[key as keyof OpeningMetrics];
  return metricText(key, typeof value === 'number' ? value : null);
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
            <th scope="col">{t('logbook.outside.measure')}</th>
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
                <MetricName of={key} />
              </th>
              {columns.map((column) => (
                <td key={column.id} data-testid={`measure-${key}-${column.id}`}>
                  {shown(column.opening, key)}
                </td>
              ))}
            </tr>
          ))}
          <tr>
            <th scope="row">
              <MetricName of="opticUncovered_clock_h" />
            </th>
            {columns.map((column) => (
              <td key={column.id}>{column.opening === null ? DASH : uncoveredWords(column.opening)}</td>
            ))}
          </tr>
        </tbody>
      </table>
      {compared.length > 0 && <p className="outside-hint">{t('logbook.outside.ownTarget')}</p>}
    </div>
  );
}

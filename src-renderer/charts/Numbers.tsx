import { useState } from 'react';
import { t } from '../i18n/text.ts';
import { number } from '../ui/format.ts';
import { chartRows } from './chart-rows.ts';
import type { ChartSpec } from './chart-spec.ts';

/** Rows of a table beyond which only every so many are shown. */
const MOST_ROWS = 120;

/** The same as text, for who cannot see the drawing or wants the numbers. */
export function Numbers({ spec }: { readonly spec: ChartSpec }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="chart-numbers" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t('common.chart.numbers')}</summary>
      {open && (spec.lines === undefined ? <PointList spec={spec} /> : <LineTable spec={spec} />)}
    </details>
  );
}

const PointList = ({ spec }: { readonly spec: ChartSpec }) => (
  <ol>
    {spec.points.map((point, at) => (
      <li key={at}>{point.words}</li>
    ))}
  </ol>
);

function LineTable({ spec }: { readonly spec: ChartSpec }) {
  const { head, rows } = chartRows(spec);
  const every = Math.max(1, Math.ceil(rows.length / MOST_ROWS));
  return (
    <div className="chart-table">
      <table>
        <caption>{every > 1 ? t('common.chart.everyNth', { title: spec.title, count: every }) : spec.title}</caption>
        <thead>
          <tr>
            {head.map((cell) => (
              <th key={cell} scope="col">
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows
            .filter((_, at) => at % every === 0)
            .map(([x, ...values]) => (
              <tr key={x}>
                <th scope="row">{number(x, spec.xDecimals ?? spec.decimals)}</th>
                {values.map((value, at) => (
                  <td key={at}>{number(value, spec.decimals)}</td>
                ))}
              </tr>
            ))}
        </tbody>
      </table>
    </div>
  );
}

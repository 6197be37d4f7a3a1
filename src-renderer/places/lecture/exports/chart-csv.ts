import { chartRows } from '../../../charts/chart-rows.ts';
import type { ChartSpec } from '../../../charts/chart-spec.ts';
import { t } from '../../../i18n/text.ts';
import { csvOf } from '../../logbook/csv.ts';

/** Seven figures: more than a model can mean, and none of the noise of binary numbers. */
const short = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(7)));

/**
 * The numbers of a chart, one row for each x, then the published values with their sources.
 *
 * @param note said once, in the last column of the first row: what must be known before the numbers are used
 */
export function chartCsv(spec: ChartSpec, note: string): string {
  const { head, rows } = chartRows(spec);
  const { published = [] } = spec;
  const beside =
    published.length === 0
      ? []
      : [
          t('lecture.csv.published', { unit: spec.yLabel }),
          t('lecture.csv.upTo', { label: spec.xLabel }),
          t('lecture.csv.spread'),
          t('lecture.csv.source'),
        ];
  const width = head.length + beside.length;
  const padded = (cells: readonly (string | number | null)[]) => [
    ...cells,
    ...Array.from({ length: width - cells.length }, () => null),
  ];
  const lines = [
    ...rows.map((row) => padded(row.map(short))),
    ...published.map(({ x: [from, to], y, spread, source }) => [
      from,
      ...Array.from({ length: head.length - 1 }, () => null),
      y,
      to,
      spread,
      source,
    ]),
  ];
  const noted = lines.map((cells, at) => [...cells, at === 0 ? note : null]);
  return csvOf([[...head, ...beside, t('lecture.csv.note')], ...(noted.length > 0 ? noted : [[...padded([]), note]])]);
}

/** Metrics as tables: what was graded, and everything that was measured. */
import {
  type GradedItem,
  METRIC_LABELS,
  type MetricKey,
  type MetricLabel,
  type OpeningMetrics,
  type WorkMetrics,
} from '../../physics/index.ts';
import { t, textOf } from '../words/words.ts';
import { capital, clockRanges, number, quantity } from './figures.ts';
import { html, type Markup } from './html.ts';

const isKey = (key: string): key is MetricKey => Object.hasOwn(METRIC_LABELS, key);

/** How a metric is named and printed; one that this program does not know is printed under its key. */
export const labelOf = (key: string): MetricLabel =>
  isKey(key)
    ? { ...METRIC_LABELS[key], label: textOf(METRIC_LABELS[key].label) }
    : { label: key, unit: '', decimals: 2, of: 'work' };

/** Decimals at which a limit, as it was set, is printed whole. */
function decimalsFor(usual: number, ...limits: readonly (number | undefined)[]): number {
  const whole = (decimals: number) =>
    limits.every((limit) => limit === undefined || Math.abs(Number(limit.toFixed(decimals)) - limit) < 1e-9);
  return [usual, usual + 1, usual + 2].find(whole) ?? usual + 2;
}

/** "4.70 to 5.30 mm", "at most 0.30 mm"; empty without limits. */
export function limitWords({ metric, atLeast, atMost }: Pick<GradedItem, 'metric' | 'atLeast' | 'atMost'>): string {
  const { decimals: usual, unit } = labelOf(metric);
  const decimals = decimalsFor(usual, atLeast, atMost);
  if (atLeast !== undefined && atMost !== undefined)
    return t('report.between', { low: number(atLeast, decimals), high: quantity(atMost, decimals, unit) });
  if (atLeast !== undefined) return t('report.atLeast', { value: quantity(atLeast, decimals, unit) });
  return atMost === undefined ? '' : t('report.atMost', { value: quantity(atMost, decimals, unit) });
}

/** Met and missed differ in mark and word. */
export const markOf = (met: boolean): string => t(met ? 'report.met' : 'report.missed');

/** The graded items with value, limits and mark; reasons stand below the ones that were missed. */
export function gradedTable(graded: readonly GradedItem[]): Markup {
  if (graded.length === 0) return html`<p>${t('report.table.nothing')}</p>`;
  const rows = graded.map((item) => {
    const { label, decimals, unit } = labelOf(item.metric);
    return html`<tr><td>${capital(label)}</td><td class="n">${quantity(item.value, decimals, unit)}</td><td class="w">${limitWords(item)}</td><td class="mark">${markOf(item.met)}</td></tr>`;
  });
  return html`<table class="small"><thead><tr><th>${t('report.table.graded')}</th><th class="n">${t('report.table.value')}</th><th>${t('report.table.limits')}</th><th>${t('report.table.mark')}</th></tr></thead><tbody>${rows}</tbody></table>`;
}

function measured(of: 'opening' | 'work', metrics: object | null): Markup[] {
  const values = (metrics ?? {}) as Readonly<Record<string, unknown>>;
  return Object.entries(METRIC_LABELS)
    .filter(([, label]) => label.of === of)
    .map(([key, { label, unit, decimals }]) => {
      const value = values[key];
      const text = quantity(typeof value === 'number' ? value : null, decimals, unit);
      return html`<tr><td>${capital(textOf(label))}</td><td class="n">${text}</td></tr>`;
    });
}

/** Every metric of a complete opening. */
export function openingTable(opening: OpeningMetrics): Markup {
  const uncovered = clockRanges(opening.opticUncovered_clock_h);
  return html`<section><table class="small"><thead><tr><th>${t('report.table.opening')}</th><th class="n">${t('report.table.value')}</th></tr></thead><tbody>${measured('opening', opening)}<tr><td>${t('report.table.uncovered')}</td><td class="n">${uncovered}</td></tr></tbody></table></section>`;
}

/** Every metric of the work, in one column or, where there is room, in two. */
export function workTables(work: WorkMetrics | null, columns: 1 | 2): readonly Markup[] {
  const rows = measured('work', work);
  const each = Math.ceil(rows.length / columns);
  const parts = columns === 1 ? [rows] : [rows.slice(0, each), rows.slice(each)];
  return parts.map(
    (part) =>
      html`<section><table class="small"><thead><tr><th>${t('report.table.work')}</th><th class="n">${t('report.table.value')}</th></tr></thead><tbody>${part}</tbody></table></section>`,
  );
}

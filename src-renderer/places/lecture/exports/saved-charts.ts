import { MODEL_VERSION } from '../../../../physics/index.ts';
import { chartColours } from '../../../charts/chart-colours.ts';
import type { ChartSpec } from '../../../charts/chart-spec.ts';
import { t } from '../../../i18n/text.ts';
import { ageChart } from '../charts/age-chart.ts';
import { AGE_MEASURE_IDS, type AgeMeasure, ageTitle } from '../charts/age-measures.ts';
import { useAgeCharts } from '../charts/age-store.ts';
import { headsOf, PLOT_IDS, type PlotId, plotSpec, plotTitle } from '../plots/plot-model.ts';
import { eyesOf } from '../plots/slow-twin.ts';
import { useTwin } from '../twin/twin-store.ts';
import { chartCsv } from './chart-csv.ts';
import type { Made } from './export-store.ts';

export type ChartId = `plot ${PlotId}` | `ages ${AgeMeasure}`;

/** Every plot and chart there is, whether it is on the page or not. */
export const CHART_IDS: readonly ChartId[] = [
  ...PLOT_IDS.map((id) => `plot ${id}` as const),
  ...AGE_MEASURE_IDS.map((id) => `ages ${id}` as const),
];

/** What a plot or chart is called in a list of all. */
export function chartName(id: ChartId): string {
  const name = id.split(' ')[1]!;
  return isPlot(name) ? plotTitle(name) : t('lecture.save.byAge', { title: ageTitle(name as AgeMeasure) });
}

const SIZE = { width_px: 900, height_px: 520, fontSize_px: 15 };
const note = (): string => t('lecture.save.note', { caution: t('common.caution'), version: MODEL_VERSION });

const isPlot = (id: string): id is PlotId => (PLOT_IDS as readonly string[]).includes(id);

function chosen(id: ChartId): { readonly spec: ChartSpec; readonly heads: readonly (number | null)[] } {
  const name = id.split(' ')[1]!;
  if (id.startsWith('plot ') && isPlot(name)) {
    const state = useTwin.getState();
    const eyes = eyesOf(state);
    return { spec: plotSpec(name, eyes), heads: headsOf(name, eyes, state.step) };
  }
  const measure = name as AgeMeasure;
  const { asked, values } = useAgeCharts.getState();
  return { spec: ageChart(measure, asked[measure], values), heads: [] };
}

/** The numbers of a chart. @throws Error where it has none yet */
export function savedCsv(id: ChartId): Made {
  const { spec } = chosen(id);
  if (!(spec.lines ?? []).some(({ ys }) => ys.some((y) => y !== null))) throw new Error(t('lecture.save.noValues'));
  return { title: spec.title, ending: 'csv', content: chartCsv(spec, note()) };
}

/** A chart as a vector drawing in the look of the page. */
export async function savedSvg(id: ChartId): Promise<Made> {
  // only who saves a drawing needs the library for it
  const { chartSvg } = await import('../../../charts/chart-svg.ts');
  const { spec, heads } = chosen(id);
  const colours = chartColours(document.documentElement);
  return { title: spec.title, ending: 'svg', content: chartSvg(spec, heads, note(), { ...SIZE, colours }) };
}

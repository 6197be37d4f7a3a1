import { useEffect, useMemo, useRef, useState } from 'react';
import { Chart } from '../../../charts/Chart.tsx';
import { Legend } from '../../../charts/Legend.tsx';
import { t, useLanguage } from '../../../i18n/text.ts';
import { AgeCharts } from '../charts/AgeCharts.tsx';
import { ExportPanel } from '../exports/ExportPanel.tsx';
import { twinEngine } from '../twin/twin-store.ts';
import { loadPlotChoice, usePlotChoice } from './plot-choice.ts';
import { usePlotHeight } from './plot-height.ts';
import { headsOf, namesOf, PLOT_IDS, type PlotId, type PlottedEye, plotSpec, stepAt } from './plot-model.ts';
import { eyesOf, useSlowTwin } from './slow-twin.ts';
import './plots.css';

/** What the eyes have done so far, as curves; the moment shown stands on each of them. */
export function PlotPanel() {
  const { shown, toggle } = usePlotChoice();
  const { left, right, step, lastStep } = useSlowTwin();
  const eyes = useMemo(() => eyesOf({ left, right }), [left, right]);
  const [ages, setAges] = useState(false);
  const list = useRef<HTMLDivElement>(null);
  const height_px = usePlotHeight(list, shown.length);
  useEffect(() => void loadPlotChoice(), []);
  return (
    <div className="plots" data-testid="plots">
      <div className="plots-bar">
        <fieldset className="plots-choice">
          <legend className="for-ears">{t('lecture.plots.shown')}</legend>
          {PLOT_IDS.map((id) => (
            <button
              key={id}
              type="button"
              aria-pressed={shown.includes(id)}
              onClick={() => toggle(id)}
              data-testid={`show-${id}`}
            >
              {t(`lecture.plots.${id}.short`)}
            </button>
          ))}
        </fieldset>
        <Legend lines={namesOf(eyes).map((name) => ({ name }))} />
        <span className="plots-more">
          <button type="button" onClick={() => setAges(true)} data-testid="open-age-charts">
            {t('lecture.plots.ages')}
          </button>
          <ExportPanel />
        </span>
      </div>
      <div className="plots-list" ref={list}>
        {shown.map((id) => (
          <Plot key={id} id={id} eyes={eyes} step={step} lastStep={lastStep} height_px={height_px} />
        ))}
      </div>
      {ages && <AgeCharts onClose={() => setAges(false)} />}
    </div>
  );
}

interface PlotProps {
  readonly id: PlotId;
  readonly eyes: readonly PlottedEye[];
  readonly step: number;
  readonly lastStep: number;
  readonly height_px: number;
}

function Plot({ id, eyes, step, lastStep, height_px }: PlotProps) {
  const grown = eyes.map(({ label, series }) => `${label} ${series.length}`).join();
  const language = useLanguage((state) => state.language);
  const spec = useMemo(() => plotSpec(id, eyes), [id, grown, language, ...eyes.map(({ series }) => series)]);
  const heads = useMemo(() => headsOf(id, eyes, step), [id, spec, step]);
  const seek = (x: number) => twinEngine.seek(stepAt(id, eyes, x, lastStep));
  return (
    <div data-testid={`plot-${id}`} data-head={heads.map((x) => (x === null ? '' : x.toFixed(2))).join(' ')}>
      <Chart spec={spec} heads={heads} height_px={height_px} onSeek={seek} legend={false} />
    </div>
  );
}

import { useEffect, useMemo, useRef } from 'react';
import { TEACHING_CAUTION } from '../../../../physics/index.ts';
import { Chart } from '../../../charts/Chart.tsx';
import { quantity } from '../../../ui/format.ts';
import { AgeForm } from './AgeForm.tsx';
import { ageChart, outcomesOf, publishedOf } from './age-chart.ts';
import { AGE_MEASURE_IDS, AGE_MEASURES, type AgeMeasure } from './age-measures.ts';
import { useAgeCharts } from './age-store.ts';
import './age-charts.css';

/** What the model says of every age, computed here and now, beside what others measured. */
export function AgeCharts({ onClose }: { readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const { measure, choose, look } = useAgeCharts();
  useEffect(() => {
    dialog.current?.showModal();
    void look();
  }, [look]);
  return (
    <dialog ref={dialog} className="age-charts" onClose={onClose} aria-label="Charts by age" data-testid="age-charts">
      <header>
        <h2>Charts by age</h2>
        <label className="field">
          Chart
          <select
            value={measure}
            onChange={(event) => choose(event.target.value as AgeMeasure)}
            data-testid="age-measure"
          >
            {AGE_MEASURE_IDS.map((id) => (
              <option key={id} value={id}>
                {AGE_MEASURES[id].title}
              </option>
            ))}
          </select>
        </label>
        <button type="button" onClick={() => dialog.current?.close()} data-testid="close-age-charts">
          Close
        </button>
      </header>
      <AgeForm key={measure} />
      <Progress />
      <AgeChart measure={measure} />
    </dialog>
  );
}

function Progress() {
  const { run, fault, cancel, measure } = useAgeCharts();
  if (fault !== null)
    return (
      <p className="problems" role="alert">
        The computation ended early: {fault}
      </p>
    );
  if (run === null) return null;
  const elsewhere = run.measure === measure ? '' : ` (${AGE_MEASURES[run.measure].title.toLowerCase()})`;
  return (
    <div className="age-progress" data-testid="age-progress">
      <progress value={run.done} max={run.of} aria-label="Points computed" />
      <span role="status">
        {run.done} of {run.of} points computed{elsewhere}
      </span>
      <button type="button" onClick={cancel} data-testid="age-cancel">
        Cancel
      </button>
    </div>
  );
}

function AgeChart({ measure }: { readonly measure: AgeMeasure }) {
  const asked = useAgeCharts((state) => state.asked[measure]);
  const values = useAgeCharts((state) => state.values);
  const spec = useMemo(() => ageChart(measure, asked, values), [measure, asked, values]);
  const { none, faults } = outcomesOf(measure, asked, values);
  const { definition, caveat } = AGE_MEASURES[measure];
  return (
    <div className="age-chart" data-testid={`age-chart-${measure}`}>
      <Chart key={measure} spec={spec} height_px={Math.max(240, Math.round(window.innerHeight * 0.5))} />
      <div className="age-words">
        {none.length > 0 && (
          <p data-testid="age-none">
            No value at{' '}
            {none.map((cell) => `${cell.age_years} years and ${quantity(cell.netPressure_mmHg, 1, 'mmHg')}`).join('; ')}
            : there the model gives none.
          </p>
        )}
        {faults.map(({ cell, fault }) => (
          <p key={`${cell.age_years} ${cell.netPressure_mmHg}`} className="problems">
            {cell.age_years} years could not be computed: {fault}
          </p>
        ))}
        <h3>What is computed</h3>
        <p>{definition}</p>
        <h3>What to keep in mind</h3>
        <p data-testid="age-caveat">{caveat}</p>
        <Published measure={measure} />
        <p className="age-caution">{TEACHING_CAUTION}</p>
      </div>
    </div>
  );
}

function Published({ measure }: { readonly measure: AgeMeasure }) {
  const { unit, decimals } = AGE_MEASURES[measure];
  const published = publishedOf(measure);
  if (published.length === 0) return <p>Nothing has been published that could stand beside it.</p>;
  return (
    <>
      <h3>Published, numbered as in the chart</h3>
      <ol data-testid="age-published">
        {published.map(({ x: [from, to], y, spread, source }) => (
          <li key={`${from} ${source}`}>
            {from === to ? `${from} years` : `${from} to ${to} years`}: {quantity(y, Math.max(decimals, 0), unit)}
            {spread === null ? '' : ` ± ${spread}`}; {source}
          </li>
        ))}
      </ol>
    </>
  );
}

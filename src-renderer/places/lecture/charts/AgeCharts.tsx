import { useEffect, useMemo, useRef } from 'react';
import { Chart } from '../../../charts/Chart.tsx';
import { t, useLanguage } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';
import { AgeForm } from './AgeForm.tsx';
import { ageChart, outcomesOf, publishedOf } from './age-chart.ts';
import { AGE_MEASURE_IDS, AGE_MEASURES, type AgeMeasure, ageTitle } from './age-measures.ts';
import { useAgeCharts } from './age-store.ts';
import { asWritten } from './parse-numbers.ts';
import './age-charts.css';

/** What the model says of every age, computed here and now, beside what others measured. */
export function AgeCharts({ onClose }: { readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const { measure, choose, look } = useAgeCharts();
  const language = useLanguage((state) => state.language);
  useEffect(() => {
    dialog.current?.showModal();
    void look();
  }, [look]);
  return (
    <dialog
      ref={dialog}
      className="age-charts"
      onClose={onClose}
      aria-label={t('lecture.ages.title')}
      data-testid="age-charts"
    >
      <header>
        <h2>{t('lecture.ages.title')}</h2>
        <label className="field">
          {t('lecture.ages.chart')}
          <select
            value={measure}
            onChange={(event) => choose(event.target.value as AgeMeasure)}
            data-testid="age-measure"
          >
            {AGE_MEASURE_IDS.map((id) => (
              <option key={id} value={id}>
                {ageTitle(id)}
              </option>
            ))}
          </select>
        </label>
        <button type="button" onClick={() => dialog.current?.close()} data-testid="close-age-charts">
          {t('lecture.ages.close')}
        </button>
      </header>
      <AgeForm key={`${measure} ${language}`} />
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
        {t('lecture.ages.early', { fault })}
      </p>
    );
  if (run === null) return null;
  const { done, of } = run;
  const said =
    run.measure === measure
      ? t('lecture.ages.progress', { done, of })
      : t('lecture.ages.progressOf', { done, of, chart: ageTitle(run.measure) });
  return (
    <div className="age-progress" data-testid="age-progress">
      <progress value={run.done} max={run.of} aria-label={t('lecture.ages.points')} />
      <span role="status">{said}</span>
      <button type="button" onClick={cancel} data-testid="age-cancel">
        {t('lecture.ages.cancel')}
      </button>
    </div>
  );
}

function AgeChart({ measure }: { readonly measure: AgeMeasure }) {
  const asked = useAgeCharts((state) => state.asked[measure]);
  const values = useAgeCharts((state) => state.values);
  const language = useLanguage((state) => state.language);
  const spec = useMemo(() => ageChart(measure, asked, values), [measure, asked, values, language]);
  const { none, faults } = outcomesOf(measure, asked, values);
  return (
    <div className="age-chart" data-testid={`age-chart-${measure}`}>
      <Chart key={measure} spec={spec} height_px={Math.max(240, Math.round(window.innerHeight * 0.5))} />
      <div className="age-words">
        {none.length > 0 && (
          <p data-testid="age-none">
            {t('lecture.ages.none', {
              places: none
                .map((cell) =>
                  t('lecture.ages.noneAt', {
                    age: asWritten(cell.age_years),
                    pressure: quantity(cell.netPressure_mmHg, 1, 'mmHg'),
                  }),
                )
                .join('; '),
            })}
          </p>
        )}
        {faults.map(({ cell, fault }) => (
          <p key={`${cell.age_years} ${cell.netPressure_mmHg}`} className="problems">
            {t('lecture.ages.fault', { age: asWritten(cell.age_years), fault })}
          </p>
        ))}
        <h3>{t('lecture.ages.what')}</h3>
        <p>{t(`lecture.ages.${measure}.definition`)}</p>
        <h3>{t('lecture.ages.mind')}</h3>
        <p data-testid="age-caveat">{t(`lecture.ages.${measure}.caveat`)}</p>
        <Published measure={measure} />
        <p className="age-caution">{t('common.caution')}</p>
      </div>
    </div>
  );
}

function publishedWords(from: number, to: number, value: string, spread: number | null, source: string): string {
  const age =
    from === to
      ? t('lecture.ages.year', { age: asWritten(from) })
      : t('lecture.ages.years', { from: asWritten(from), to: asWritten(to) });
  return spread === null
    ? t('lecture.ages.publishedOne', { age, value, source })
    : t('lecture.ages.publishedSpread', { age, value, spread: asWritten(spread), source });
}

function Published({ measure }: { readonly measure: AgeMeasure }) {
  const { decimals } = AGE_MEASURES[measure];
  const unit = t(`lecture.ages.${measure}.unit`);
  const published = publishedOf(measure);
  if (published.length === 0) return <p>{t('lecture.ages.noPublished')}</p>;
  return (
    <>
      <h3>{t('lecture.ages.published')}</h3>
      <ol data-testid="age-published">
        {published.map(({ x: [from, to], y, spread, source }) => (
          <li key={`${from} ${source}`}>{publishedWords(from, to, quantity(y, decimals, unit), spread, source)}</li>
        ))}
      </ol>
    </>
  );
}

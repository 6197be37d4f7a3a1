import { useEffect, useMemo, useState } from 'react';
import { METRIC_LABELS, type MetricKey } from '../../../../physics/index.ts';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import { Chart } from '../../../charts/Chart.tsx';
import { t, useLanguage } from '../../../i18n/text.ts';
import { usePeople } from '../../../stores/people-store.ts';
import { Explained } from '../../../ui/Explained.tsx';
import { type Choice, scenarioChoices } from '../attempt-filter.ts';
import { useLogbook } from '../logbook-store.ts';
import { isMetric, metricTitle } from '../metric-words.ts';
import { Picker } from '../Picker.tsx';
import { tryOrSay } from '../save-text.ts';
import { storeHost } from '../store-host.ts';
import { CourseLimitsForm } from './CourseLimitsForm.tsx';
import { learningLimit, loadLimits, useLimits } from './course-limits.ts';
import {
  type CurveChoice,
  type CusumChart,
  curveAttempts,
  eyeChanged,
  latestGraded,
  learningChart,
  metricChart,
  twoBoundaryChart,
} from './curve-model.ts';

/** The person with the most attempts in the eye with the most, unless the person at work has some. */
function firstChoice(attempts: readonly AttemptSummary[], current: string | undefined): CurveChoice | null {
  const closed = attempts.filter(({ passed }) => passed !== null);
  const mine = closed.filter(({ personId }) => personId === current);
  const from = mine.length > 0 ? mine : closed;
  const count = new Map<string, number>();
  for (const { personId, scenarioId } of from) {
    const key = JSON.stringify([personId, scenarioId]);
    count.set(key, (count.get(key) ?? 0) + 1);
  }
  const most = [...count].sort((a, b) => b[1] - a[1])[0];
  if (most === undefined) return null;
  const [personId, scenarioId] = JSON.parse(most[0]) as [string, string];
  const trials = from.some(
    (one) => one.personId === personId && one.scenarioId === scenarioId && one.place === 'trial',
  );
  return { personId, scenarioId, place: trials ? 'trial' : null };
}

/** How one person's attempts in one eye come on. */
export function CurveView() {
  const { attempts, people } = useLogbook();
  const current = usePeople((state) => state.current?.id);
  const [choice, setChoice] = useState<CurveChoice | null>(() => firstChoice(attempts, current));
  useEffect(() => void loadLimits(), []);
  if (choice === null)
    return (
      <p className="log-quiet" data-testid="no-curve">
        {t('logbook.curve.none')}
      </p>
    );
  const persons = people.map(({ id, name }): Choice => ({ id, label: name }));
  return (
    <div className="log-page" data-testid="curve">
      <div className="log-filter">
        <Picker
          label={t('logbook.filter.person')}
          value={choice.personId}
          choices={persons}
          onPick={(personId) => setChoice({ ...choice, personId })}
          testid="curve-person"
        />
        <Picker
          label={t('logbook.filter.eye')}
          value={choice.scenarioId}
          choices={scenarioChoices(attempts)}
          onPick={(scenarioId) => setChoice({ ...choice, scenarioId })}
          testid="curve-scenario"
        />
        <Picker
          label={t('logbook.class.counted')}
          value={choice.place ?? ''}
          choices={[
            { id: 'trial', label: t('logbook.class.trialsOnly') },
            { id: 'bench', label: t('logbook.class.benchOnly') },
            { id: '', label: t('logbook.class.both') },
          ]}
          onPick={(place) => setChoice({ ...choice, place: place === '' ? null : (place as 'trial' | 'bench') })}
          testid="curve-place"
        />
        <ReportButtons choice={choice} />
      </div>
      <Curves choice={choice} />
    </div>
  );
}

function ReportButtons({ choice: { personId, scenarioId } }: { readonly choice: CurveChoice }) {
  return (
    <>
      <button
        type="button"
        onClick={() => void tryOrSay(() => storeHost().openPersonReport(personId, scenarioId))}
        data-testid="person-report"
      >
        {t('logbook.does.reportToPrint')}
      </button>
      <button type="button" onClick={() => void tryOrSay(() => storeHost().savePersonReport(personId, scenarioId))}>
        {t('logbook.does.reportAsPdf')}
      </button>
    </>
  );
}

function Curves({ choice }: { readonly choice: CurveChoice }) {
  const all = useLogbook((state) => state.attempts);
  const attempts = useMemo(() => curveAttempts(all, choice), [all, choice]);
  if (attempts.length === 0)
    return (
      <p className="log-quiet" data-testid="no-curve">
        {t('logbook.curve.noneOfKind')}
      </p>
    );
  return (
    <>
      <p className="log-quiet" data-testid="curve-count">
        {t('logbook.curve.count', {
          count: attempts.length,
          passed: attempts.filter(({ passed }) => passed === true).length,
        })}{' '}
        {eyeChanged(attempts) ? t('logbook.curve.eyeChanged') : ''}
      </p>
      <Cusums attempts={attempts} />
      <MetricCharts attempts={attempts} />
    </>
  );
}

function Cusums({ attempts }: { readonly attempts: readonly AttemptSummary[] }) {
  const { limits, loaded } = useLimits();
  const limit = useMemo(() => (loaded ? learningLimit(limits) : null), [limits, loaded]);
  const language = useLanguage((state) => state.language);
  const two = useMemo(() => twoBoundaryChart(attempts, limits), [attempts, limits, language]);
  const learning = useMemo(
    () => (limit === null ? null : learningChart(attempts, limits, limit)),
    [attempts, limits, limit, language],
  );
  return (
    <section aria-label={t('logbook.curve.cusums')}>
      <h3>{t('logbook.curve.enough')}</h3>
      <div className="log-charts log-charts-two">
        <CusumPanel chart={two} testid="cusum-two-boundary" />
        {learning !== null && <CusumPanel chart={learning} testid="cusum-learning" />}
      </div>
      {limit !== null && <CourseLimitsForm key={JSON.stringify(limits)} limits={limits} simulated={limit} />}
    </section>
  );
}

function CusumPanel({ chart, testid }: { readonly chart: CusumChart; readonly testid: string }) {
  return (
    <div data-testid={testid}>
      <Chart spec={chart.spec} height_px={210} heading={<Explained of="cusum">{chart.spec.title}</Explained>} />
      <p>
        <b data-testid={`${testid}-says`}>{chart.says}</b> {chart.explained}
      </p>
    </div>
  );
}

function MetricCharts({ attempts }: { readonly attempts: readonly AttemptSummary[] }) {
  const graded = latestGraded(attempts);
  const [byDate, setByDate] = useState(false);
  const [more, setMore] = useState<string>('');
  const keys = [...new Set([...graded.map(({ metric }) => metric), ...(more === '' ? [] : [more])])];
  const others = (Object.keys(METRIC_LABELS) as MetricKey[])
    .filter((key) => !graded.some(({ metric }) => metric === key))
    .map((key) => ({ id: key, label: metricTitle(key) }));
  const language = useLanguage((state) => state.language);
  const specs = useMemo(
    () =>
      keys.map((key) => ({
        key,
        spec: metricChart(
          key,
          attempts,
          graded.find(({ metric }) => metric === key),
          byDate,
        ),
      })),
    [attempts, byDate, more, language],
  );
  return (
    <section aria-label={t('logbook.curve.metrics')}>
      <h3>{t('logbook.curve.comesOn')}</h3>
      <div className="log-filter">
        <Picker
          label={t('logbook.curve.along')}
          value={byDate ? 'date' : 'number'}
          choices={[
            { id: 'number', label: t('logbook.curve.byNumber') },
            { id: 'date', label: t('logbook.curve.byDate') },
          ]}
          onPick={(way) => setByDate(way === 'date')}
          testid="curve-axis"
        />
        <Picker
          label={t('logbook.curve.another')}
          value={more}
          choices={[{ id: '', label: t('logbook.curve.noOther') }, ...others]}
          onPick={setMore}
          testid="curve-more"
        />
      </div>
      <div className="log-charts">
        {specs.map(({ key, spec }) => (
          <div key={key} data-testid={`curve-${key}`}>
            <Chart spec={spec} heading={isMetric(key) ? <Explained of={key}>{spec.title}</Explained> : spec.title} />
          </div>
        ))}
      </div>
    </section>
  );
}

import { useMemo, useState } from 'react';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import { Chart } from '../../../charts/Chart.tsx';
import { t, useLanguage } from '../../../i18n/text.ts';
import { Explained } from '../../../ui/Explained.tsx';
import { type Choice, scenarioChoices } from '../attempt-filter.ts';
import { latestGraded } from '../curve/curve-model.ts';
import { exportBundle, fileNameOf, importBundle, jobRuns, today, useJob } from '../jobs.ts';
import { useLogbook } from '../logbook-store.ts';
import { isMetric } from '../metric-words.ts';
import { Picker } from '../Picker.tsx';
import { saveText } from '../save-text.ts';
import { ClassOpenings } from './ClassOpenings.tsx';
import { ClassTable } from './ClassTable.tsx';
import { type ClassChoice, classAttempts, classCsv, type PersonRow, personRows, stripChart } from './class-model.ts';

/** The eye with the most closed attempts. */
function mostUsed(attempts: readonly AttemptSummary[]): string | null {
  const count = new Map<string, number>();
  for (const { scenarioId, passed } of attempts)
    if (passed !== null) count.set(scenarioId, (count.get(scenarioId) ?? 0) + 1);
  return [...count].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

/** A class's results side by side. */
export function ClassView() {
  const { attempts, classes } = useLogbook();
  const [choice, setChoice] = useState<ClassChoice | null>(() => {
    const scenarioId = mostUsed(attempts);
    return scenarioId === null ? null : { classId: classes[0]?.id ?? null, scenarioId, place: null };
  });
  if (choice === null)
    return (
      <p className="log-quiet" data-testid="no-class">
        {t('logbook.class.none')}
      </p>
    );
  return (
    <div className="log-page" data-testid="class">
      <div className="log-filter">
        <Picker
          label={t('logbook.filter.class')}
          value={choice.classId ?? ''}
          choices={[
            ...classes.map(({ id, name }): Choice => ({ id, label: name })),
            { id: '', label: t('logbook.class.everybody') },
          ]}
          onPick={(id) => setChoice({ ...choice, classId: id === '' ? null : id })}
          testid="class-pick"
        />
        <Picker
          label={t('logbook.filter.eye')}
          value={choice.scenarioId}
          choices={scenarioChoices(attempts)}
          onPick={(scenarioId) => setChoice({ ...choice, scenarioId })}
          testid="class-scenario"
        />
        <Picker
          label={t('logbook.class.counted')}
          value={choice.place ?? ''}
          choices={[
            { id: '', label: t('logbook.class.both') },
            { id: 'trial', label: t('logbook.class.trialsOnly') },
            { id: 'bench', label: t('logbook.class.benchOnly') },
          ]}
          onPick={(place) => setChoice({ ...choice, place: place === '' ? null : (place as 'trial' | 'bench') })}
          testid="class-place"
        />
      </div>
      <ClassResults choice={choice} />
    </div>
  );
}

function ClassResults({ choice }: { readonly choice: ClassChoice }) {
  const { attempts, classes, people } = useLogbook();
  const [brought, setBrought] = useState<string | null>(null);
  const chosen = useMemo(() => classAttempts(attempts, classes, choice), [attempts, classes, choice]);
  const group = classes.find(({ id }) => id === choice.classId) ?? null;
  const rows = useMemo(() => personRows(chosen, people, group), [chosen, people, group]);
  return (
    <>
      <ClassActions rows={rows} chosen={chosen} name={group?.name ?? 'everybody'} />
      <div className="log-columns">
        <div className="log-column log-wide log-class-wide">
          <ClassTable rows={rows} brought={brought} onBring={setBrought} />
        </div>
        <ClassOpenings choice={choice} attempts={chosen} brought={brought} />
      </div>
      <Distributions chosen={chosen} rows={rows} />
    </>
  );
}

function ClassActions({
  rows,
  chosen,
  name,
}: {
  readonly rows: readonly PersonRow[];
  readonly chosen: readonly AttemptSummary[];
  readonly name: string;
}) {
  const busy = useJob(jobRuns);
  const fileName = `${fileNameOf(name)}-${today()}`;
  const passed = chosen.filter((one) => one.passed === true).length;
  return (
    <div className="log-actions">
      <span data-testid="class-count" role="status">
        {t('logbook.class.count', { people: rows.length, count: chosen.length, passed })}
      </span>
      <span className="log-space" />
      <button
        type="button"
        disabled={rows.length === 0}
        onClick={() => void saveText(`${fileName}.csv`, classCsv(rows))}
        data-testid="class-csv"
      >
        {t('logbook.class.saveCsv')}
      </button>
      <button
        type="button"
        disabled={chosen.length === 0 || busy}
        onClick={() =>
          void exportBundle(
            fileName,
            chosen.map(({ id }) => id),
          )
        }
        data-testid="class-export"
      >
        {t('logbook.class.export')}
      </button>
      <button type="button" disabled={busy} onClick={() => void importBundle()} data-testid="class-import">
        {t('logbook.does.importBundle')}
      </button>
    </div>
  );
}

function Distributions({
  chosen,
  rows,
}: {
  readonly chosen: readonly AttemptSummary[];
  readonly rows: readonly PersonRow[];
}) {
  const language = useLanguage((state) => state.language);
  const specs = useMemo(
    () =>
      [...new Set(latestGraded(chosen).map(({ metric }) => metric))]
        .filter(isMetric)
        .map((key) => ({ key, spec: stripChart(key, chosen, rows) })),
    [chosen, rows, language],
  );
  if (specs.length === 0) return null;
  return (
    <section aria-label={t('logbook.class.distributions')}>
      <h3>{t('logbook.class.spread')}</h3>
      <p className="log-quiet">{t('logbook.class.spreadExplained')}</p>
      <div className="log-charts">
        {specs.map(({ key, spec }) => (
          <Chart key={key} spec={spec} heading={<Explained of={key}>{spec.title}</Explained>} />
        ))}
      </div>
    </section>
  );
}

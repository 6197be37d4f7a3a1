import { useMemo, useState } from 'react';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import { Chart } from '../../../charts/Chart.tsx';
import { type Choice, scenarioChoices } from '../attempt-filter.ts';
import { latestGraded } from '../curve/curve-model.ts';
import { exportBundle, fileNameOf, importBundle, jobRuns, today, useJob } from '../jobs.ts';
import { useLogbook } from '../logbook-store.ts';
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
        There is no closed attempt yet. Take in a bundle, or let somebody finish an attempt.
      </p>
    );
  return (
    <div className="log-page" data-testid="class">
      <div className="log-filter">
        <Picker
          label="Class"
          value={choice.classId ?? ''}
          choices={[
            ...classes.map(({ id, name }): Choice => ({ id, label: name })),
            { id: '', label: 'Everybody on this machine' },
          ]}
          onPick={(id) => setChoice({ ...choice, classId: id === '' ? null : id })}
          testid="class-pick"
        />
        <Picker
          label="Eye"
          value={choice.scenarioId}
          choices={scenarioChoices(attempts)}
          onPick={(scenarioId) => setChoice({ ...choice, scenarioId })}
          testid="class-scenario"
        />
        <Picker
          label="Attempts counted"
          value={choice.place ?? ''}
          choices={[
            { id: '', label: 'Both' },
            { id: 'trial', label: 'Trials only' },
            { id: 'bench', label: 'Bench only' },
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
        {rows.length} people, {chosen.length} closed attempts, {passed} passed
      </span>
      <span className="log-space" />
      <button
        type="button"
        disabled={rows.length === 0}
        onClick={() => void saveText(`${fileName}.csv`, classCsv(rows))}
        data-testid="class-csv"
      >
        Save the table as CSV
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
        Export these attempts
      </button>
      <button type="button" disabled={busy} onClick={() => void importBundle()} data-testid="class-import">
        Import a bundle
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
  const specs = useMemo(
    () => [...new Set(latestGraded(chosen).map(({ metric }) => metric))].map((key) => stripChart(key, chosen, rows)),
    [chosen, rows],
  );
  if (specs.length === 0) return null;
  return (
    <section aria-label="Distributions">
      <h3>How each metric is spread</h3>
      <p className="log-quiet">
        A row for each person, a mark for each attempt: a dot is within the tolerance, a cross is not. The band is what
        the tolerance allows.
      </p>
      <div className="log-charts">
        {specs.map((spec) => (
          <Chart key={spec.title} spec={spec} />
        ))}
      </div>
    </section>
  );
}

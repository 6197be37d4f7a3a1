import { useMemo } from 'react';
import {
  bundleChoices,
  type Choice,
  isFiltering,
  type LogbookFilter,
  NO_FILTER,
  type PassedFilter,
  scenarioChoices,
} from './attempt-filter.ts';
import { setFilter, useLogbook } from './logbook-store.ts';

/** Holds attempts back by who, what, when and how it ended. */
export function FilterBar() {
  const { filter, people, classes, attempts } = useLogbook();
  const scenarios = useMemo(() => scenarioChoices(attempts), [attempts]);
  const bundles = useMemo(() => bundleChoices(attempts), [attempts]);
  const named = (list: readonly { readonly id: string; readonly name: string }[]): Choice[] =>
    list.map(({ id, name }) => ({ id, label: name }));
  const passed: Choice[] = [
    { id: 'passed', label: 'Passed' },
    { id: 'missed', label: 'Not passed' },
    { id: 'unfinished', label: 'Unfinished' },
  ];
  const places: Choice[] = [
    { id: 'trial', label: 'Trial' },
    { id: 'bench', label: 'Bench' },
  ];
  return (
    <search className="log-filter" aria-label="Filter">
      <Pick label="Person" field="personId" choices={named(people)} />
      <Pick label="Class" field="classId" choices={named(classes)} />
      <Pick label="Eye" field="scenarioId" choices={scenarios} />
      <Pick label="Place" field="place" choices={places} />
      <label className="log-field">
        Passed
        <select
          value={filter.passed}
          onChange={(event) => setFilter({ passed: event.target.value as PassedFilter })}
          data-testid="filter-passed"
        >
          <option value="any">All</option>
          {passed.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <Day label="From" field="since" />
      <Day label="Until" field="until" />
      <Pick label="Bundle" field="fromBundle" choices={bundles} />
      <button
        type="button"
        disabled={!isFiltering(filter)}
        onClick={() => setFilter(NO_FILTER)}
        data-testid="filter-clear"
      >
        Show all
      </button>
    </search>
  );
}

function Pick({
  label,
  field,
  choices,
}: {
  readonly label: string;
  readonly field: 'personId' | 'classId' | 'scenarioId' | 'place' | 'fromBundle';
  readonly choices: readonly Choice[];
}) {
  const value = useLogbook((state) => state.filter[field]);
  return (
    <label className="log-field">
      {label}
      <select
        value={value ?? ''}
        onChange={(event) =>
          setFilter({ [field]: event.target.value === '' ? null : event.target.value } as Partial<LogbookFilter>)
        }
        data-testid={`filter-${field}`}
      >
        <option value="">All</option>
        {choices.map((choice) => (
          <option key={choice.id} value={choice.id}>
            {choice.label}
          </option>
        ))}
      </select>
    </label>
  );
}

function Day({ label, field }: { readonly label: string; readonly field: 'since' | 'until' }) {
  const value = useLogbook((state) => state.filter[field]);
  return (
    <label className="log-field">
      {label}
      <input
        type="date"
        value={value}
        onChange={(event) => setFilter({ [field]: event.target.value })}
        data-testid={`filter-${field}`}
      />
    </label>
  );
}

import { useMemo } from 'react';
import { t, useLanguage } from '../../i18n/text.ts';
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
  const language = useLanguage((state) => state.language);
  const scenarios = useMemo(() => scenarioChoices(attempts), [attempts]);
  const bundles = useMemo(() => bundleChoices(attempts), [attempts, language]);
  const named = (list: readonly { readonly id: string; readonly name: string }[]): Choice[] =>
    list.map(({ id, name }) => ({ id, label: name }));
  const passed: Choice[] = [
    { id: 'passed', label: t('logbook.filter.isPassed') },
    { id: 'missed', label: t('logbook.filter.isMissed') },
    { id: 'unfinished', label: t('logbook.filter.isUnfinished') },
  ];
  const places: Choice[] = [
    { id: 'trial', label: t('logbook.place.trial') },
    { id: 'bench', label: t('logbook.place.bench') },
  ];
  return (
    <search className="log-filter" aria-label={t('logbook.filter.label')}>
      <Pick label={t('logbook.filter.person')} field="personId" choices={named(people)} />
      <Pick label={t('logbook.filter.class')} field="classId" choices={named(classes)} />
      <Pick label={t('logbook.filter.eye')} field="scenarioId" choices={scenarios} />
      <Pick label={t('logbook.filter.place')} field="place" choices={places} />
      <label className="log-field">
        {t('logbook.filter.passed')}
        <select
          value={filter.passed}
          onChange={(event) => setFilter({ passed: event.target.value as PassedFilter })}
          data-testid="filter-passed"
        >
          <option value="any">{t('logbook.filter.all')}</option>
          {passed.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <Day label={t('logbook.filter.from')} field="since" />
      <Day label={t('logbook.filter.until')} field="until" />
      <Pick label={t('logbook.filter.bundle')} field="fromBundle" choices={bundles} />
      <button
        type="button"
        disabled={!isFiltering(filter)}
        onClick={() => setFilter(NO_FILTER)}
        data-testid="filter-clear"
      >
        {t('logbook.filter.showAll')}
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
        <option value="">{t('logbook.filter.all')}</option>
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

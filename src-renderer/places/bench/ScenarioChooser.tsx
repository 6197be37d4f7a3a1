import { scenarioTitle } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import type { AttemptSession } from './attempt-session.ts';
import { LessonButton } from './Lesson.tsx';
import { openScenarioFile, scenarioById, useScenarioGroups, useScenarios } from './scenario-store.ts';

/** Which eye to work on at the bench. */
export function ScenarioChooser({ session }: { readonly session: AttemptSession }) {
  const groups = useScenarioGroups();
  const problems = useScenarios((state) => state.problems);
  const chosen = useSession((state) => state.scenario);
  const canBringBack = useSession((state) => state.canBringBack);
  const listed = groups.some(({ scenarios }) => scenarios.some(({ id }) => id === chosen?.id));
  const openFile = async () => {
    const scenario = await openScenarioFile();
    if (scenario !== null) session.choose(scenario);
  };
  return (
    <>
      <label className="field">
        <span>{t('bench.chooser.scenario')}</span>
        <select
          data-testid="scenario"
          title={chosen === null ? undefined : scenarioTitle(chosen)}
          value={chosen?.id ?? ''}
          onChange={(event) => {
            const next = scenarioById(event.target.value);
            if (next !== null) session.choose(next);
          }}
        >
          {chosen !== null && !listed && <option value={chosen.id}>{scenarioTitle(chosen)}</option>}
          {groups.map(({ heading, scenarios }) => (
            <optgroup key={heading} label={heading}>
              {scenarios.map((scenario) => (
                <option key={scenario.id} value={scenario.id}>
                  {scenarioTitle(scenario)}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
      </label>
      <div className="buttons">
        <button type="button" data-testid="start-over" onClick={() => session.startOver()}>
          {t('bench.chooser.startOver')} <kbd>R</kbd>
        </button>
        {chosen !== null && <LessonButton scenario={chosen} />}
        {window.rimwardHost !== undefined && (
          <button type="button" data-testid="open-file" onClick={() => void openFile()}>
            {t('bench.chooser.openFile')}
          </button>
        )}
        {canBringBack && (
          <button type="button" data-testid="bring-back" onClick={() => session.bringBack()}>
            {t('bench.chooser.bringBack')} <kbd>Ctrl Z</kbd>
          </button>
        )}
      </div>
      {problems.length > 0 && (
        <ul className="problems" role="alert">
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
    </>
  );
}

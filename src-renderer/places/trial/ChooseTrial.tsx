import type { Scenario } from '../../../physics/index.ts';
import { scenarioBrief, scenarioTitle } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { usePeople } from '../../stores/people-store.ts';
import { usePlace } from '../../stores/place-store.ts';
import { Explained } from '../../ui/Explained.tsx';
import { quantity } from '../../ui/format.ts';
import { ageWords } from '../bench/eye-lines.ts';
import { LessonButton } from '../bench/Lesson.tsx';
import { useScenarioGroups } from '../bench/scenario-store.ts';
import { ruleLines, toleranceWords } from './rules-of-trial.ts';
import { lookAt, startTrial, useTrial } from './trial-store.ts';

/** Which scenario to be tried in, and what it asks. */
export function ChooseTrial() {
  const groups = useScenarioGroups();
  const chosen = useTrial((state) => state.scenario) ?? groups[0]?.scenarios[0] ?? null;
  return (
    <div className="trial-choice">
      <nav className="trial-list" aria-label={t('trial.choose.scenarios')}>
        <h2>{t('trial.choose.heading')}</h2>
        {groups.map(({ heading, scenarios }) => (
          <section key={heading} aria-label={heading}>
            <h3>{heading}</h3>
            <ul>
              {scenarios.map((scenario) => (
                <li key={scenario.id}>
                  <button
                    type="button"
                    aria-pressed={scenario.id === chosen?.id}
                    data-testid={`trial-of-${scenario.id}`}
                    onClick={() => lookAt(scenario)}
                  >
                    {scenarioTitle(scenario)}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </nav>
      {chosen !== null && <TrialBrief scenario={chosen} />}
    </div>
  );
}

function TrialBrief({ scenario }: { readonly scenario: Scenario }) {
  const tolerances = toleranceWords(scenario);
  return (
    <section className="trial-brief" aria-label={scenarioTitle(scenario)}>
      <h2>{scenarioTitle(scenario)}</h2>
      <p>{scenarioBrief(scenario)}</p>
      <p className="hint">
        {t('trial.choose.eye', {
          age: ageWords(scenario.eye.age_years),
          target: quantity(scenario.target.diameter_mm, 1, 'mm'),
        })}
      </p>
      <h3>{t('trial.choose.rules')}</h3>
      <ul>
        {ruleLines(scenario).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>{t('trial.choose.graded')}</h3>
      {tolerances.length === 0 ? (
        <p>{t('trial.choose.onlyComplete')}</p>
      ) : (
        <table className="trial-tolerances">
          <tbody>
            {tolerances.map(({ of, what, limit }) => (
              <tr key={what + limit}>
                <th scope="row">{of === null ? what : <Explained of={of}>{what}</Explained>}</th>
                <td>{limit}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className="buttons">
        <button type="button" className="first" data-testid="start-trial" onClick={() => startTrial(scenario)}>
          {t('trial.choose.start')}
        </button>
        <LessonButton scenario={scenario} />
        <button type="button" onClick={() => usePlace.getState().go('bench', `scenario:${scenario.id}`)}>
          {t('trial.choose.practise')}
        </button>
      </div>
      <WhoIsTried />
    </section>
  );
}

function WhoIsTried() {
  const person = usePeople((state) => state.current);
  if (window.rimwardHost === undefined) return <p className="hint">{t('trial.choose.notKept')}</p>;
  return (
    <p className="hint">
      {person === null ? t('trial.choose.nobody') : t('trial.choose.keptUnder', { person: person.name })}
    </p>
  );
}

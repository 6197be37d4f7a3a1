import type { Scenario } from '../../../physics/index.ts';
import { usePeople } from '../../stores/people-store.ts';
import { usePlace } from '../../stores/place-store.ts';
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
      <nav className="trial-list" aria-label="Scenarios">
        <h2>Trial</h2>
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
                    {scenario.title}
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
    <section className="trial-brief" aria-label={scenario.title}>
      <h2>{scenario.title}</h2>
      <p>{scenario.brief}</p>
      <p className="hint">
        Eye of {ageWords(scenario.eye.age_years)}, target {quantity(scenario.target.diameter_mm, 1, 'mm')}.
      </p>
      <h3>Rules</h3>
      <ul>
        {ruleLines(scenario).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>What is graded</h3>
      {tolerances.length === 0 ? (
        <p>A complete opening; this scenario sets no tolerances.</p>
      ) : (
        <table className="trial-tolerances">
          <tbody>
            {tolerances.map(({ what, limit }) => (
              <tr key={what + limit}>
                <th scope="row">{what}</th>
                <td>{limit}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className="buttons">
        <button type="button" className="first" data-testid="start-trial" onClick={() => startTrial(scenario)}>
          Start the trial
        </button>
        <LessonButton scenario={scenario} />
        <button type="button" onClick={() => usePlace.getState().go('bench', `scenario:${scenario.id}`)}>
          Practise it at the bench
        </button>
      </div>
      <WhoIsTried />
    </section>
  );
}

function WhoIsTried() {
  const person = usePeople((state) => state.current);
  if (window.rimwardHost === undefined) return <p className="hint">Nothing is kept here: the page runs by itself.</p>;
  return (
    <p className="hint">
      {person === null ? 'Nobody is chosen to work here.' : `It will be kept under ${person.name}.`}
    </p>
  );
}

import type { HandCommand } from '../../../physics/index.ts';
import { useSession } from '../../stores/session-store.ts';
import { clockHour, quantity } from '../../ui/format.ts';
import type { BenchSession } from './bench-session.ts';
import { Card, Line } from './Card.tsx';
import { ageWords, eyeLines, fluidWords } from './eye-lines.ts';

const INSTRUMENTS: readonly (readonly [HandCommand['instrument'], string])[] = [
  ['forceps', 'Forceps'],
  ['needle', 'Needle'],
  ['cannula', 'Cannula'],
];

/** The eye, what follows from its age, and what goes into it. */
export function EyeCard({ session }: { readonly session: BenchSession }) {
  const scenario = useSession((state) => state.scenario);
  return (
    <Card name="eye" title="Eye">
      <ScenarioChooser session={session} />
      {scenario !== null && (
        <>
          <p className="brief">{scenario.brief}</p>
          <dl className="lines">
            <Line label="Age" testid="eye-age">
              {ageWords(scenario.eye.age_years)}
            </Line>
            {eyeLines(scenario).map((line) => (
              <Line key={line.label} label={line.label}>
                <span title={line.note}>{line.text}</span>
              </Line>
            ))}
            <Line label="Fluid">{fluidWords(scenario)}</Line>
            <NetPressure />
          </dl>
          <Tools session={session} />
        </>
      )}
    </Card>
  );
}

function NetPressure() {
  const chamber = useSession((state) => state.view?.chamber);
  return (
    <>
      <Line label="Net pressure">{quantity(chamber?.netPressure_mmHg, 1, 'mmHg')}</Line>
      <Line label="Fluid lost">{quantity(chamber === undefined ? null : 100 * chamber.fluidLost_share, 0, '%')}</Line>
    </>
  );
}

function ScenarioChooser({ session }: { readonly session: BenchSession }) {
  const scenarios = useSession((state) => state.scenarios);
  const problems = useSession((state) => state.problems);
  const chosen = useSession((state) => state.scenario?.id);
  const canBringBack = useSession((state) => state.canBringBack);
  return (
    <>
      <label className="field">
        <span>Scenario</span>
        <select
          data-testid="scenario"
          value={chosen ?? ''}
          onChange={(event) => {
            const next = scenarios.find((scenario) => scenario.id === event.target.value);
            if (next !== undefined) session.choose(next);
          }}
        >
          {scenarios.map((scenario) => (
            <option key={scenario.id} value={scenario.id}>
              {scenario.title}
            </option>
          ))}
        </select>
      </label>
      <div className="buttons">
        <button type="button" data-testid="start-over" onClick={() => session.startOver()}>
          Start over <kbd>R</kbd>
        </button>
        {window.rimwardHost !== undefined && (
          <button type="button" data-testid="open-file" onClick={() => void session.openFile()}>
            Open a file
          </button>
        )}
        {canBringBack && (
          <button type="button" data-testid="bring-back" onClick={() => session.bringBack()}>
            Bring the last back <kbd>Ctrl Z</kbd>
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

function Tools({ session }: { readonly session: BenchSession }) {
  const { instrument, incision } = useSession((state) => state.hand);
  const incisions = useSession((state) => state.geometry?.incisions) ?? [];
  return (
    <>
      <fieldset className="choice">
        <legend>Instrument</legend>
        {INSTRUMENTS.map(([kind, label], i) => (
          <label key={kind}>
            <input type="radio" name="instrument" checked={instrument === kind} onChange={() => session.take(kind)} />
            <span>
              {label} <kbd>{i + 1}</kbd>
            </span>
          </label>
        ))}
      </fieldset>
      <fieldset className="choice">
        <legend>
          Through the incision at <kbd>I</kbd>
        </legend>
        {incisions.map(({ clock_h, width_mm }, i) => (
          <label key={clock_h}>
            <input
              type="radio"
              name="incision"
              checked={incision === i}
              onChange={() => session.act({ kind: 'enter-through', incision: i })}
            />
            <span>
              {clockHour(clock_h)}, {width_mm} mm
            </span>
          </label>
        ))}
      </fieldset>
    </>
  );
}

import type { ReactNode } from 'react';
import type { HandCommand } from '../../../physics/index.ts';
import { useSession } from '../../stores/session-store.ts';
import { clockHour, quantity } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';
import { Card, Line } from './Card.tsx';
import { ageWords, eyeLines, fluidWords } from './eye-lines.ts';

const INSTRUMENTS: readonly (readonly [HandCommand['instrument'], string])[] = [
  ['forceps', 'Forceps'],
  ['needle', 'Needle'],
  ['cannula', 'Cannula'],
];

/** The eye, what follows from its age, and what goes into it. */
export function EyeCard({
  session,
  children,
}: {
  readonly session: AttemptSession;
  /** Stands above the eye: what the person may choose here. */
  readonly children?: ReactNode;
}) {
  const scenario = useSession((state) => state.scenario);
  return (
    <Card name="eye" title="Eye">
      {children}
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

function Tools({ session }: { readonly session: AttemptSession }) {
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

import type { ReactNode } from 'react';
import { Trans } from 'react-i18next';
import type { HandCommand } from '../../../physics/index.ts';
import { scenarioBrief } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { clockHour, number, quantity } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';
import { Card, Line } from './Card.tsx';
import { ageWords, eyeLines, fluidWords } from './eye-lines.ts';

const INSTRUMENTS: readonly HandCommand['instrument'][] = ['forceps', 'needle', 'cannula'];

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
    <Card name="eye" title={t('bench.eye.title')}>
      {children}
      {scenario !== null && (
        <>
          <p className="brief">{scenarioBrief(scenario)}</p>
          <dl className="lines">
            <Line label={t('bench.eye.age')} of="age" testid="eye-age">
              {ageWords(scenario.eye.age_years)}
            </Line>
            {eyeLines(scenario).map((line) => (
              <Line key={line.key} label={line.label} of={line.key}>
                <span title={line.note}>{line.text}</span>
              </Line>
            ))}
            <Line label={t('bench.eye.fluid')} of="viscosity">
              {fluidWords(scenario)}
            </Line>
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
      <Line label={t('bench.eye.netPressure')} of="netPressure">
        {quantity(chamber?.netPressure_mmHg, 1, 'mmHg')}
      </Line>
      <Line label={t('bench.eye.fluidLost')} of="fluidLost">
        {quantity(chamber === undefined ? null : 100 * chamber.fluidLost_share, 0, '%')}
      </Line>
    </>
  );
}

function Tools({ session }: { readonly session: AttemptSession }) {
  const { instrument, incision } = useSession((state) => state.hand);
  const incisions = useSession((state) => state.geometry?.incisions) ?? [];
  return (
    <>
      <fieldset className="choice">
        <legend>{t('bench.tools.instrument')}</legend>
        {INSTRUMENTS.map((kind, i) => (
          <label key={kind}>
            <input type="radio" name="instrument" checked={instrument === kind} onChange={() => session.take(kind)} />
            <span>
              {t(`bench.tools.${kind}`)} <kbd>{i + 1}</kbd>
            </span>
          </label>
        ))}
      </fieldset>
      <fieldset className="choice">
        <legend>
          <Trans i18nKey="bench.tools.incision" components={{ kbd: <kbd /> }} />
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
              {t('bench.tools.incisionAt', {
                hour: clockHour(clock_h),
                width: number(width_mm, Number.isInteger(width_mm) ? 0 : 1),
              })}
            </span>
          </label>
        ))}
      </fieldset>
    </>
  );
}

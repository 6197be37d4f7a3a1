import { useMemo } from 'react';
import type { Scenario } from '../../../physics/index.ts';
import { fluidName } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { Explained, type NumberId } from '../../ui/Explained.tsx';
import { number, quantity } from '../../ui/format.ts';
import { plainNumber } from '../../ui/plain-number.ts';
import { whatFollows } from './what-follows.ts';

/** A line that misses the wanted opening by more than this is worth a word, mm. Assumed. */
const TELLING_mm = 0.1;

/** What the model makes of the scenario before anybody has touched the eye. */
export function Follows({ scenario }: { readonly scenario: Scenario }) {
  const follows = useMemo(() => whatFollows(scenario), [scenario]);
  const { diameter_mm, lineDiameter_mm } = scenario.target;
  const off = follows.opening_mm - diameter_mm;
  return (
    <section aria-label={t('eyes.follows.title')}>
      <h2>{t('eyes.follows.title')}</h2>
      <dl className="eyes-lines">
        <Line label={t('eyes.follows.net')} id="net" of="netPressure">
          {quantity(follows.netPressure_mmHg, 1, 'mmHg')}
        </Line>
        <Line label={t('eyes.follows.tension')} id="tension" of="uncutTension">
          {quantity(follows.tension_mN_per_mm, 2, 'mN/mm')}
        </Line>
        <Line label={t('eyes.follows.stretch')} id="stretch" of="uncutStretch">
          {number(follows.stretch, 3)}
        </Line>
        <Line
          label={t('eyes.follows.opening', { line: plainNumber(lineDiameter_mm) })}
          id="opening"
          of="openingFromLine"
        >
          {t('eyes.follows.openingValue', {
            opening: quantity(follows.opening_mm, 2, 'mm'),
            enlargement: number(follows.enlargement, 3),
          })}
        </Line>
        <Line label={t('eyes.follows.fluid')} id="fluid" of="viscosity">
          {fluidName(scenario.chamber.fluid)}
        </Line>
      </dl>
      {Math.abs(off) > TELLING_mm && (
        <p className="eyes-remark" data-testid="line-remark">
          {t(off > 0 ? 'eyes.follows.larger' : 'eyes.follows.smaller', {
            off: number(Math.abs(off), 2),
            wanted: plainNumber(diameter_mm),
          })}
        </p>
      )}
    </section>
  );
}

function Line({
  label,
  id,
  of,
  children,
}: {
  readonly label: string;
  readonly id: string;
  readonly of: NumberId;
  readonly children: React.ReactNode;
}) {
  return (
    <div>
      <dt>
        <Explained of={of}>{label}</Explained>
      </dt>
      <dd data-testid={`follows-${id}`}>{children}</dd>
    </div>
  );
}

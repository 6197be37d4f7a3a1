import { useMemo } from 'react';
import { fluidById, type Scenario } from '../../../physics/index.ts';
import { number, quantity } from '../../ui/format.ts';
import { whatFollows } from './what-follows.ts';

/** A line that misses the wanted opening by more than this is worth a word, mm. Assumed. */
const TELLING_mm = 0.1;

/** What the model makes of the scenario before anybody has touched the eye. */
export function Follows({ scenario }: { readonly scenario: Scenario }) {
  const follows = useMemo(() => whatFollows(scenario), [scenario]);
  const { diameter_mm, lineDiameter_mm } = scenario.target;
  const off = follows.opening_mm - diameter_mm;
  return (
    <section aria-label="What follows">
      <h3>What follows</h3>
      <dl className="eyes-lines">
        <Line label="Net pressure at the start" id="net">
          {quantity(follows.netPressure_mmHg, 1, 'mmHg')}
        </Line>
        <Line label="Tension of the uncut capsule" id="tension">
          {quantity(follows.tension_mN_per_mm, 2, 'mN/mm')}
        </Line>
        <Line label="Stretch of the uncut capsule" id="stretch">
          {number(follows.stretch, 3)}
        </Line>
        <Line label={`Opening from a line of ${lineDiameter_mm} mm`} id="opening">
          {quantity(follows.opening_mm, 2, 'mm')} (× {number(follows.enlargement, 3)})
        </Line>
        <Line label="Fluid" id="fluid">
          {fluidById(scenario.chamber.fluid).label}
        </Line>
      </dl>
      {Math.abs(off) > TELLING_mm && (
        <p className="eyes-remark" data-testid="line-remark">
          A tear along this line gives an opening {number(Math.abs(off), 2)} mm {off > 0 ? 'larger' : 'smaller'} than
          the one wanted, {diameter_mm} mm.
        </p>
      )}
    </section>
  );
}

function Line({
  label,
  id,
  children,
}: {
  readonly label: string;
  readonly id: string;
  readonly children: React.ReactNode;
}) {
  return (
    <div>
      <dt>{label}</dt>
      <dd data-testid={`follows-${id}`}>{children}</dd>
    </div>
  );
}

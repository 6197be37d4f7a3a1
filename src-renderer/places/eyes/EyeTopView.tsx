import { type Scenario, stageGeometry, startLines_mm, type Vec2 } from '../../../physics/index.ts';
import { t, useLanguage } from '../../i18n/text.ts';
import { Explained, type NumberId } from '../../ui/Explained.tsx';
import { clockHour, number } from '../../ui/format.ts';
import { plainNumber } from '../../ui/plain-number.ts';
import './eye-top-view.css';

/** Room round the limbus for the incisions' names, mm. */
const MARGIN_mm = 1.3;
const CLOCK = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] as const;

const clockAngle = (clock_h: number): number => Math.PI / 2 - (clock_h * Math.PI) / 6;
/** On the screen y runs downward. */
const polar = ([x, y]: Vec2, r: number, angle: number): Vec2 => [x + r * Math.cos(angle), -(y + r * Math.sin(angle))];

function Circle({ at, diameter, look }: { readonly at: Vec2; readonly diameter: number; readonly look: string }) {
  return <circle className={look} cx={at[0]} cy={-at[1]} r={diameter / 2} data-testid={look} />;
}

/** The eye of a scenario from above, to scale, before anything is done to it: 12 o'clock is up. */
export function EyeTopView({ scenario }: { readonly scenario: Scenario }) {
  const eye = stageGeometry(scenario);
  const half = eye.limbusDiameter_mm / 2 + MARGIN_mm;
  const [cx, cy] = eye.pupilCentre_mm;
  const { target } = eye;
  return (
    <figure className="eye-top">
      <svg
        viewBox={`${cx - half} ${-cy - half} ${2 * half} ${2 * half}`}
        role="img"
        aria-label={wordsOf(scenario, eye.zonuleFreeDiameter_mm)}
        data-testid="eye-preview"
        data-scenario={scenario.id}
      >
        <Circle at={eye.pupilCentre_mm} diameter={eye.limbusDiameter_mm} look="eye-limbus" />
        <Circle at={eye.pupilCentre_mm} diameter={eye.pupilDiameter_mm} look="eye-pupil" />
        {eye.opacityDiameter_mm > 0 && (
          <Circle at={eye.lensCentre_mm} diameter={eye.opacityDiameter_mm} look="eye-opacity" />
        )}
        {eye.dyed && <Circle at={eye.lensCentre_mm} diameter={eye.lensDiameter_mm} look="eye-dye" />}
        <Circle at={eye.lensCentre_mm} diameter={eye.lensDiameter_mm} look="eye-lens" />
        <Circle at={eye.lensCentre_mm} diameter={eye.zonuleFreeDiameter_mm} look="eye-zonules" />
        <WeakSector scenario={scenario} centre={eye.lensCentre_mm} radius={eye.lensDiameter_mm / 2} />
        <Circle at={target.centre_mm} diameter={target.diameter_mm} look="eye-target" />
        <Circle at={target.centre_mm} diameter={target.lineDiameter_mm} look="eye-line" />
        <Start scenario={scenario} />
        <ClockTicks centre={eye.pupilCentre_mm} radius={eye.limbusDiameter_mm / 2} />
        {eye.incisions.map((incision) => (
          <Incision
            key={`${incision.clock_h} ${incision.width_mm}`}
            incision={incision}
            centre={eye.pupilCentre_mm}
            radius={eye.limbusDiameter_mm / 2}
          />
        ))}
        <path className="eye-bar" d={`M${cx - half + 0.3} ${-cy + half - 0.4}v0.15h1v-0.15`} />
        <text className="eye-text" x={cx - half + 0.8} y={-cy + half - 0.5}>
          {t('eyes.view.bar')}
        </text>
      </svg>
      <figcaption>
        <Key
          look="eye-target"
          of="targetDiameter"
          label={t('eyes.view.target', { size: plainNumber(target.diameter_mm) })}
        />
        <Key
          look="eye-line"
          of="lineDiameter"
          label={t('eyes.view.line', { size: plainNumber(target.lineDiameter_mm) })}
        />
        <Key look="eye-start" label={t(`eyes.view.start.${scenario.start.kind}`)} />
        <Key
          look="eye-zonules"
          of="zonuleFreeDiameter_mm"
          label={t('eyes.view.zonules', { size: number(eye.zonuleFreeDiameter_mm, 1) })}
        />
        <Key
          look="eye-lens"
          of="lensDiameter_mm"
          label={t('eyes.view.lens', { size: number(eye.lensDiameter_mm, 1) })}
        />
        {scenario.eye.weakZonule !== undefined && <Key look="eye-weak" label={t('eyes.view.weak')} />}
      </figcaption>
    </figure>
  );
}

function wordsOf({ eye, target, start, incisions }: Scenario, free_mm: number): string {
  const list = new Intl.ListFormat(useLanguage.getState().language, { type: 'conjunction' });
  return t('eyes.view.words', {
    pupil: plainNumber(eye.pupilDiameter_mm),
    target: plainNumber(target.diameter_mm),
    line: plainNumber(target.lineDiameter_mm),
    free: number(free_mm, 1),
    start: t(`eyes.view.start.${start.kind}`),
    incisions: list.format(incisions.map(({ clock_h }) => clockHour(clock_h))),
  });
}

function Start({ scenario }: { readonly scenario: Scenario }) {
  const lines = startLines_mm(scenario);
  if (lines.length === 0) return null;
  const path = lines.map((line) => `M${line.map(([x, y]) => `${x.toFixed(3)} ${(-y).toFixed(3)}`).join('L')}`).join('');
  return <path className="eye-start" d={path} data-testid="eye-start" />;
}

/** The part of the lens edge where the zonule is weak, clockwise from one hour to the other. */
function WeakSector({
  scenario,
  centre,
  radius,
}: {
  readonly scenario: Scenario;
  readonly centre: Vec2;
  readonly radius: number;
}) {
  const weak = scenario.eye.weakZonule;
  if (weak === undefined) return null;
  const hours = (((weak.toClock_h - weak.fromClock_h) % 12) + 12) % 12;
  const from = polar(centre, radius, clockAngle(weak.fromClock_h));
  const to = polar(centre, radius, clockAngle(weak.toClock_h));
  return (
    <path className="eye-weak" d={`M${from.join(' ')}A${radius} ${radius} 0 ${hours > 6 ? 1 : 0} 1 ${to.join(' ')}`} />
  );
}

function ClockTicks({ centre, radius }: { readonly centre: Vec2; readonly radius: number }) {
  return (
    <>
      {CLOCK.map((hour) => {
        const angle = clockAngle(hour);
        const [a, b] = [polar(centre, radius, angle), polar(centre, radius - 0.2, angle)];
        return <path key={hour} className="eye-tick" d={`M${a.join(' ')}L${b.join(' ')}`} />;
      })}
    </>
  );
}

/** A slot across the limbus, as wide as the incision, with its hour. */
function Incision({
  incision,
  centre,
  radius,
}: {
  readonly incision: { readonly clock_h: number; readonly width_mm: number };
  readonly centre: Vec2;
  readonly radius: number;
}) {
  const angle = clockAngle(incision.clock_h);
  const half = incision.width_mm / 2 / radius;
  const [a, b] = [polar(centre, radius, angle + half), polar(centre, radius, angle - half)];
  const at = polar(centre, radius + 0.65, angle);
  return (
    <>
      <path className="eye-incision" d={`M${a.join(' ')}A${radius} ${radius} 0 0 1 ${b.join(' ')}`} />
      <text className="eye-text" x={at[0]} y={at[1] + 0.15}>
        {plainNumber(incision.clock_h === 0 ? 12 : incision.clock_h)}
      </text>
    </>
  );
}

function Key({ look, label, of }: { readonly look: string; readonly label: string; readonly of?: NumberId }) {
  return (
    <span className="eye-key">
      <svg viewBox="0 0 30 12" width="30" height="12" aria-hidden="true">
        <rect width="30" height="12" fill="#39424b" />
        <path className={look} d="M2 6H28" />
      </svg>
      {of === undefined ? label : <Explained of={of}>{label}</Explained>}
    </span>
  );
}

import type { Vec2 } from '../../../../physics/index.ts';
import './opening-drawing.css';
import { t } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';

export interface DrawnOpening {
  readonly key: string;
  readonly label: string;
  /** Closed without repeating the first point, mm about the reference centre, y upward. */
  readonly outline_mm: readonly Vec2[];
}

const CLOCK = [12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] as const;
const mm = (length_mm: number): string => quantity(length_mm, Number.isInteger(length_mm) ? 0 : 2, 'mm');
const path = (points: readonly Vec2[]): string =>
  points.length === 0 ? '' : `M${points.map(([x, y]) => `${x.toFixed(4)} ${(-y).toFixed(4)}`).join('L')}Z`;

/** Half the width that is shown, mm: the usual opening with its optic, or more where an outline reaches farther. */
function halfWidth(openings: readonly DrawnOpening[], diameters: readonly number[]): number {
  const far = openings.flatMap(({ outline_mm }) => outline_mm.map(([x, y]) => Math.hypot(x, y)));
  return (
    Math.max(
      3.4,
      ...diameters.map((one) => one / 2),
      far.reduce((a, b) => Math.max(a, b), 0),
    ) + 0.7
  );
}

/**
 * Openings to scale over the target circle and the optic, as the surgeon sees them: 12 o'clock is up. The first is filled,
 * the others are lines told apart by dash and name.
 */
export function OpeningDrawing({
  openings,
  targetDiameter_mm,
  opticDiameter_mm,
  title,
}: {
  readonly openings: readonly DrawnOpening[];
  readonly targetDiameter_mm: number;
  readonly opticDiameter_mm: number;
  readonly title: string;
}) {
  const half = halfWidth(openings, [targetDiameter_mm, opticDiameter_mm]);
  const letter = half * 0.075;
  const bar = { x: -half + 0.25, y: half - 0.25 };
  return (
    <figure className="opening-drawing">
      <svg viewBox={`${-half} ${-half} ${2 * half} ${2 * half}`} role="img" aria-label={title}>
        {CLOCK.map((hour) => {
          const angle = (Math.PI / 6) * hour;
          const [s, c] = [Math.sin(angle), -Math.cos(angle)];
          const out = half - 0.12;
          return (
            <g key={hour}>
              <line className="od-tick" x1={out * s} y1={out * c} x2={(out - 0.12) * s} y2={(out - 0.12) * c} />
              {hour % 3 === 0 && (
                <text className="od-text" x={(out - 0.35) * s} y={(out - 0.35) * c + letter * 0.35} fontSize={letter}>
                  {hour}
                </text>
              )}
            </g>
          );
        })}
        <circle className="od-optic" r={opticDiameter_mm / 2} />
        {openings.map(({ key, outline_mm }, index) => (
          <path
            key={key}
            className={`od-opening od-opening-${index}`}
            d={path(outline_mm)}
            data-testid={`drawn-${key}`}
            data-points={outline_mm.length}
          />
        ))}
        <circle className="od-target" r={targetDiameter_mm / 2} />
        <path className="od-centre" d="M-0.15 0H0.15M0 -0.15V0.15" />
        <path className="od-bar" d={`M${bar.x} ${bar.y - 0.1}V${bar.y}H${bar.x + 1}V${bar.y - 0.1}`} />
        <text className="od-text" x={bar.x + 0.5} y={bar.y - 0.14} fontSize={letter}>
          {'1\u00a0mm'}
        </text>
      </svg>
      <figcaption>
        <Key look="od-target" label={t('logbook.outside.keyTarget', { diameter: mm(targetDiameter_mm) })} />
        <Key look="od-optic" label={t('logbook.outside.keyOptic', { diameter: mm(opticDiameter_mm) })} />
        {openings.map(({ key, label }, index) => (
          <Key key={key} look={`od-opening od-opening-${index}`} label={label} />
        ))}
      </figcaption>
    </figure>
  );
}

function Key({ look, label }: { readonly look: string; readonly label: string }) {
  return (
    <span className="od-key">
      <svg viewBox="0 0 26 10" width="26" height="10" aria-hidden="true">
        <path className={look} d="M1 5H25" />
      </svg>
      {label}
    </span>
  );
}

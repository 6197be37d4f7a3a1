import type { ReactNode } from 'react';
import type { Scenario, StageGeometry, Vec2 } from '../../../physics/index.ts';
import { targetRing } from '../../stage/aims.ts';
import './opening-drawing.css';
import { t } from '../../i18n/text.ts';

/** One opening, or the torn margins of one that is not complete. */
export interface DrawnShape {
  readonly id: string;
  /** Short name drawn at the shape; null for none. */
  readonly label: string | null;
  /** x,y pairs in the eye frame, mm. */
  readonly lines: readonly (readonly Vec2[])[];
  readonly closed: boolean;
  /** Told apart by the stroke as well as by colour. */
  readonly look: 'first' | 'second';
}

/** Room round what is drawn, mm. */
const MARGIN_mm = 0.7;
const LEAST_HALF_mm = 3.4;

const place = ([x, y]: Vec2): string => `${x.toFixed(3)} ${(-y).toFixed(3)}`;

/** A run of points as SVG path data, y upward in the eye and downward on the page. */
export const pathOf = (points: readonly Vec2[], closed: boolean): string =>
  points.length === 0 ? '' : `M${points.map(place).join('L')}${closed ? 'Z' : ''}`;

/** Room round the rings of the eye, mm: the hours of the clock may stand on them. */
const RING_MARGIN_mm = 0.15;

/** Half the side of a square about the origin that holds everything, mm. */
export function halfSide_mm(geometry: StageGeometry, shapes: readonly DrawnShape[]): number {
  const { target } = geometry;
  const ring = (centre_mm: Vec2, diameter_mm: number): number =>
    Math.max(...centre_mm.map(Math.abs)) + diameter_mm / 2 + RING_MARGIN_mm;
  const far = (points: readonly Vec2[]): number =>
    points.reduce((most, [x, y]) => Math.max(most, Math.abs(x), Math.abs(y)), 0);
  const reach = Math.max(
    ...target.centre_mm.map((c) => Math.abs(c) + target.diameter_mm / 2),
    ...shapes.flatMap(({ lines }) => lines.map(far)),
  );
  return Math.max(
    LEAST_HALF_mm,
    reach + MARGIN_mm,
    ring(geometry.pupilCentre_mm, geometry.pupilDiameter_mm),
    ring(geometry.lensCentre_mm, geometry.zonuleFreeDiameter_mm),
  );
}

/** Openings to scale over the target circle and its band of tolerance, in the eye's own frame. */
export function OpeningDrawing({
  geometry,
  tolerances,
  shapes,
  title,
  children,
}: {
  readonly geometry: StageGeometry;
  readonly tolerances: Scenario['tolerances'];
  readonly shapes: readonly DrawnShape[];
  /** What the drawing shows, for those who hear it. */
  readonly title: string;
  readonly children?: ReactNode;
}) {
  const half = halfSide_mm(geometry, shapes);
  return (
    <svg
      className="log-drawing"
      viewBox={`${-half} ${-half} ${2 * half} ${2 * half}`}
      role="img"
      aria-label={title}
      data-testid="opening-drawing"
    >
      <Aims geometry={geometry} tolerances={tolerances} />
      {children}
      {shapes.map((shape) => (
        <ShapePath key={shape.id} shape={shape} />
      ))}
      <Clock half_mm={half} />
      <ScaleBar half_mm={half} />
    </svg>
  );
}

/** Pupil, zonule-free zone, target and the band that the tolerance on the diameter allows. */
function Aims({
  geometry,
  tolerances,
}: {
  readonly geometry: StageGeometry;
  readonly tolerances: Scenario['tolerances'];
}) {
  const ring = targetRing(geometry, tolerances, true);
  const [cx, cy] = [ring.centre_mm[0], -ring.centre_mm[1]];
  const band = Math.max(0, (ring.largest_mm - ring.smallest_mm) / 2);
  const lens = geometry.lensCentre_mm;
  const pupil = geometry.pupilCentre_mm;
  return (
    <g fill="none">
      <circle className="log-pupil" cx={pupil[0]} cy={-pupil[1]} r={geometry.pupilDiameter_mm / 2} />
      <circle className="log-zonule" cx={lens[0]} cy={-lens[1]} r={geometry.zonuleFreeDiameter_mm / 2} />
      {band > 0 && (
        <circle className="log-band" cx={cx} cy={cy} r={(ring.smallest_mm + ring.largest_mm) / 4} strokeWidth={band} />
      )}
      <circle className="log-target" cx={cx} cy={cy} r={ring.diameter_mm / 2} />
      <path className="log-centre" d={`M${cx - 0.15} ${cy}h0.3M${cx} ${cy - 0.15}v0.3`} />
    </g>
  );
}

function ShapePath({ shape }: { readonly shape: DrawnShape }) {
  const longest = shape.lines.reduce<readonly Vec2[]>((most, line) => (line.length > most.length ? line : most), []);
  const at = longest[Math.floor(longest.length * (shape.look === 'first' ? 0.12 : 0.37))];
  const size = at === undefined ? 1 : Math.hypot(at[0], at[1]) || 1;
  return (
    <g className={`log-shape log-shape-${shape.look}`}>
      {shape.lines.map((line, k) => (
        <path key={k} d={pathOf(line, shape.closed)} />
      ))}
      {shape.label !== null && at !== undefined && (
        <text x={at[0] * (1 + 0.28 / size)} y={-at[1] * (1 + 0.28 / size) + 0.12} textAnchor="middle">
          {shape.label}
        </text>
      )}
    </g>
  );
}

function Clock({ half_mm }: { readonly half_mm: number }) {
  const r = half_mm - 0.28;
  const hours = [
    { hour: '12', x: 0, y: -r },
    { hour: '3', x: r, y: 0 },
    { hour: '6', x: 0, y: r },
    { hour: '9', x: -r, y: 0 },
  ];
  return (
    <g className="log-hours" textAnchor="middle">
      {hours.map(({ hour, x, y }) => (
        <text key={hour} x={x} y={y + 0.12}>
          {hour}
        </text>
      ))}
    </g>
  );
}

function ScaleBar({ half_mm }: { readonly half_mm: number }) {
  const [x, y] = [-half_mm + 0.2, half_mm - 0.2];
  return (
    <g className="log-scale-bar">
      <path d={`M${x} ${y - 0.08}v0.16M${x} ${y}h1M${x + 1} ${y - 0.08}v0.16`} />
      <text x={x + 0.5} y={y - 0.16} textAnchor="middle">
        {'1\u00a0mm'}
      </text>
    </g>
  );
}

/** What an attempt left: its relaxed opening, or its torn margins where it is not complete. */
export function shapeOf(
  id: string,
  result: {
    readonly outline_mm: readonly Vec2[] | null;
    readonly tears: readonly { readonly relaxed_mm: readonly Vec2[] }[];
  },
  look: DrawnShape['look'],
  label: string | null,
): DrawnShape {
  const { outline_mm, tears } = result;
  return outline_mm === null
    ? { id, label, lines: tears.map(({ relaxed_mm }) => relaxed_mm), closed: false, look }
    : { id, label, lines: [outline_mm], closed: true, look };
}

/** What the strokes of the drawing mean. */
export function DrawingLegend({ names }: { readonly names: readonly string[] }) {
  return (
    <ul className="log-legend">
      {names.map((name, at) => (
        <li key={name}>
          <Sample look={at === 0 ? 'log-shape log-shape-first' : 'log-shape log-shape-second'} /> {name}
        </li>
      ))}
      <li>
        <Sample look="log-target" /> {t('logbook.drawing.target')}
      </li>
      <li>
        <Sample look="log-band" wide /> {t('logbook.drawing.band')}
      </li>
      <li>
        <Sample look="log-zonule" /> {t('logbook.drawing.zonule')}
      </li>
      <li>
        <Sample look="log-pupil" /> {t('logbook.drawing.pupil')}
      </li>
    </ul>
  );
}

const Sample = ({ look, wide = false }: { readonly look: string; readonly wide?: boolean }) => (
  <svg className="log-sample" viewBox="0 -0.25 1.2 0.5" aria-hidden="true">
    <g className={look}>
      <path className={look} d="M0 0H1.2" strokeWidth={wide ? 0.3 : undefined} />
    </g>
  </svg>
);

import type { TipView, Vec2 } from '../../../../physics/index.ts';
import { TENSION_GRADIENT } from '../../../stage/teaching-look.ts';
import { number, quantity } from '../../../ui/format.ts';
import type { SeriesPoint, SideId } from '../contract.ts';
import { fullTension_mN_per_mm } from './lecture-look.ts';
import { useLectureLook, useTwin } from './twin-store.ts';

/** Headings closer to the circle than this are said to follow it, degrees. */
const ALONG_deg = 2;

function headingWords(error_deg: number | null): string {
  if (error_deg === null) return number(null, 0);
  if (Math.abs(error_deg) < ALONG_deg) return 'along the circle';
  return `${number(Math.abs(error_deg), 0)}° ${error_deg > 0 ? 'outward' : 'inward'}`;
}

const size = (force: Vec2 | null | undefined): number | null => (force == null ? null : Math.hypot(force[0], force[1]));

function lines(
  point: SeriesPoint | undefined,
  tip: TipView | undefined,
): readonly (readonly [string, string, string])[] {
  return [
    ['pull', 'Pull', quantity(size(tip?.pull_mN), 2, 'mN')],
    ['sheet', 'Sheet', quantity(size(tip?.sheet_mN), 2, 'mN')],
    ['resultant', 'Resultant', quantity(size(tip?.resultant_mN), 2, 'mN')],
    ['ratio', 'Force over resistance', number(tip?.drivingRatio, 2)],
    ['heading', 'Tear heads', headingWords(point?.headingError_deg ?? null)],
    ['radius', 'Tip from centre', quantity(point?.tipRadius_mm, 2, 'mm')],
    ['grip', 'Forceps', quantity(point?.gripForce_mN, 1, 'mN')],
    ['pressure', 'Net pressure', quantity(point?.netPressure_mmHg, 1, 'mmHg')],
  ];
}

/** What is read off over an eye: numbers on request, and what the colours of the tension map stand for. */
export function TwinNumbers({ side }: { readonly side: SideId }) {
  const { numbers, tensionMap } = useLectureLook((state) => state.aids);
  const eye = useTwin((state) => state[side]);
  const step = useTwin((state) => state.step);
  if (eye === null) return null;
  const tip = eye.view?.tips.find(({ live }) => live);
  return (
    <>
      {numbers && (
        <dl className="twin-numbers" data-testid={`numbers-${side}`}>
          {lines(eye.series[Math.min(step, eye.series.length - 1)], tip).map(([key, label, text]) => (
            <div key={key} className={`twin-number-${key}`}>
              <dt>{label}</dt>
              <dd data-testid={`number-${side}-${key}`}>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      {tensionMap && (
        <p className="twin-legend" data-testid={`legend-${side}`}>
          <span>0</span>
          <span className="twin-ramp" style={{ background: TENSION_GRADIENT }} />
          <span>{quantity(fullTension_mN_per_mm(), 2, 'mN/mm')}</span>
        </p>
      )}
    </>
  );
}

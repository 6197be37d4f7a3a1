import type { TipView, Vec2 } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { TENSION_GRADIENT } from '../../../stage/teaching-look.ts';
import { Explained, type NumberId } from '../../../ui/Explained.tsx';
import { number, quantity } from '../../../ui/format.ts';
import type { SeriesPoint, SideId } from '../contract.ts';
import { fullTension_mN_per_mm } from './lecture-look.ts';
import { useLectureLook, useTwin } from './twin-store.ts';

/** Headings closer to the circle than this are said to follow it, degrees. */
const ALONG_deg = 2;

function headingWords(error_deg: number | null): string {
  if (error_deg === null) return number(null, 0);
  if (Math.abs(error_deg) < ALONG_deg) return t('lecture.numbers.along');
  const angle = quantity(Math.abs(error_deg), 0, '°');
  return error_deg > 0 ? t('lecture.numbers.outward', { angle }) : t('lecture.numbers.inward', { angle });
}

const size = (force: Vec2 | null | undefined): number | null => (force == null ? null : Math.hypot(force[0], force[1]));

type NumberKey = 'pull' | 'sheet' | 'resultant' | 'ratio' | 'heading' | 'radius' | 'grip' | 'pressure';

/** Key, what explains it, and its value in words. */
type NumberLine = readonly [NumberKey, NumberId, string];

const lines = (point: SeriesPoint | undefined, tip: TipView | undefined): readonly NumberLine[] => [
  ['pull', 'pullForce', quantity(size(tip?.pull_mN), 2, 'mN')],
  ['sheet', 'sheetForce', quantity(size(tip?.sheet_mN), 2, 'mN')],
  ['resultant', 'resultantForce', quantity(size(tip?.resultant_mN), 2, 'mN')],
  ['ratio', 'drivingRatio', number(tip?.drivingRatio, 2)],
  ['heading', 'headingError', headingWords(point?.headingError_deg ?? null)],
  ['radius', 'tipRadius', quantity(point?.tipRadius_mm, 2, 'mm')],
  ['grip', 'gripForce', quantity(point?.gripForce_mN, 1, 'mN')],
  ['pressure', 'netPressure', quantity(point?.netPressure_mmHg, 1, 'mmHg')],
];

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
          {lines(eye.series[Math.min(step, eye.series.length - 1)], tip).map(([key, of, text]) => (
            <div key={key} className={`twin-number-${key}`}>
              <dt>
                <Explained of={of}>{t(`lecture.numbers.${key}`)}</Explained>
              </dt>
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

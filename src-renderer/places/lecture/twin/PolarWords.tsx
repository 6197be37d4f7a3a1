import { t } from '../../../i18n/text.ts';
import { Explained } from '../../../ui/Explained.tsx';
import { quantity } from '../../../ui/format.ts';
import type { SideId } from '../contract.ts';
import { type PolarShown, usePolar } from './polar-store.ts';

/** What the curve round the tip says, or why there is none now. */
function wordsOf(shown: Exclude<PolarShown, 'off'>): string {
  if (shown === 'moving') return t('lecture.polar.rest');
  if (shown === 'computing') return t('lecture.polar.computing');
  if (shown.fault !== null) return t('lecture.polar.fault', { fault: shown.fault });
  if (shown.tips === 0) return t('lecture.polar.noTip');
  const { curves } = shown;
  const first = curves[0];
  if (first === undefined) return t('lecture.polar.none');
  const values = {
    resistance: quantity(first.tearResistance_mN, 2, 'mN'),
    best: quantity(Math.max(...curves.map(({ best }) => best.drivingForce_mN)), 2, 'mN'),
  };
  return curves.every(({ converged }) => converged)
    ? t('lecture.polar.ready', values)
    : t('lecture.polar.rough', values);
}

const stateOf = (shown: PolarShown): string => (typeof shown === 'string' ? shown : 'ready');

/** A line at the foot of an eye about the driving force by direction; nothing while that is not wanted. */
export function PolarWords({ side }: { readonly side: SideId }) {
  const shown = usePolar((state) => state[side]);
  if (shown === 'off') return null;
  const state = stateOf(shown);
  const curves = typeof shown === 'string' ? undefined : shown.curves.length;
  return (
    <p className="twin-polar" role="status" data-testid={`polar-${side}`} data-state={state} data-curves={curves}>
      {state === 'computing' && <progress aria-hidden="true" />}
      <Explained of="polarDrivingForce">{t('lecture.polar.name')}</Explained>
      <span>{wordsOf(shown)}</span>
    </p>
  );
}

import type { TipView, Vec2, WorldView } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { nearestTip } from '../tools/fold-path.ts';
import { clockHour, number } from './format.ts';

/** Clock hour of a place about a centre, as the surgeon sees it: 12 is up, 3 is to the right. Null at the centre itself. */
export function clockAbout(at_mm: Vec2, centre_mm: Vec2): number | null {
  const [x, y] = [at_mm[0] - centre_mm[0], at_mm[1] - centre_mm[1]];
  if (Math.hypot(x, y) < 1e-9) return null;
  return ((Math.atan2(x, y) / (2 * Math.PI)) * 12 + 12) % 12;
}

/** Where the tip nearest to the instrument is, how hard it is driven, and the net pressure, in words. */
export function tipWords(view: WorldView, centre_mm: Vec2): string {
  const [x, y] = view.instrument.tip_mm;
  const tip = nearestTip<TipView>([x, y], view.tips);
  const pressure = number(view.chamber.netPressure_mmHg, 1);
  if (tip === null) return t('common.voice.noTip', { pressure });
  const radius_mm = Math.hypot(tip.position_mm[0] - centre_mm[0], tip.position_mm[1] - centre_mm[1]);
  return t('common.voice.tip', {
    clock: clockHour(clockAbout(tip.position_mm, centre_mm)),
    radius: number(radius_mm, 1),
    ratio: number(tip.drivingRatio, 2),
    pressure,
  });
}

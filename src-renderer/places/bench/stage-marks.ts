import type { Vec2, WorldView } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { type StageFrame, toPx } from '../../stage/microscope.ts';
import { nearestTip } from '../../tools/fold-path.ts';
import { clockHour, DASH, quantity } from '../../ui/format.ts';
import { flapPlace } from './flap-place.ts';

/** Where the flap is commonly taken: behind the tip along the torn edge and inside of it, mm. Common practice. */
const TAKEN_BEHIND_mm = 0.6;
const TAKEN_INSIDE_mm = 0.4;

/** What the stage says about itself in its data attributes, in pixels of the page: what an eye could read off it. */
export type StageMarks = Readonly<Record<string, string>>;

const pair = ([x, y]: Vec2): string => (Number.isFinite(x + y) ? `${x.toFixed(2)},${y.toFixed(2)}` : '');

/**
 * @param corner_px upper left corner of the stage on the page
 * @param centre_mm middle of the target
 * @param asked_mm where the hand asks the instrument's tip to be
 */
export function stageMarks(
  view: WorldView,
  frame: StageFrame,
  corner_px: Vec2,
  centre_mm: Vec2,
  asked_mm: Vec2,
): StageMarks {
  const onPage = (at_mm: Vec2): string => {
    const [x, y] = toPx(frame, at_mm);
    return pair([x + corner_px[0], y + corner_px[1]]);
  };
  const { tip_mm, gripping } = view.instrument;
  const tip = nearestTip([tip_mm[0], tip_mm[1]], view.tips);
  const flap = tip === null ? null : flapPlace(view, tip, centre_mm, TAKEN_BEHIND_mm, TAKEN_INSIDE_mm);
  return {
    phase: view.phase,
    ended: view.ended ?? '',
    gripping: String(gripping),
    pxPerMm: frame.pxPerMm.toFixed(3),
    centrePx: onPage(centre_mm),
    instrumentPx: onPage([tip_mm[0], tip_mm[1]]),
    askedPx: onPage(asked_mm),
    tipPx: tip === null ? '' : onPage(tip.position_mm),
    tipTangentDeg: tip === null ? '' : tip.tangent_deg.toFixed(1),
    tipRatio: tip === null ? '' : Number.isFinite(tip.drivingRatio) ? tip.drivingRatio.toFixed(3) : DASH,
    flapPx: flap === null ? '' : onPage(flap),
    step: String(view.step),
  };
}

/** The stage in a sentence or two, for those who hear it. */
export function stageSentence(view: WorldView, title: string): string {
  const tip = view.tips.find((one) => one.live);
  const [x, y] = tip?.position_mm ?? [0, 0];
  const hour = ((Math.atan2(x, y) / (2 * Math.PI)) * 12 + 12) % 12;
  const tear =
    tip === undefined
      ? t('bench.stage.noTear')
      : t('bench.stage.tearAt', { hour: clockHour(hour), radius: quantity(Math.hypot(x, y), 1, 'mm') });
  const { gripping, kind } = view.instrument;
  const hold = gripping ? t(`bench.stage.holds.${kind}`) : t(`bench.stage.free.${kind}`);
  return t('bench.stage.sentence', { title, tear, hold, torn: quantity(view.torn_mm, 1, 'mm') });
}

import type { ChamberView, Ended, TipView, Vec2, WorldEvent } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { clockHour, DASH, number, quantity } from './format.ts';

/** One event in plain words, with the clock hour where it has one. */
export function eventWords({ kind, clock_h }: WorldEvent): string {
  // an attempt kept by a later version may tell of kinds that this one has no words for
  const event = t(`common.event.${kind}`, { defaultValue: kind });
  return clock_h === null ? event : t('common.event.at', { event, clock: clockHour(clock_h) });
}

/** Difference of two directions, degrees, -180 to 180. */
export const turn_deg = (from_deg: number, to_deg: number): number => {
  const turn = (((to_deg - from_deg) % 360) + 540) % 360;
  return turn - 180;
};

/**
 * How far a direction turns from the tear's tangent: positive outward (away from the centre), degrees. Null where the
 * tear runs straight at or from the centre, so that neither side is outward.
 */
export function outwardTurn_deg(tip: TipView, direction_deg: number, centre_mm: Vec2): number | null {
  const tangent = (tip.tangent_deg * Math.PI) / 180;
  const toCentre: Vec2 = [centre_mm[0] - tip.position_mm[0], centre_mm[1] - tip.position_mm[1]];
  const left = -Math.sin(tangent) * toCentre[0] + Math.cos(tangent) * toCentre[1];
  const turn = turn_deg(tip.tangent_deg, direction_deg);
  if (!Number.isFinite(turn) || Math.abs(left) < 1e-6) return null;
  return left > 0 ? -turn : turn;
}

/** "turns out 12°", "turns in 8°", "goes straight on". */
export function turnWords(outward_deg: number | null): string {
  if (outward_deg === null) return DASH;
  const size = Math.round(Math.abs(outward_deg));
  if (size < 1) return t('common.turn.straight');
  return t(outward_deg > 0 ? 'common.turn.out' : 'common.turn.in', { degrees: number(size, 0) });
}

export const direction_deg = ([x, y]: Vec2): number => (Math.atan2(y, x) * 180) / Math.PI;

/** What the sheet would do by itself if the pull were let go now. */
export function sheetWords(tip: TipView, centre_mm: Vec2): string {
  const sheet = tip.sheet_mN;
  if (sheet === null || !(tip.drivingRatio > 0)) return DASH;
  const share = (Math.hypot(...sheet) * tip.drivingRatio) / tip.drivingForce_mN;
  const way = turnWords(outwardTurn_deg(tip, direction_deg(sheet), centre_mm));
  if (!Number.isFinite(share)) return DASH;
  return share >= 1
    ? t('common.sheet.runs', { turn: way })
    : t('common.sheet.share', { share: number(share, 2), turn: way });
}

/** Net pressure and, where known, the pressure at which this tear runs without a pull. */
export const runsAtWords = (chamber: ChamberView): string => quantity(chamber.runsByItselfAt_mmHg, 1, 'mmHg');

/** What ended the attempt, in one sentence. */
export const endedWords = (ended: Ended): string => t(`common.ended.${ended}`);

/** When a run-out happened and from when on it could not be held any more. */
export function runOutStory(events: readonly WorldEvent[]): string | null {
  const out = events.findLast((event) => event.kind === 'run-out');
  if (out === undefined) return null;
  const time = number(out.time_s, 1);
  const passed =
    out.clock_h === null
      ? t('common.runOut.passed', { time })
      : t('common.runOut.passedAt', { clock: clockHour(out.clock_h), time });
  const from = events.findLast((event) => event.kind === 'run-out-inevitable' && event.step <= out.step);
  return from === undefined ? passed : `${passed} ${t('common.runOut.from', { time: number(from.time_s, 1) })}`;
}

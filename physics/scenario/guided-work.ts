/** What a guided hand works on: where the tear ends, where the flap is taken, which way it is pulled, when to look again. */
import { cos, sin } from '../core/elementary/circular.ts';
import type { TipView, Vec2, WorldView } from '../world/contract.ts';
import { graspPlace } from './guided-grasp.ts';
import { rescuing } from './guided-rescue.ts';
import { tipAxes, trackOf } from './guided-sight.ts';
import { arcValue, DEG, type GuidedState } from './guided-state.ts';

export interface Work {
  /** Where the tear ends now, eye frame, mm. */
  readonly position_mm: Vec2;
  readonly drivingRatio: number;
  /** Arc torn so far, degrees. */
  readonly arc_deg: number;
  /** Whether the flap is laid over before it is pulled. */
  readonly folds: boolean;
  /** Where the flap should be taken, eye frame; null where there is none. */
  grasp(): readonly [number, number, number] | null;
  /** Direction of the pull now, unit vector. */
  aim(): readonly [number, number];
  /** Whether enough was torn since the flap was taken. */
  tornEnough(): boolean;
}

/** Work on one tip of a flap. */
export function tipWork(state: GuidedState, view: WorldView, tip: TipView): Work {
  const { hand } = state;
  const { arc_deg } = trackOf(state, tip);
  const back = rescuing(state, tip) ? hand.rescue : undefined;
  return {
    position_mm: tip.position_mm,
    drivingRatio: tip.drivingRatio,
    arc_deg,
    // a tear is brought back with the flap lying flat
    folds: hand.fold && !back,
    grasp: () => graspPlace(state, view, tip),
    aim: () => inDirection(state, tip, back ? back.backAngle_deg : pullAngle_deg(state, tip)),
    tornEnough: () =>
      arc_deg - state.arcAtGrasp_deg >= hand.regraspEvery_deg ||
      (back !== undefined && view.torn_mm - state.tornAtGrasp_mm >= back.regraspEvery_mm),
  };
}

/**
 * Angle of the pull now: the set one, corrected by the tip's distance from the line when the hand follows one. The distance is
 * the one seen before the grasp, at rest: a pull carries the tip along with the soft sheet and would hide it.
 */
function pullAngle_deg({ hand, tracks }: GuidedState, tip: TipView): number {
  const { arc_deg, restRadius_mm } = tracks.get(tip.id)!;
  const angle = arcValue(hand.pullAngle_deg, arc_deg);
  if (!hand.follow) return angle;
  const { diameter_mm, gain_deg_per_mm, minAngle_deg, maxAngle_deg } = hand.follow;
  return Math.min(maxAngle_deg, Math.max(minAngle_deg, angle + gain_deg_per_mm * (restRadius_mm - diameter_mm / 2)));
}

function inDirection(state: GuidedState, tip: TipView, angle_deg: number): [number, number] {
  const { t, n } = tipAxes(state, tip);
  const c = cos(angle_deg * DEG);
  const s = sin(angle_deg * DEG);
  return [c * t[0] + s * n[0], c * t[1] + s * n[1]];
}

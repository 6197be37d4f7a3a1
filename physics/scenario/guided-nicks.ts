/**
 * Two nicks: the edge between the two tips of a nick is drawn to the centre, the far one pulled and the near one pushed, in
 * turns, so that both tears run round and meet at the sides. Common teaching; the published series (84 eyes, Ophthalmology
 * 2006;113:1309) says that it was done so.
 */
import { hypot } from '../core/elementary/hypot.ts';
import type { TipView, Vec2, WorldView } from '../world/contract.ts';
import { placeOf } from './guided-grasp.ts';
import { trackOf } from './guided-sight.ts';
import { type GuidedState, go } from './guided-state.ts';
import type { Work } from './guided-work.ts';

/** A nick with both tips live. */
export interface Nick {
  readonly tips: readonly [TipView, TipView];
  /** The middle of the nick as it was cut, reference disc, and the unit vector from it to the centre. */
  readonly start_mm: Vec2;
  readonly inward: Vec2;
  /** How far the middle between the tips has come from there, mm. */
  readonly depth_mm: number;
}

/** The nick to be worked on: the one held, else the one that has come less far; null from the first meeting on. */
export function chooseNick(state: GuidedState, view: WorldView): Nick | null {
  if (state.hand.nickTurn_mm === undefined || state.met_mm) return null;
  const nicks = nicksOf(state, view);
  const held = state.doing === 'opening' ? undefined : nicks.find(({ tips }) => tips[0].id === state.tip);
  const chosen = held ?? nicks.reduce<Nick | null>((a, b) => (a && a.depth_mm <= b.depth_mm ? a : b), null);
  if (chosen) state.tip = chosen.tips[0].id;
  return chosen;
}

/**
 * Sees where two tears have met. What is left to be torn lies on the other side: the hand goes on with the tip that is farthest
 * from there, as with any flap.
 */
export function watchMeeting(state: GuidedState, view: WorldView): void {
  if (state.hand.nickTurn_mm === undefined || state.met_mm) return;
  for (const [id, track] of state.tracks) {
    if (view.tips.some((tip) => tip.id === id)) continue;
    state.met_mm = track.seen_mm;
    const far = (tip: TipView) => hypot(tip.reference_mm[0] - track.seen_mm[0], tip.reference_mm[1] - track.seen_mm[1]);
    const next = view.tips.reduce<TipView | null>((a, b) => (a && far(a) >= far(b) ? a : b), null);
    if (next) state.tip = next.id;
    if (state.doing !== 'reaching') go(state, view, 'opening');
    return;
  }
}

/** Tips come in pairs: the two ends of one tear stand one after the other. */
function nicksOf(state: GuidedState, view: WorldView): Nick[] {
  const nicks: Nick[] = [];
  for (const first of view.tips) {
    const second = view.tips.find(({ id }) => id === first.id + 1);
    if (first.id % 2 !== 0 || !second) continue;
    const middle: Vec2 = [
      (first.reference_mm[0] + second.reference_mm[0]) / 2,
      (first.reference_mm[1] + second.reference_mm[1]) / 2,
    ];
    const start_mm = state.nickStarts.get(first.id) ?? middle;
    state.nickStarts.set(first.id, start_mm);
    const size = hypot(...start_mm) || 1;
    nicks.push({
      tips: [first, second],
      start_mm,
      inward: [-start_mm[0] / size, -start_mm[1] / size],
      depth_mm: hypot(middle[0] - start_mm[0], middle[1] - start_mm[1]),
    });
  }
  return nicks;
}

/** Work on the edge of a nick: taken in its middle, close behind the line between the tips, and drawn to the centre. */
export function nickWork(state: GuidedState, view: WorldView, nick: Nick): Work {
  const { hand } = state;
  const [a, b] = nick.tips;
  const depth = Math.max(hand.graspInside_mm, nick.depth_mm - hand.graspBehind_mm);
  return {
    position_mm: [(a.position_mm[0] + b.position_mm[0]) / 2, (a.position_mm[1] + b.position_mm[1]) / 2],
    drivingRatio: Math.max(a.drivingRatio, b.drivingRatio),
    arc_deg: Math.min(trackOf(state, a).arc_deg, trackOf(state, b).arc_deg),
    folds: hand.fold,
    grasp: () => placeOf(view, [nick.start_mm[0] + depth * nick.inward[0], nick.start_mm[1] + depth * nick.inward[1]]),
    aim: () => nick.inward,
    tornEnough: () => view.torn_mm - state.tornAtGrasp_mm >= (hand.nickTurn_mm ?? Infinity),
  };
}

/** What a guided hand sees of the tips: which to work on, how far each has come, which way it runs. */
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { TipView, WorldView } from '../world/contract.ts';
import { DEG, type GuidedState, type TipTrack } from './guided-state.ts';

/** Follows every tip in sight. Call once a step. */
export function watchTips(state: GuidedState, view: WorldView): void {
  for (const tip of view.tips) {
    let track = state.tracks.get(tip.id);
    if (!track) {
      track = {
        arc_deg: 0,
        lastAngle: null,
        sense: firstSense(view, tip),
        restRadius_mm: 0,
        seen_mm: tip.reference_mm,
      };
      state.tracks.set(tip.id, track);
    }
    track.seen_mm = tip.reference_mm;
    followArc(state, tip, track);
    if (!view.instrument.gripping) track.restRadius_mm = fromCentre(state, tip);
  }
}

export const trackOf = (state: GuidedState, tip: TipView): TipTrack => state.tracks.get(tip.id)!;

const fromCentre = ({ centre_mm }: GuidedState, { position_mm }: TipView): number =>
  hypot(position_mm[0] - centre_mm[0], position_mm[1] - centre_mm[1]);

/** The tip that the hand works on: the one it began with while that lives, else the last in sight. */
export function chooseTip(state: GuidedState, view: WorldView): TipView | null {
  const live = view.tips.filter((tip) => tip.live);
  const same = live.find((tip) => tip.id === state.tip);
  if (same) return same;
  const chosen = live[live.length - 1] ?? null;
  if (chosen) state.tip = chosen.id;
  return chosen;
}

function followArc(state: GuidedState, tip: TipView, track: TipTrack): void {
  const angle = atan2(tip.position_mm[1] - state.centre_mm[1], tip.position_mm[0] - state.centre_mm[0]);
  // at the centre itself an angle says nothing
  if (fromCentre(state, tip) < 0.5) return;
  if (track.lastAngle !== null) {
    let d = angle - track.lastAngle;
    d -= 2 * Math.PI * Math.round(d / (2 * Math.PI));
    // arc counts in the sense in which the tear runs
    track.arc_deg += (d * track.sense) / DEG;
  }
  track.lastAngle = angle;
}

/** +1 when the tear goes round counter-clockwise: judged once, from the line behind the tip in the unloaded disc. */
function firstSense(view: WorldView, tip: TipView): 1 | -1 {
  const [x, y] = tip.reference_mm;
  for (const margin of view.margins) {
    const r = view.reference_mm;
    for (const run of [margin, Array.from(margin).reverse()]) {
      const end = run[run.length - 1];
      const back = run[Math.max(0, run.length - 8)];
      if (hypot(r[end * 2] - x, r[end * 2 + 1] - y) > 1e-4) continue;
      return r[back * 2] * y - r[back * 2 + 1] * x >= 0 ? 1 : -1;
    }
  }
  return 1;
}

/**
 * Unit vectors at the tip: along the circle through it about the centre, in the sense of the tear, and toward the centre.
 * A person takes the angle from the line that is to be torn; the edge right at the tip is drawn out of shape by the pull.
 */
export function tipAxes(state: GuidedState, tip: TipView): { t: [number, number]; n: [number, number] } {
  const x = tip.position_mm[0] - state.centre_mm[0];
  const y = tip.position_mm[1] - state.centre_mm[1];
  const r = hypot(x, y) || 1;
  const { sense } = trackOf(state, tip);
  return { t: [(-y / r) * sense, (x / r) * sense], n: [-x / r, -y / r] };
}

/** The nodes of the torn edge on the flap's side, from the tip backward. */
export function innerRun(state: GuidedState, view: WorldView, tip: TipView): number[] | null {
  const s = trackOf(state, tip).sense;
  for (let m = 0; m + 1 < view.margins.length; m += 2) {
    for (const atEnd of [true, false]) {
      const left = view.margins[m];
      const end = atEnd ? left[left.length - 1] : left[0];
      if (
        hypot(view.reference_mm[end * 2] - tip.reference_mm[0], view.reference_mm[end * 2 + 1] - tip.reference_mm[1]) >
        1e-4
      )
        continue;
      // seen along the tear's forward direction the centre is on the left when it goes round counter-clockwise
      const onLeft = s > 0 === atEnd;
      const run = Array.from(onLeft ? view.margins[m] : view.margins[m + 1]);
      return atEnd ? run.reverse() : run;
    }
  }
  return null;
}

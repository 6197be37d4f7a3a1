/**
 * A guided hand: it looks at the view as a person does (tip, flap, line, force on the card) and asks the instrument to move.
 * It has no access that a hand does not have: what goes out is a HandCommand, and the tissue answers.
 */

import { createTremor, type Tremor } from '../core/tremor.ts';
import { barycentric, blend, cornersAt } from '../mesh/barycentric.ts';
import { type HandCommand, STEP_S, type TipView, type Vec2, type WorldView } from '../world/contract.ts';
import type { ArcFunction, GuidedHand } from './hand.ts';

type Doing = 'cutting' | 'reaching' | 'closing' | 'laying-over' | 'pulling' | 'opening' | 'refilling' | 'resting';

export interface GuidedState {
  readonly hand: GuidedHand;
  readonly shake: { readonly along: Tremor; readonly across: Tremor } | null;
  readonly incisions: readonly Vec2[];
  readonly centre_mm: Vec2;
  /** Radius of the planned line, mm. */
  readonly line_mm: number;
  /** Way of the needle still to go, eye frame. */
  cut: Vec2[];
  doing: Doing;
  since_step: number;
  /** Where the hand asks the tip to be, before tremor. */
  asked: [number, number, number];
  /** Distance of the asked place from the tear's tip while pulling, mm. */
  reach_mm: number;
  tip: number | null;
  /** Arc torn by the tip, degrees, and its value at the last grasp. */
  arc_deg: number;
  arcAtGrasp_deg: number;
  /** Distance of the tip from the centre when it was last seen without a pull, mm. */
  restRadius_mm: number;
  lastAngle: number | null;
  /** +1 when the tear goes round counter-clockwise. */
  sense: 1 | -1;
}

/** Speed at which an empty hand moves, mm/s. Assumed: unhurried. */
const APPROACH_mm_per_s = 4;
/** Time for the jaws to close or open, steps. */
const JAW_STEPS = 12;
/** Height at which a held flap is carried over and at which it is pulled, mm. */
const CARRY_mm = 0.7;
const PULL_mm = 0.25;
/** A flap laid over lies this share of its distance behind the tip ahead of it: a fold takes the rest. Assumed. */
const CARRY_SHARE = 0.7;
/** Above this driving ratio the hand stops reaching farther and lets the tear follow. */
const ENOUGH_RATIO = 1.05;
/** A hand that has drawn the flap this far from the tip lets go and grasps again, mm. Assumed: half the opening. */
const LONGEST_REACH_mm = 3;
/** Sets the two tremors' seeds apart. */
const ACROSS_SEED = 0x5bd1e995;
const DEG = Math.PI / 180;

export function createGuided(
  hand: GuidedHand,
  seed: number,
  centre_mm: Vec2,
  incisions: readonly Vec2[],
  line_mm: number,
): GuidedState {
  return {
    hand,
    shake: hand.tremor
      ? {
          along: createTremor(seed, hand.tremor.along_um / 1000, STEP_S),
          across: createTremor(seed ^ ACROSS_SEED, hand.tremor.across_um / 1000, STEP_S),
        }
      : null,
    incisions,
    centre_mm,
    line_mm,
    cut: hand.start === 'needle' ? cutWay(centre_mm, line_mm) : [],
    doing: hand.start === 'needle' ? 'cutting' : 'reaching',
    since_step: 0,
    asked: [centre_mm[0], centre_mm[1], 1],
    reach_mm: 0,
    tip: null,
    arc_deg: 0,
    arcAtGrasp_deg: 0,
    restRadius_mm: 0,
    lastAngle: null,
    sense: 1,
  };
}

export function arcValue(value: ArcFunction, arc_deg: number): number {
  if (typeof value === 'number') return value;
  let k = 0;
  while (k + 1 < value.length && value[k + 1][0] <= arc_deg) k++;
  const [a0, v0] = value[k];
  if (k + 1 >= value.length || arc_deg <= a0) return v0;
  const [a1, v1] = value[k + 1];
  return v0 + ((v1 - v0) * (arc_deg - a0)) / (a1 - a0);
}

/** The next command. Call once per step with the present view. */
export function guide(state: GuidedState, view: WorldView): HandCommand {
  const tip = chooseTip(state, view);
  if (tip) {
    followArc(state, tip);
    if (!view.instrument.gripping)
      state.restRadius_mm = Math.hypot(
        tip.position_mm[0] - state.centre_mm[0],
        tip.position_mm[1] - state.centre_mm[1],
      );
  }
  const needsFluid =
    state.hand.refillBelow_mmHg !== undefined &&
    view.chamber.chamberPressure_mmHg < state.hand.refillBelow_mmHg &&
    !view.instrument.gripping;
  if (view.phase === 'working' && state.doing === 'cutting') return cutSlit(state, view);
  if (view.phase !== 'working' || !tip) return rest(state, view);
  if (state.doing === 'refilling' || (needsFluid && state.doing === 'reaching')) return refill(state, view);
  switch (state.doing) {
    case 'reaching':
      return reach(state, view, tip);
    case 'closing':
      return close(state, view, tip);
    case 'laying-over':
      return layOver(state, view, tip);
    case 'pulling':
      return pull(state, view, tip);
    default:
      return open(state, view);
  }
}

function go(state: GuidedState, view: WorldView, doing: Doing): void {
  state.doing = doing;
  state.since_step = view.step;
}

/** The tip that the hand works on: the one it began with while that lives, else the nearest to the instrument. */
function chooseTip(state: GuidedState, view: WorldView): TipView | null {
  const live = view.tips.filter((tip) => tip.live);
  const same = live.find((tip) => tip.id === state.tip);
  if (same) return same;
  const chosen = live[live.length - 1] ?? null;
  if (chosen && chosen.id !== state.tip) {
    state.tip = chosen.id;
    state.lastAngle = null;
    state.sense = firstSense(view, chosen);
  }
  return chosen;
}

function followArc(state: GuidedState, tip: TipView): void {
  const angle = Math.atan2(tip.position_mm[1] - state.centre_mm[1], tip.position_mm[0] - state.centre_mm[0]);
  // at the centre itself an angle says nothing
  if (Math.hypot(tip.position_mm[0] - state.centre_mm[0], tip.position_mm[1] - state.centre_mm[1]) < 0.5) return;
  if (state.lastAngle !== null) {
    let d = angle - state.lastAngle;
    d -= 2 * Math.PI * Math.round(d / (2 * Math.PI));
    // arc counts in the sense in which the tear runs
    state.arc_deg += (d * state.sense) / DEG;
  }
  state.lastAngle = angle;
}

/** +1 when the tear goes round counter-clockwise: judged once, from the line behind the tip in the unloaded disc. */
function firstSense(view: WorldView, tip: TipView): 1 | -1 {
  const [x, y] = tip.reference_mm;
  for (const margin of view.margins) {
    const r = view.reference_mm;
    for (const run of [margin, Array.from(margin).reverse()]) {
      const end = run[run.length - 1];
      const back = run[Math.max(0, run.length - 8)];
      if (Math.hypot(r[end * 2] - x, r[end * 2 + 1] - y) > 1e-4) continue;
      return r[back * 2] * y - r[back * 2 + 1] * x >= 0 ? 1 : -1;
    }
  }
  return 1;
}

/**
 * Unit vectors at the tip: along the circle through it about the centre, in the sense of the tear, and toward the centre.
 * A person takes the angle from the line that is to be torn; the edge right at the tip is drawn out of shape by the pull.
 */
function tipAxes(state: GuidedState, tip: TipView): { t: [number, number]; n: [number, number] } {
  const x = tip.position_mm[0] - state.centre_mm[0];
  const y = tip.position_mm[1] - state.centre_mm[1];
  const r = Math.hypot(x, y) || 1;
  return { t: [(-y / r) * state.sense, (x / r) * state.sense], n: [-x / r, -y / r] };
}

/** Tries in order: the asked place, then places farther along the edge and farther in, where the asked one lies under another fold. */
const GRASP_TRIES: readonly (readonly [number, number])[] = [
  [1, 1],
  [1.5, 1],
  [1, 1.6],
  [0.7, 0.8],
  [2, 1.5],
  [2.6, 1],
];

/** Where the flap should be grasped: behind the tip along the torn edge and inside of it, on the tissue as it lies now, on top. */
function graspPlace(state: GuidedState, view: WorldView, tip: TipView): [number, number, number] | null {
  const { hand } = state;
  let first: [number, number, number] | null = null;
  for (const [behind, inside] of GRASP_TRIES) {
    const wanted = referenceGrasp(state, view, tip, behind * hand.graspBehind_mm, inside * hand.graspInside_mm);
    const place = wanted && placeOf(view, wanted);
    if (!place) continue;
    first ??= place;
    if (!coveredAt(view, place)) return place;
  }
  return first;
}

/** Whether another layer lies over a place. */
function coveredAt(view: WorldView, place: readonly [number, number, number]): boolean {
  const { triangle, position_mm: p } = view;
  for (let t = 0; t < triangle.length; t += 3) {
    const nodes = cornersAt(triangle, t);
    const { weights } = barycentric(p, 3, nodes, place[0], place[1]);
    if (!(Math.min(...weights) >= 0)) continue;
    if (blend(p, 3, 2, nodes, weights) > place[2] + COVER_mm) return true;
  }
  return false;
}

/** A layer this much higher covers what is under it, mm. */
const COVER_mm = 0.02;

/** Reference place behind and inside of the tip: along the tear's own line by length, then square off it. */
function referenceGrasp(
  state: GuidedState,
  view: WorldView,
  tip: TipView,
  behind: number,
  inside: number,
): Vec2 | null {
  const run = innerRun(state, view, tip);
  if (!run) return null;
  let left = behind;
  for (let k = 0; k + 1 < run.length; k++) {
    const ax = view.reference_mm[run[k] * 2];
    const ay = view.reference_mm[run[k] * 2 + 1];
    const bx = view.reference_mm[run[k + 1] * 2];
    const by = view.reference_mm[run[k + 1] * 2 + 1];
    const size = Math.hypot(bx - ax, by - ay);
    if (left > size && k + 2 < run.length) {
      left -= size;
      continue;
    }
    const u = Math.min(1, left / size);
    const s = state.sense;
    // the run goes backward from the tip, so its left is the tear's right
    const nx = ((by - ay) / size) * s;
    const ny = (-(bx - ax) / size) * s;
    return [ax + u * (bx - ax) + inside * nx, ay + u * (by - ay) + inside * ny];
  }
  return null;
}

/** The nodes of the torn edge on the flap's side, from the tip backward. */
function innerRun(state: GuidedState, view: WorldView, tip: TipView): number[] | null {
  const s = state.sense;
  for (let m = 0; m + 1 < view.margins.length; m += 2) {
    for (const atEnd of [true, false]) {
      const left = view.margins[m];
      const end = atEnd ? left[left.length - 1] : left[0];
      if (
        Math.hypot(
          view.reference_mm[end * 2] - tip.reference_mm[0],
          view.reference_mm[end * 2 + 1] - tip.reference_mm[1],
        ) > 1e-4
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

/** Eye-frame place of a reference place: interpolated in the triangle that holds it. */
function placeOf(view: WorldView, at: Vec2): [number, number, number] | null {
  const { triangle, reference_mm: r, position_mm: p } = view;
  let best: [number, number, number] | null = null;
  let most = -0.3;
  for (let t = 0; t < triangle.length; t += 3) {
    const nodes = cornersAt(triangle, t);
    const { weights } = barycentric(r, 2, nodes, at[0], at[1]);
    const low = Math.min(...weights);
    if (low <= most) continue;
    most = low;
    best = [0, 1, 2].map((i) => nodes.reduce((sum, node, k) => sum + weights[k] * p[node * 3 + i], 0)) as [
      number,
      number,
      number,
    ];
    if (low >= 0) break;
  }
  return best;
}

/** Speed of the pressed needle, mm/s. Assumed: a short, slow cut. */
const CUT_mm_per_s = 0.8;

/** Way of the needle: in at half the line's radius, out to the line, and a little along it. */
function cutWay(centre_mm: Vec2, line_mm: number): Vec2[] {
  const at = (r: number, angle_deg: number): Vec2 => [
    centre_mm[0] + r * Math.cos(angle_deg * DEG),
    centre_mm[1] + r * Math.sin(angle_deg * DEG),
  ];
  const way = [at(0.5 * line_mm, 90), at(0.86 * line_mm, 92)];
  for (let angle = 97; angle <= 125; angle += 4)
    way.push(at(line_mm * (1 - 0.14 * Math.exp(-(angle - 92) / 10)), angle));
  return way;
}

/** Presses the needle in at the first place and draws it along the rest, pressed, until the slit stands. */
function cutSlit(state: GuidedState, view: WorldView): HandCommand {
  const first = view.tips.length === 0;
  const goal = state.cut[0];
  const command = (jaws: number): HandCommand => ({ ...ask(state, view, jaws), instrument: 'needle' });
  if (!goal) {
    go(state, view, 'opening');
    return command(0);
  }
  moveTo(state, [goal[0], goal[1], first ? 0.15 : 0.1], first ? APPROACH_mm_per_s : CUT_mm_per_s);
  const [x, y, z] = view.instrument.tip_mm;
  const there = Math.hypot(goal[0] - x, goal[1] - y) < 0.06;
  if (there && !first) state.cut.shift();
  return command(first && !(there && z < 0.25) ? 0 : 1);
}

function reach(state: GuidedState, view: WorldView, tip: TipView): HandCommand {
  const place = graspPlace(state, view, tip);
  if (!place) return ask(state, view, 0);
  moveTo(state, [place[0], place[1], Math.max(0, place[2]) + 0.1], APPROACH_mm_per_s);
  const [x, y, z] = view.instrument.tip_mm;
  const off = Math.hypot(place[0] - x, place[1] - y);
  if (off < 0.08 && Math.abs(place[2] + 0.1 - z) < 0.3) go(state, view, 'closing');
  return ask(state, view, 0);
}

function close(state: GuidedState, view: WorldView, tip: TipView): HandCommand {
  const steps = view.step - state.since_step;
  if (steps >= JAW_STEPS) {
    if (!view.instrument.gripping) {
      go(state, view, 'opening');
      return ask(state, view, 0);
    }
    state.arcAtGrasp_deg = state.arc_deg;
    const [x, y] = view.instrument.tip_mm;
    state.reach_mm = CARRY_SHARE * Math.hypot(x - tip.position_mm[0], y - tip.position_mm[1]);
    go(state, view, 'laying-over');
  }
  return ask(state, view, Math.min(1, steps / (JAW_STEPS / 2)));
}

/**
 * Direction of the pull now, unit vector: the set angle, corrected by the tip's distance from the line when the hand follows one.
 * The distance is the one seen before the grasp, at rest: a pull carries the tip along with the soft sheet and would hide it.
 */
function pullDirection(state: GuidedState, tip: TipView): [number, number] {
  const { hand } = state;
  let angle = arcValue(hand.pullAngle_deg, state.arc_deg);
  if (hand.follow) {
    angle += hand.follow.gain_deg_per_mm * (state.restRadius_mm - hand.follow.diameter_mm / 2);
    angle = Math.min(hand.follow.maxAngle_deg, Math.max(hand.follow.minAngle_deg, angle));
  }
  const { t, n } = tipAxes(state, tip);
  const c = Math.cos(angle * DEG);
  const s = Math.sin(angle * DEG);
  return [c * t[0] + s * n[0], c * t[1] + s * n[1]];
}

/** Carries the held flap over the tip and lays it down ahead of it, along the direction of the pull. */
function layOver(state: GuidedState, view: WorldView, tip: TipView): HandCommand {
  const { hand } = state;
  const aim = pullDirection(state, tip);
  const steps = view.step - state.since_step;
  if (!hand.fold) {
    go(state, view, 'pulling');
    return ask(state, view, 1);
  }
  const goal: [number, number, number] = [
    tip.position_mm[0] + state.reach_mm * aim[0],
    tip.position_mm[1] + state.reach_mm * aim[1],
    CARRY_mm,
  ];
  moveTo(state, goal, 1.5 * hand.speed_mm_per_s);
  const left = Math.hypot(goal[0] - state.asked[0], goal[1] - state.asked[1]);
  if (left < 0.05 || tip.drivingRatio > ENOUGH_RATIO || steps > 240) {
    state.reach_mm = Math.hypot(state.asked[0] - tip.position_mm[0], state.asked[1] - tip.position_mm[1]);
    go(state, view, 'pulling');
  }
  return ask(state, view, 1);
}

/** Pulls: the asked place lies ahead of the tip in the pull's direction, farther and farther until the tear follows. */
function pull(state: GuidedState, view: WorldView, tip: TipView): HandCommand {
  const { hand } = state;
  const farEnough = state.arc_deg - state.arcAtGrasp_deg >= hand.regraspEvery_deg;
  const stuck = view.instrument.reachLimited || state.reach_mm > LONGEST_REACH_mm;
  if (!view.instrument.gripping || farEnough || stuck) {
    go(state, view, 'opening');
    return ask(state, view, 0);
  }
  const aim = pullDirection(state, tip);
  if (hand.fold) {
    if (tip.drivingRatio < ENOUGH_RATIO) state.reach_mm += hand.speed_mm_per_s * STEP_S;
    const goal: [number, number, number] = [
      tip.position_mm[0] + state.reach_mm * aim[0],
      tip.position_mm[1] + state.reach_mm * aim[1],
      PULL_mm,
    ];
    moveTo(state, goal, 2 * hand.speed_mm_per_s);
  } else if (tip.drivingRatio < ENOUGH_RATIO) {
    const d = hand.speed_mm_per_s * STEP_S;
    state.asked = [state.asked[0] + d * aim[0], state.asked[1] + d * aim[1], PULL_mm];
  }
  return ask(state, view, 1);
}

function open(state: GuidedState, view: WorldView): HandCommand {
  const steps = view.step - state.since_step;
  state.asked[2] = Math.min(1, state.asked[2] + 0.02);
  if (steps >= JAW_STEPS) go(state, view, 'reaching');
  return ask(state, view, 0);
}

function refill(state: GuidedState, view: WorldView): HandCommand {
  if (state.doing !== 'refilling') go(state, view, 'refilling');
  const steps = view.step - state.since_step;
  moveTo(state, [state.centre_mm[0], state.centre_mm[1], 1.5], APPROACH_mm_per_s);
  if (steps > 90) go(state, view, 'reaching');
  return { ...ask(state, view, steps < 75 ? 1 : 0), instrument: 'cannula' };
}

function rest(state: GuidedState, view: WorldView): HandCommand {
  if (state.doing !== 'resting') go(state, view, 'resting');
  return ask(state, view, view.step - state.since_step < 6 && view.instrument.gripping ? 1 : 0);
}

/** Moves the asked place toward a goal at a speed. */
function moveTo(state: GuidedState, goal: readonly [number, number, number], speed_mm_per_s: number): void {
  const d = goal.map((v, k) => v - state.asked[k]);
  const length = Math.hypot(...d);
  const step = speed_mm_per_s * STEP_S;
  const share = length > step ? step / length : 1;
  state.asked = state.asked.map((v, k) => v + share * d[k]) as [number, number, number];
}

/** The command, with tremor along and across the shaft added. */
function ask(state: GuidedState, view: WorldView, jaws: number): HandCommand {
  let [x, y] = state.asked;
  if (state.shake) {
    const [fx, fy] = view.instrument.fulcrum_mm;
    const length = Math.hypot(x - fx, y - fy) || 1;
    const [ux, uy] = [(x - fx) / length, (y - fy) / length];
    const along = state.shake.along.next();
    const across = state.shake.across.next();
    x += along * ux - across * uy;
    y += along * uy + across * ux;
  }
  return { x_mm: x, y_mm: y, lift_mm: state.asked[2], jaws, instrument: 'forceps', incision: 0 };
}

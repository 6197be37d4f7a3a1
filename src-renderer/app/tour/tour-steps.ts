import type { Scenario, TipView, Vec2, WorldEvent, WorldView } from '../../../physics/index.ts';
import type { SessionState } from '../../stores/session-store.ts';
import { nearestTip } from '../../tools/fold-path.ts';
import { outwardTurn_deg, turn_deg } from '../../ui/words.ts';

/** What the tour has a person do, in order. */
export const TOUR_STEPS = ['grasp', 'layOver', 'pull', 'again', 'refill'] as const;
export type TourStep = (typeof TOUR_STEPS)[number];

/** How far the tear must go in the third step, degrees round the middle of the target. Our choice: a short way. */
export const TO_TEAR_deg = 20;
/** A new grasp counts as near the tip within this, mm. Our choice: about as far as a flap is gripped in teaching. */
export const NEAR_mm = 1.5;
/** The grip lies over when it is this far ahead of the tip, mm. Our choice. */
const LAID_OVER_mm = 0.2;
/** A heading this far outward of the tear's own direction is spoken of, degrees. Our choice. */
const OUTWARD_deg = 15;
const DEG = 180 / Math.PI;

/** What the tour looks at: the computed world as the cards show it, and whose turn it is. */
export type TourSight = Pick<SessionState, 'attempt' | 'view' | 'events' | 'paused' | 'result'> & {
  readonly instrument: SessionState['hand']['instrument'];
  readonly start: Scenario['start']['kind'] | null;
  readonly centre_mm: Vec2;
};

/** How far a person has come. Kept apart from the page so that it can be followed without one. */
export interface TourProgress {
  /** Place in TOUR_STEPS; their number when all is done. */
  readonly at: number;
  readonly attempt: number;
  /** Events that had happened when the present step began. */
  readonly from: number;
  /** The tip that is followed in the third step, where it last was, degrees, and how far it has gone since. */
  readonly tip: { readonly id: number; readonly angle_deg: number } | null;
  readonly torn_deg: number;
}

/** Why a step is not done yet, with the number that says so where no card beside it does. */
export type TourHint =
  | { readonly kind: Reason }
  | { readonly kind: 'outward'; readonly outward_deg: number }
  | { readonly kind: 'far'; readonly distance_mm: number };

type Reason =
  | 'weak'
  | 'otherEye'
  | 'ended'
  | 'paused'
  | 'takeForceps'
  | 'missed'
  | 'slipped'
  | 'dropped'
  | 'behind'
  | 'stillHeld'
  | 'nowGrasp'
  | 'takeCannula'
  | 'inject';

export const beginTour = (attempt: number, from = 0): TourProgress => ({
  at: 0,
  attempt,
  from,
  tip: null,
  torn_deg: 0,
});

export const stepOf = ({ at }: TourProgress): TourStep | null => TOUR_STEPS[at] ?? null;

/** The next step, whatever the world shows. */
export const onward = (progress: TourProgress, events: readonly WorldEvent[]): TourProgress => ({
  ...beginTour(progress.attempt, events.length),
  at: Math.min(TOUR_STEPS.length, progress.at + 1),
});

/** Progress after a look at the world. A step is over only when the world shows that it was done. */
export function followed(progress: TourProgress, sight: TourSight): TourProgress {
  const step = stepOf(progress);
  if (step === null) return progress;
  // what was done in another attempt counts no more
  if (sight.attempt !== progress.attempt) return beginTour(sight.attempt);
  if (sight.view === null || sight.start !== 'flap') return progress;
  const now = step === 'pull' ? tornOn(progress, sight, sight.view) : progress;
  return isDone(step, now, sight, sight.view) ? onward(now, sight.events) : now;
}

/** The event that ends the story of the jaws so far: what they did last. */
const lastOf = (events: readonly WorldEvent[], kinds: readonly WorldEvent['kind'][]): WorldEvent['kind'] | null =>
  events.findLast(({ kind }) => kinds.includes(kind))?.kind ?? null;

const gripOf = ({ instrument }: WorldView): Vec2 => [instrument.tip_mm[0], instrument.tip_mm[1]];

const tipOf = (view: WorldView): TipView | null => nearestTip<TipView>(gripOf(view), view.tips);

const holds = ({ instrument }: WorldView): boolean => instrument.gripping && instrument.kind === 'forceps';

/** How far the grip lies ahead of the tip along the tear, mm; negative behind it. */
function ahead_mm(view: WorldView, tip: TipView): number {
  const angle = tip.tangent_deg / DEG;
  const [x, y] = gripOf(view);
  return (x - tip.position_mm[0]) * Math.cos(angle) + (y - tip.position_mm[1]) * Math.sin(angle);
}

function gripToTip_mm(view: WorldView): number {
  const tip = tipOf(view);
  const [x, y] = gripOf(view);
  return tip === null ? Number.POSITIVE_INFINITY : Math.hypot(x - tip.position_mm[0], y - tip.position_mm[1]);
}

/**
 * Adds the way that the tip has gone since the last look. Measured in the unloaded disc: there the tip moves only when
 * the capsule tears, not when it is merely drawn along.
 */
function tornOn(progress: TourProgress, { centre_mm }: TourSight, view: WorldView): TourProgress {
  const tip = tipOf(view);
  if (tip === null) return progress;
  const [x, y] = tip.reference_mm;
  const angle_deg = Math.atan2(y - centre_mm[1], x - centre_mm[0]) * DEG;
  const before = progress.tip;
  const went = before !== null && before.id === tip.id ? turn_deg(before.angle_deg, angle_deg) : 0;
  return { ...progress, tip: { id: tip.id, angle_deg }, torn_deg: progress.torn_deg + went };
}

function isDone(step: TourStep, progress: TourProgress, sight: TourSight, view: WorldView): boolean {
  const since = sight.events.slice(progress.from);
  const tip = tipOf(view);
  switch (step) {
    case 'grasp':
      return holds(view);
    case 'layOver':
      return holds(view) && tip !== null && ahead_mm(view, tip) > LAID_OVER_mm;
    case 'pull':
      return Math.abs(progress.torn_deg) >= TO_TEAR_deg;
    case 'again':
      return graspedAgain(since) && holds(view) && gripToTip_mm(view) <= NEAR_mm;
    case 'refill':
      return since.some(({ kind }) => kind === 'refill') || sight.result?.ended === 'complete';
  }
}

/** True when tissue was let go, or lost, and taken again afterwards. */
function graspedAgain(since: readonly WorldEvent[]): boolean {
  const lost = since.findIndex(({ kind }) => kind === 'release' || kind === 'slipped');
  return lost >= 0 && since.slice(lost).some(({ kind }) => kind === 'grasp');
}

/** Why the present step is not done yet; null where there is nothing to say but what is to be done. */
export function hintOf(progress: TourProgress, sight: TourSight): TourHint | null {
  const step = stepOf(progress);
  const { view } = sight;
  if (step === null || view === null) return null;
  if (sight.start !== 'flap') return { kind: 'otherEye' };
  if (sight.result !== null || view.phase !== 'working') return { kind: 'ended' };
  if (sight.paused) return { kind: 'paused' };
  if (step === 'refill') return { kind: sight.instrument === 'cannula' ? 'inject' : 'takeCannula' };
  if (sight.instrument !== 'forceps') return { kind: 'takeForceps' };
  return step === 'again' ? hintToGraspAgain(progress, sight, view) : hintToHold(step, sight, view, progress.from);
}

function hintToGraspAgain({ from }: TourProgress, { events }: TourSight, view: WorldView): TourHint | null {
  const since = events.slice(from);
  if (!holds(view)) {
    const last = lastOf(since, ['grasp-missed', 'release', 'slipped']);
    return { kind: last === 'grasp-missed' ? 'missed' : 'nowGrasp' };
  }
  return graspedAgain(since) ? { kind: 'far', distance_mm: gripToTip_mm(view) } : { kind: 'stillHeld' };
}

function hintToHold(
  step: 'grasp' | 'layOver' | 'pull',
  sight: TourSight,
  view: WorldView,
  from: number,
): TourHint | null {
  if (!holds(view)) {
    const last = lastOf(sight.events.slice(from), ['grasp-missed', 'release', 'slipped']);
    if (last === 'grasp-missed') return { kind: 'missed' };
    if (last === 'slipped') return { kind: 'slipped' };
    return step === 'grasp' ? null : { kind: 'dropped' };
  }
  const tip = tipOf(view);
  if (tip === null || step === 'grasp') return null;
  if (step === 'layOver') return { kind: 'behind' };
  const outward_deg = outwardTurn_deg(tip, tip.heading_deg, sight.centre_mm);
  if (tip.drivingRatio < 1) return { kind: 'weak' };
  return outward_deg !== null && outward_deg > OUTWARD_deg ? { kind: 'outward', outward_deg } : null;
}

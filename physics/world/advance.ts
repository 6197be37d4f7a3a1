/** Lets the tears run: as far as the law grants within a step, element by element, the sheet brought to rest after each. */
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { solve } from '../membrane/solve.ts';
import { extendTip, type TearLine, tipFrame } from '../mesh/tear-line.ts';
import { LARGEST_TURN_deg, tearSpeed_mm_per_s } from '../tear/law.ts';
import { joinAt, meetingOf } from '../tear/meeting.ts';
import { STEP_S } from './contract.ts';
import { dragLoss } from './energy.ts';
import { emit } from './events.ts';
import { gripForce } from './grip.ts';
import { nextHeading } from './heading.ts';
import { remesh } from './rebuild.ts';
import { snapParts } from './snap.ts';
import type { Tip, World } from './state.ts';
import { marginTurn, RESIDUAL_mN, toEye, updateTipForces } from './tips.ts';

/** Residual accepted between the advances of one step, mN; the next step starts by finishing the work. */
const BETWEEN_mN = 5 * RESIDUAL_mN;
/** Most elements a tip may cross in one step; at the fastest run this many are needed. */
const MOST_ADVANCES = 7;
/** A tip that comes within this many tip elements of a torn face joins it. */
const JOIN_REACH = 0.95;
/** Own line behind the tip that does not count as a face to meet, in tip elements. */
const OWN_TAIL = 9;
/** Line this far behind the tip is kept at the tip's spacing, in tip elements; farther back every second vertex goes. */
const FINE_TAIL = 9;
/** A vertex is only dropped where the line turns less than this there, radians. */
const DROP_TURN = 0.35;

export interface StepIncrement {
  from: Float64Array;
  dt_s: number;
}

/** Grants every live tip its way for this step and runs it. @returns false when the solver gave up. */
export function advanceTears(world: World, increment: StepIncrement): boolean {
  let sound = true;
  for (const tip of world.tips) {
    const speed = tearSpeed_mm_per_s(drivingRatio(world, tip));
    tip.debt_mm = speed > 0 ? tip.debt_mm + speed * STEP_S : 0;
  }
  for (let pass = 0; pass < MOST_ADVANCES; pass++) {
    const ready = world.tips.filter((tip) => tip.debt_mm >= world.sizes.tip_mm && drivingRatio(world, tip) > 1);
    if (ready.length === 0) break;
    sound = advanceOnce(world, ready, increment) && sound;
  }
  for (const tip of world.tips) tip.debt_mm = Math.min(tip.debt_mm, 2 * world.sizes.tip_mm);
  return sound;
}

export const drivingRatio = (world: World, tip: Tip): number =>
  hypot(tip.force[0], tip.force[1]) / world.frame.eye.tearResistance_mN;

function advanceOnce(world: World, ready: readonly Tip[], increment: StepIncrement): boolean {
  const live = world.tips.length;
  const oldTears = world.tears.map((tear) => ({ ...tear, points: tear.points.slice() }));
  const before = ready.map((tip) => ({ id: tip.id, force: hypot(...tip.force), length: advanceTip(world, tip) }));
  for (const tear of world.tears) coarsen(tear, world.sizes.tip_mm);
  const carried = remesh(world, oldTears, increment.from);
  if (carried === null) {
    // a line that cannot be meshed is not torn: the last good state stands and the attempt says that it stalled
    world.tears = oldTears;
    reattach(world);
    return false;
  }
  increment.from = carried;
  const sound = follow(world, increment, world.tips.length < live);
  updateTipForces(world);
  for (const { id, force, length } of before) {
    const after = world.tips.find((tip) => tip.id === id);
    const mean = after ? 0.5 * (force + hypot(...after.force)) : force;
    world.account.torn += mean * length;
  }
  return sound;
}

/**
 * Lets the sheet follow what was torn within the step. What hung by the last of a line that met another snaps, in thin fluid within a
 * part of the step: it is followed in parts, for the length of a step from here on. @returns false when the solver gave up
 */
function follow(world: World, increment: StepIncrement, met: boolean): boolean {
  const { account, body, solver, x } = world;
  const parts = met ? snapParts(world) : null;
  const options = { tolerance_mN: BETWEEN_mN, maxIterations: 40 };
  let sound = true;
  const bring = (): void => {
    const report = solve(body, solver, increment, x, options);
    world.newtonIterations += report.iterations;
    world.linearIterations += report.linearIterations;
    sound = report.residual_mN < Infinity && sound;
  };
  if (parts === null) bring();
  else
    for (const dt_s of parts) {
      account.dragged += dragLoss(body.drag, increment.from, x, increment.dt_s);
      increment.from = x.slice();
      increment.dt_s = dt_s;
      bring();
    }
  return sound;
}

/** Puts every tip back on the tears as they were, at rest. */
function reattach(world: World): void {
  world.tips = world.tips.map((tip) => {
    const tear = world.tears.find((candidate) => candidate.id === tip.ref.tear.id);
    return { ...tip, ref: { ...tip.ref, tear: tear ?? tip.ref.tear }, debt_mm: 0 };
  });
}

/** Extends one tip by an element, or joins it to what it meets. @returns length torn, reference mm. */
function advanceTip(world: World, tip: Tip): number {
  const { sizes, frame } = world;
  // a tip that another has just come to is no longer one
  if (endKind(tip) !== 'live') return 0;
  const { x, y } = tipFrame(tip.ref);
  const [hx, hy] = nextHeading(world, tip, LARGEST_TURN_deg);
  const h = sizes.tip_mm;
  let nx = x + h * hx;
  let ny = y + h * hy;
  const meeting = meetingOf(world.tears, tip.ref, x, y, nx, ny, JOIN_REACH * h, OWN_TAIL * h);
  if (meeting) {
    [nx, ny] = joinAt(meeting, 0.5 * h);
    endTip(tip, 'spent');
    endTipsAt(world, nx, ny);
    extendTip(tip.ref, nx, ny);
    world.cutting = null;
  } else {
    extendTip(tip.ref, nx, ny);
    tip.debt_mm -= h;
  }
  recordTorn(world, tip, x, y, nx, ny);
  const length = hypot(nx - x, ny - y);
  tip.lastAdvance_step = world.step;
  if (!tip.tearing) {
    tip.tearing = true;
    emit(world, 'tear-starts', world.x[tip.node * 3], world.x[tip.node * 3 + 1]);
  }
  if (meeting) emit(world, 'joined', world.x[tip.node * 3], world.x[tip.node * 3 + 1]);
  else if (hypot(nx, ny) >= frame.zonuleRing_mm) {
    endTip(tip, 'spent');
    emit(world, 'run-out', world.x[tip.node * 3], world.x[tip.node * 3 + 1]);
    world.phase = 'ended';
    world.ended = 'run-out';
  }
  return length;
}

function endTip(tip: Tip, kind: TearLine['endKind']): void {
  if (tip.ref.atEnd) tip.ref.tear.endKind = kind;
  else tip.ref.tear.startKind = kind;
}

const endKind = ({ ref }: Tip): TearLine['endKind'] => (ref.atEnd ? ref.tear.endKind : ref.tear.startKind);

/** A live tip that is met ends there as well: the two tears are one. */
function endTipsAt(world: World, x: number, y: number): void {
  for (const other of world.tips) {
    const at = tipFrame(other.ref);
    if (at.x === x && at.y === y && endKind(other) === 'live') endTip(other, 'spent');
  }
}

function recordTorn(world: World, tip: Tip, x: number, y: number, nx: number, ny: number): void {
  const { frame } = world;
  const cx = (frame.targetCentre_mm[0] - frame.lensCentre_mm[0]) / frame.baseStretch;
  const cy = (frame.targetCentre_mm[1] - frame.lensCentre_mm[1]) / frame.baseStretch;
  const [ax, ay, bx, by] = [x - cx, y - cy, nx - cx, ny - cy];
  const arc_deg = (Math.abs(atan2(ax * by - ay * bx, ax * bx + ay * by)) * 180) / Math.PI;
  const length_mm = hypot(nx - x, ny - y) * frame.baseStretch;
  const [shear_mN, stretch_mN] = world.grip ? pullSplit(world, tip) : [0, 0];
  world.tornNow.push({ length_mm, arc_deg, shear_mN, stretch_mN });
  world.torn_mm += length_mm;
}

/** Forceps force on the tissue along the tear's tangent and across it toward the target's centre, mN. */
export function pullSplit(world: World, tip: Tip): [number, number] {
  const { tx, ty } = tipFrame(tip.ref, 2 * world.sizes.tip_mm);
  const [ex, ey] = toEye(marginTurn(world, tip), [tx, ty]);
  const [fx, fy] = gripForce(world);
  const px = world.x[tip.node * 3];
  const py = world.x[tip.node * 3 + 1];
  const toCentre =
    Math.sign((world.frame.targetCentre_mm[0] - px) * -ey + (world.frame.targetCentre_mm[1] - py) * ex) || 1;
  return [-(fx * ex + fy * ey), -(fx * -ey + fy * ex) * toCentre];
}

/** Drops every second vertex of line that lies well behind a live tip and is still at the tip's spacing. */
function coarsen(tear: TearLine, h: number): void {
  if (tear.endKind === 'live') coarsenFrom(tear.points, h);
  if (tear.startKind === 'live') {
    const turned = reversed(tear.points);
    coarsenFrom(turned, h);
    tear.points = reversed(turned);
  }
}

function reversed(points: number[]): number[] {
  const out: number[] = [];
  for (let k = points.length - 2; k >= 0; k -= 2) out.push(points[k], points[k + 1]);
  return out;
}

/** Works from the end of `points`; a vertex goes when both its segments are short and the line is nearly straight there. */
function coarsenFrom(points: number[], h: number): void {
  let length = 0;
  let k = points.length / 2 - 1;
  const size = (a: number, b: number) => hypot(points[2 * a] - points[2 * b], points[2 * a + 1] - points[2 * b + 1]);
  while (k > 0 && length < FINE_TAIL * h) {
    length += size(k, k - 1);
    k--;
  }
  if (k < 2) return;
  const [a, b] = [size(k, k - 1), size(k - 1, k - 2)];
  if (a > 1.3 * h || b > 1.3 * h) return;
  const turn = turnAt(points, k - 1);
  if (Math.abs(turn) < DROP_TURN) points.splice(2 * (k - 1), 2);
}

function turnAt(p: number[], k: number): number {
  const ax = p[2 * k] - p[2 * k - 2];
  const ay = p[2 * k + 1] - p[2 * k - 1];
  const bx = p[2 * k + 2] - p[2 * k];
  const by = p[2 * k + 3] - p[2 * k + 1];
  return atan2(ax * by - ay * bx, ax * bx + ay * by);
}

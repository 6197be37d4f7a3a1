/** What the instrument does besides moving: taking and letting go of tissue, puncturing and cutting. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { barycentric, blend, cornersAt } from '../mesh/barycentric.ts';
import type { HandCommand } from './contract.ts';
import { bodyEnergy } from './energy.ts';
import { emit } from './events.ts';
import { createGrip, distanceToTears, gripForce, SLIP_mN, tissueAt } from './grip.ts';
import { remesh } from './rebuild.ts';
import type { World } from './state.ts';

/** Jaws count as closed above this. */
const CLOSED = 0.5;
/** The needle reaches the capsule at this height or below, mm. */
const NEEDLE_DEPTH_mm = 0.35;
/** Length of a fresh puncture, mm in the living eye. Assumed: the width of a bent needle's edge, 0.2 to 0.5. */
const PUNCTURE_mm = 0.36;
/** A puncture needs this much whole capsule around it, mm; nearer to a tear the needle takes the edge instead. */
const PUNCTURE_CLEAR_mm = 0.5;
/** Most tears at once. */
const MOST_TEARS = 4;

/** Closes, opens and slips. `before` is the command of the step before. */
export function workJaws(world: World, before: HandCommand, now: HandCommand): void {
  const closed = now.jaws > CLOSED && now.instrument !== 'cannula';
  const wasClosed = before.jaws > CLOSED && before.instrument === now.instrument;
  if (world.grip) {
    const changed = now.instrument !== world.grip.instrument;
    const slipped = hypot(...gripForce(world)) > SLIP_mN[world.grip.instrument];
    if (!closed || changed || slipped) letGo(world, slipped && closed ? 'slipped' : 'release');
  } else if (closed && !wasClosed) take(world, now);
  if (!closed || now.instrument !== 'needle') world.cutting = null;
  else if (world.cutting) cutOn(world);
}

function take(world: World, now: HandCommand): void {
  const [px, py] = world.pose.tip_mm;
  if (now.instrument === 'needle' && world.pose.tip_mm[2] <= NEEDLE_DEPTH_mm && puncture(world)) return;
  const place = tissueAt(world, now.instrument);
  if (!place) {
    emit(world, 'grasp-missed', px, py);
    return;
  }
  world.grip = createGrip(now.instrument, place);
  if (remesh(world, world.tears) === null) {
    world.grip = null;
    emit(world, 'grasp-missed', px, py);
    return;
  }
  world.grasps++;
  emit(world, 'grasp', px, py);
}

export function letGo(world: World, kind: 'release' | 'slipped'): void {
  const [px, py] = world.pose.tip_mm;
  // the mesh stays: rebuilding it round tissue that is still drawn out would blur its state
  const held = bodyEnergy(world);
  for (const node of world.grip!.nodes) world.body.spring_mN_per_mm[node] = 0;
  world.solver.factored = false;
  world.grip = null;
  world.letGo_step = world.step;
  world.account.released += held - bodyEnergy(world);
  emit(world, kind, px, py);
}

/** Reference place under a place in the eye frame, on the uncut side of the sheet; null off the sheet. */
function referenceAt(world: World, px: number, py: number): [number, number] | null {
  const { mesh, x, piece } = world;
  const { triangle, reference_mm } = mesh;
  for (let t = 0; t < triangle.length; t += 3) {
    if (piece[t / 3] !== 0) continue;
    const nodes = cornersAt(triangle, t);
    const { weights, twice } = barycentric(x, 3, nodes, px, py);
    // folded-over tissue has its underside up
    if (twice < 1e-9 || Math.min(...weights) < 0) continue;
    return [blend(reference_mm, 2, 0, nodes, weights), blend(reference_mm, 2, 1, nodes, weights)];
  }
  return null;
}

/** A short slit along the shaft under the needle's tip. @returns whether there was whole capsule to puncture */
function puncture(world: World): boolean {
  const { frame, sizes, pose } = world;
  if (world.tears.length >= MOST_TEARS) return false;
  const place = referenceAt(world, pose.tip_mm[0], pose.tip_mm[1]);
  if (!place || distanceToTears(world, place[0], place[1]) < PUNCTURE_CLEAR_mm) return false;
  if (hypot(...place) > frame.zonuleRing_mm - PUNCTURE_CLEAR_mm) return false;
  const angle = (pose.shaft_deg * Math.PI) / 180;
  const count = Math.max(4, Math.round(PUNCTURE_mm / frame.baseStretch / sizes.tip_mm));
  const points: number[] = [];
  for (let k = 0; k <= count; k++) {
    const s = (k - count / 2) * sizes.tip_mm;
    points.push(place[0] + s * cos(angle), place[1] + s * sin(angle));
  }
  const old = world.tears;
  const tear = { id: world.nextId++, points, startKind: 'live' as const, endKind: 'live' as const };
  world.tears = [...old, tear];
  if (remesh(world, old) === null) {
    world.tears = old;
    return false;
  }
  world.cutting = tear;
  emit(world, 'puncture', pose.tip_mm[0], pose.tip_mm[1]);
  return true;
}

/** While pressed, the needle's edge lengthens the slit toward itself, one element a step, up to the scenario's limit. */
function cutOn(world: World): void {
  const { sizes, pose, frame, scenario } = world;
  const tear = world.cutting!;
  const limit = (scenario.start.kind === 'needle' ? scenario.start.slitLimit_mm : 1) / frame.baseStretch;
  const { points } = tear;
  let length = 0;
  for (let k = 2; k < points.length; k += 2) length += hypot(points[k] - points[k - 2], points[k + 1] - points[k - 1]);
  const place = referenceAt(world, pose.tip_mm[0], pose.tip_mm[1]);
  if (!place || length + sizes.tip_mm > limit) return;
  const n = points.length;
  const ends = [
    {
      atEnd: true,
      live: tear.endKind === 'live',
      x: points[n - 2],
      y: points[n - 1],
      bx: points[n - 4],
      by: points[n - 3],
    },
    { atEnd: false, live: tear.startKind === 'live', x: points[0], y: points[1], bx: points[2], by: points[3] },
  ];
  for (const end of ends) {
    const dx = place[0] - end.x;
    const dy = place[1] - end.y;
    const d = hypot(dx, dy);
    const ahead = dx * (end.x - end.bx) + dy * (end.y - end.by) > 0.3 * d * hypot(end.x - end.bx, end.y - end.by);
    if (!end.live || d < sizes.tip_mm || d > 0.6 || !ahead) continue;
    const old = world.tears.map((t) => ({ ...t, points: t.points.slice() }));
    const nx = end.x + (dx * sizes.tip_mm) / d;
    const ny = end.y + (dy * sizes.tip_mm) / d;
    if (end.atEnd) points.push(nx, ny);
    else points.unshift(nx, ny);
    if (remesh(world, old) === null) points.splice(end.atEnd ? n : 0, 2);
    return;
  }
}

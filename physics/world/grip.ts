/** Tissue held by an instrument: where it can be taken, how the jaws hold it, what they feel. */

import { exp } from '../core/elementary/exponential.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { barycentric, blend, cornersAt } from '../mesh/barycentric.ts';
import { jawsRadius_mm } from '../mesh/sizes.ts';
import { tipFrame } from '../mesh/tear-line.ts';
import type { InstrumentKind } from '../scenario/scenario.ts';
import type { Grip, World } from './state.ts';

/** Stiffness with which the jaws hold a patch of tissue, all nodes together, mN/mm. Assumed, 100 to 1000: stiff against the sheet. */
const HOLD_mN_per_mm = 240;
/** Force at which tissue slips out. Assumed: forceps 60 (30 to 100), a needle's hook 20 (10 to 40) mN. */
export const SLIP_mN: Readonly<Record<InstrumentKind, number>> = { forceps: 60, needle: 20, cannula: 0 };
/** How far above or below the jaws tissue can be and still be taken, mm. Assumed. */
const REACH_UP_mm = 0.9;
/** How far beside a torn edge the jaws may close and still take it, mm. Assumed: the width of the jaws. */
const REACH_SIDE_mm = 0.25;
/** How far from a free edge tissue can be taken; beyond it the capsule is flat and taut and offers no fold. Assumed. */
const FROM_EDGE_mm: Readonly<Record<InstrumentKind, number>> = { forceps: 1.6, needle: 0.3, cannula: 0 };
/** The jaws keep this distance from a torn face and from a live tip, in lengths of the face mesh. */
const CLEAR_OF_FACE = 0.9;
const CLEAR_OF_TIP = 2.6;

/** Reference place of the tissue that closing the jaws now would take; null where there is none. */
export function tissueAt(world: World, kind: InstrumentKind): [number, number] | null {
  const [px, py, pz] = world.pose.tip_mm;
  const found = topmostAt(world, px, py, pz) ?? nearestEdge(world, px, py, pz);
  if (!found || distanceToTears(world, found[0], found[1]) > FROM_EDGE_mm[kind]) return null;
  return clearOfTears(world, found);
}

/** Twice the area below which a triangle stands on edge and holds nothing under the jaws, mm^2. */
const FLAT_MM2 = 1e-9;

/** Highest layer of tissue under the jaws, within reach of their height. */
function topmostAt(world: World, px: number, py: number, pz: number): [number, number] | null {
  const { mesh, x } = world;
  const { triangle, reference_mm } = mesh;
  let best: [number, number] | null = null;
  let height = -Infinity;
  for (let t = 0; t < triangle.length; t += 3) {
    const nodes = cornersAt(triangle, t);
    const { weights, twice } = barycentric(x, 3, nodes, px, py);
    if (Math.abs(twice) < FLAT_MM2 || Math.min(...weights) < 0) continue;
    const z = blend(x, 3, 2, nodes, weights);
    if (Math.abs(z - pz) > REACH_UP_mm || z <= height) continue;
    height = z;
    best = [blend(reference_mm, 2, 0, nodes, weights), blend(reference_mm, 2, 1, nodes, weights)];
  }
  return best;
}

/** A torn edge within the width of the jaws; the place returned lies on the edge of that side. */
function nearestEdge(world: World, px: number, py: number, pz: number): [number, number] | null {
  const { mesh, x } = world;
  let best = -1;
  let nearest = REACH_SIDE_mm;
  for (const faces of [...mesh.left, ...mesh.right])
    for (const node of faces) {
      const d = hypot(x[node * 3] - px, x[node * 3 + 1] - py);
      if (d >= nearest || Math.abs(x[node * 3 + 2] - pz) > REACH_UP_mm) continue;
      nearest = d;
      best = node;
    }
  if (best < 0) return null;
  // a little into the tissue of that side
  const { triangle, reference_mm } = mesh;
  const corner = triangle.indexOf(best);
  const t = corner - (corner % 3);
  const middle = [0, 1].map(
    (k) =>
      (reference_mm[triangle[t] * 2 + k] +
        reference_mm[triangle[t + 1] * 2 + k] +
        reference_mm[triangle[t + 2] * 2 + k]) /
      3,
  );
  return [middle[0], middle[1]];
}

/** Distance of a reference place to the nearest tear, mm. */
export function distanceToTears(world: World, x: number, y: number): number {
  return nearestOnTears(world, x, y).distance;
}

function nearestOnTears(world: World, x: number, y: number) {
  let distance = Infinity;
  let nx = x;
  let ny = y;
  for (const { points } of world.tears)
    for (let k = 0; k + 3 < points.length; k += 2) {
      const dx = points[k + 2] - points[k];
      const dy = points[k + 3] - points[k + 1];
      const u = Math.min(1, Math.max(0, ((x - points[k]) * dx + (y - points[k + 1]) * dy) / (dx * dx + dy * dy)));
      const qx = points[k] + u * dx;
      const qy = points[k + 1] + u * dy;
      const d = hypot(x - qx, y - qy);
      if (d < distance) {
        distance = d;
        nx = qx;
        ny = qy;
      }
    }
  return { distance, nx, ny };
}

/** The grip's node needs room for its ring: it is moved away from faces and tips, or given up where it cannot be. */
function clearOfTears(world: World, place: [number, number]): [number, number] | null {
  const { sizes, frame } = world;
  let [x, y] = place;
  for (let pass = 0; pass < 4; pass++) {
    for (const { ref } of world.tips) {
      const tip = tipFrame(ref);
      [x, y] = pushAway(x, y, tip.x, tip.y, CLEAR_OF_TIP * sizes.face_mm);
    }
    const near = nearestOnTears(world, x, y);
    [x, y] = pushAway(x, y, near.nx, near.ny, CLEAR_OF_FACE * sizes.face_mm);
  }
  const clear = distanceToTears(world, x, y) > 0.6 * sizes.face_mm;
  return clear && hypot(x, y) < frame.referenceRadius_mm - sizes.rim_mm ? [x, y] : null;
}

function pushAway(x: number, y: number, fromX: number, fromY: number, least: number): [number, number] {
  const dx = x - fromX;
  const dy = y - fromY;
  const d = hypot(dx, dy);
  if (d >= least || d < 1e-9) return [x, y];
  return [fromX + (dx * least) / d, fromY + (dy * least) / d];
}

/** A grip at a reference place; the mesh that is built for it gives its nodes, shape and offset. */
export const createGrip = (instrument: InstrumentKind, reference: [number, number]): Grip => ({
  instrument,
  reference,
  offset: [0, 0, 0],
  shape: new Float64Array(6),
  turn: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
  nodes: new Int32Array(0),
});

/** Finds the held nodes in the present mesh and gives them their springs: the grip's node and its ring on the same side. */
export function placeGrip(world: World, grip: Grip): void {
  const { mesh, body } = world;
  const centre = mesh.gripNode[0];
  const held = new Set<number>([centre]);
  const { triangle, reference_mm } = mesh;
  const reach = 1.2 * jawsRadius_mm(world.sizes);
  for (let t = 0; t < triangle.length; t += 3) {
    if (triangle[t] !== centre && triangle[t + 1] !== centre && triangle[t + 2] !== centre) continue;
    for (let k = 0; k < 3; k++) {
      const node = triangle[t + k];
      const d = hypot(reference_mm[node * 2] - grip.reference[0], reference_mm[node * 2 + 1] - grip.reference[1]);
      if (d <= reach && mesh.stem[node] !== 'rim') held.add(node);
    }
  }
  grip.nodes = Int32Array.from(held);
  for (const node of grip.nodes) body.spring_mN_per_mm[node] = HOLD_mN_per_mm / grip.nodes.length;
  setGripAnchors(world, grip);
}

/** Takes the patch in the shape and place that the held nodes have now, so that closing jaws strain nothing that can be helped. */
export function fitGrip(world: World, grip: Grip): void {
  const { mesh, pose, x } = world;
  grip.shape.set(patchShape(world, grip));
  const { nodes, shape, reference } = grip;
  for (let i = 0; i < 3; i++) {
    let sum = 0;
    for (const node of nodes) {
      const u = mesh.reference_mm[node * 2] - reference[0];
      const v = mesh.reference_mm[node * 2 + 1] - reference[1];
      sum += x[node * 3 + i] - shape[i * 2] * u - shape[i * 2 + 1] * v;
    }
    grip.offset[i] = sum / nodes.length - pose.tip_mm[i];
  }
  setGripAnchors(world, grip);
}

/** Moves the patch in the jaws so that they are pulled as before, where a new mesh gave other nodes to hold. */
export function keepGripForce(world: World, grip: Grip, before_mN: readonly [number, number, number]): void {
  const now_mN = gripForce(world);
  for (let i = 0; i < 3; i++) grip.offset[i] += (now_mN[i] - before_mN[i]) / HOLD_mN_per_mm;
  setGripAnchors(world, grip);
}

/** Anchors of the held nodes for the instrument's present place. */
export function setGripAnchors(world: World, grip: Grip): void {
  const { mesh, body, pose } = world;
  const { shape, turn, reference, offset } = grip;
  for (const node of grip.nodes) {
    const u = mesh.reference_mm[node * 2] - reference[0];
    const v = mesh.reference_mm[node * 2 + 1] - reference[1];
    const o0 = shape[0] * u + shape[1] * v;
    const o1 = shape[2] * u + shape[3] * v;
    const o2 = shape[4] * u + shape[5] * v;
    for (let i = 0; i < 3; i++)
      body.anchor[node * 3 + i] =
        pose.tip_mm[i] + offset[i] + turn[i * 3] * o0 + turn[i * 3 + 1] * o1 + turn[i * 3 + 2] * o2;
  }
}

/** Time in which closing jaws draw the tissue to themselves, s. Assumed, 0.1 to 0.3. */
const DRAW_IN_s = 0.15;

/** One step of drawing the held tissue to the jaws. */
export function drawIn(grip: Grip, dt_s: number): void {
  for (let i = 0; i < 3; i++) grip.offset[i] *= exp(-dt_s / DRAW_IN_s);
}

/**
 * Lets the held patch turn with the tissue: the jaws hold a point and do not wring. The turn is that of the patch's
 * plane and first axis, found from the nodes' present places.
 */
export function followTurn(world: World, grip: Grip): void {
  const now = patchShape(world, grip);
  const from = axes(grip.shape);
  const to = axes(now);
  if (!from || !to) return;
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      grip.turn[i * 3 + j] = to[i] * from[j] + to[3 + i] * from[3 + j] + to[6 + i] * from[6 + j];
}

/** Least-squares 3x2 gradient of the held nodes' places. */
function patchShape(world: World, grip: Grip): Float64Array {
  const { mesh, x } = world;
  const { nodes, reference } = grip;
  let uu = 0;
  let uv = 0;
  let vv = 0;
  const right = new Float64Array(6);
  const mean = [0, 0, 0];
  let mu = 0;
  let mv = 0;
  for (const node of nodes) {
    mu += (mesh.reference_mm[node * 2] - reference[0]) / nodes.length;
    mv += (mesh.reference_mm[node * 2 + 1] - reference[1]) / nodes.length;
    for (let i = 0; i < 3; i++) mean[i] += x[node * 3 + i] / nodes.length;
  }
  for (const node of nodes) {
    const u = mesh.reference_mm[node * 2] - reference[0] - mu;
    const v = mesh.reference_mm[node * 2 + 1] - reference[1] - mv;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    for (let i = 0; i < 3; i++) {
      const d = x[node * 3 + i] - mean[i];
      right[i * 2] += d * u;
      right[i * 2 + 1] += d * v;
    }
  }
  const det = uu * vv - uv * uv;
  const shape = new Float64Array(6);
  if (!(det > 1e-12)) return shape;
  for (let i = 0; i < 3; i++) {
    shape[i * 2] = (right[i * 2] * vv - right[i * 2 + 1] * uv) / det;
    shape[i * 2 + 1] = (right[i * 2 + 1] * uu - right[i * 2] * uv) / det;
  }
  return shape;
}

/** Orthonormal axes of a 3x2 shape, one after the other: along its first column, in its plane, normal. */
function axes(shape: Float64Array): Float64Array | null {
  const [a0, b0, a1, b1, a2, b2] = shape;
  const la = hypot(a0, a1, a2);
  let n0 = a1 * b2 - a2 * b1;
  let n1 = a2 * b0 - a0 * b2;
  let n2 = a0 * b1 - a1 * b0;
  const ln = hypot(n0, n1, n2);
  if (la < 1e-6 || ln < 1e-6) return null;
  n0 /= ln;
  n1 /= ln;
  n2 /= ln;
  const [e0, e1, e2] = [a0 / la, a1 / la, a2 / la];
  return Float64Array.of(e0, e1, e2, n1 * e2 - n2 * e1, n2 * e0 - n0 * e2, n0 * e1 - n1 * e0, n0, n1, n2);
}

/** Force of the membrane on the instrument, mN. */
export function gripForce(world: World): [number, number, number] {
  const force: [number, number, number] = [0, 0, 0];
  const { grip, body, x } = world;
  if (!grip) return force;
  for (const node of grip.nodes)
    for (let i = 0; i < 3; i++) force[i] += body.spring_mN_per_mm[node] * (x[node * 3 + i] - body.anchor[node * 3 + i]);
  return force;
}

/** Stored between jaws and held nodes, mN mm. */
export function gripEnergy({ body, x }: World, grip: Grip): number {
  let sum = 0;
  for (const node of grip.nodes)
    for (let i = node * 3; i < node * 3 + 3; i++) {
      const stretch = x[i] - body.anchor[i];
      sum += 0.5 * body.spring_mN_per_mm[node] * stretch * stretch;
    }
  return sum;
}

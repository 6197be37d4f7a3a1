/** Check of a whole path: a folded flap held at one place and pulled one way tears along a parabola: B13. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { neoHookean } from '../membrane/material.ts';
import { extendTip, type TearLine, tipFrame } from '../mesh/tear-line.ts';
import { carry, createTransfer } from '../mesh/transfer.ts';
import { headingOf } from '../tear/law.ts';
import type { Check, Finding } from './check.ts';
import { relative } from './compare.ts';
import { type DiscSample, discSample, tearThrough } from './disc-sample.ts';
import { fieldAt } from './flat-flap-checks.ts';
import { parabolaPathEnd } from './reference/flaps.ts';
import { clamp, settle, THICKNESS_mm } from './sample.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** E t, mN/mm, pull, and bending stiffness: as for the other folded flaps. */
const S = 1;
const F = 1e-3 * S;
const BENDING = 3e-7;
/** Length of an element at the tip, and of an advance. */
const EDGE = 0.12;
/** The tear starts at the distance 1 from the grip, which lies at the origin; the pull is along +x. */
const START_deg = 120;
const LENGTH = 6;
/** The disc, moved so that the path has room in it: middle and radius. */
const MIDDLE: readonly [number, number] = [2, 1.5];
const RADIUS = 5.2;
/** Rim from the cut's mouth to this angle is free, so that the fold's far end can move; the rest is held. */
const FREE_TO_deg = 25;

/** A straight cut from the rim to the start of the path, along the tangent there, in the disc's own axes. */
function startingCut(): TearLine {
  const heading = rad(START_deg / 2);
  const tip = [cos(rad(START_deg)) - MIDDLE[0], sin(rad(START_deg)) - MIDDLE[1]];
  const back = [-cos(heading), -sin(heading)];
  const along = tip[0] * back[0] + tip[1] * back[1];
  const reach = -along + Math.sqrt(along ** 2 + RADIUS ** 2 - tip[0] ** 2 - tip[1] ** 2);
  // the mouth is the rim node nearest to the line, to the bit
  const count = rimCount();
  const angle = atan2(tip[1] + reach * back[1], tip[0] + reach * back[0]);
  const at = (2 * Math.PI * (Math.round((angle * count) / (2 * Math.PI) + count) % count)) / count;
  const mouth = [RADIUS * cos(at), RADIUS * sin(at)];
  const straight = 10 * EDGE;
  const bend = [tip[0] + straight * back[0], tip[1] + straight * back[1]];
  const points: number[] = [];
  const parts = Math.round(hypot(bend[0] - mouth[0], bend[1] - mouth[1]) / (2 * EDGE));
  for (let k = 0; k < parts; k++)
    points.push(mouth[0] + ((bend[0] - mouth[0]) * k) / parts, mouth[1] + ((bend[1] - mouth[1]) * k) / parts);
  for (let k = 10; k >= 0; k--) points.push(tip[0] + k * EDGE * back[0], tip[1] + k * EDGE * back[1]);
  return tearThrough(points, 'joined', 'live');
}

const RIM_EDGE = 0.4;
const rimCount = (): number => Math.max(24, Math.round((2 * Math.PI * RADIUS) / RIM_EDGE));

/** The sheet with its tear so far, held and pulled, in its unloaded shape. */
function heldDisc(tear: TearLine): DiscSample {
  const sizes = { tip_mm: EDGE, face_mm: 2 * EDGE, far_mm: 0.6, rim_mm: RIM_EDGE, growth: 0.22 };
  const grips = [[-MIDDLE[0], -MIDDLE[1]] as const];
  const material = neoHookean(S / THICKNESS_mm / 3);
  const disc = discSample({ radius_mm: RADIUS, tears: [tear], grips, ...sizes, bending_mN_mm: BENDING * S }, material);
  const { mesh, body } = disc;
  const mouth = atan2(tear.points[1], tear.points[0]);
  const outer = new Set(mesh.right[0]);
  for (let node = 0; node < mesh.nodeCount; node++) {
    body.floor_mN_per_mm[node] = S / 100;
    const [X, Y] = [mesh.reference_mm[node * 2], mesh.reference_mm[node * 2 + 1]];
    if (hypot(X, Y) < RADIUS - 1e-6) continue;
    const angle = atan2(Y, X);
    const atMouth = Math.abs(angle - mouth) < 1e-9;
    const free = atMouth ? outer.has(node) : angle > mouth && angle < rad(FREE_TO_deg);
    if (!free) clamp(disc, node, X, Y);
  }
  body.load[mesh.gripNode[0] * 3] = F;
  return disc;
}

/** Lays what lies behind the tip on the right of the cut over the line square to the tangent. */
function layFlap(disc: DiscSample, tear: TearLine): void {
  const { x: px, y: py, tx, ty } = tipFrame({ tear, atEnd: true });
  const { mesh, x } = disc;
  const left = new Set(mesh.left[0]);
  for (const node of mesh.right[0]) left.delete(node);
  for (let node = 0; node < mesh.nodeCount; node++) {
    const [X, Y] = [mesh.reference_mm[node * 2], mesh.reference_mm[node * 2 + 1]];
    const behind = (X - px) * tx + (Y - py) * ty;
    const aside = tx * (Y - py) - ty * (X - px);
    if (behind >= 0 || aside > 1e-6 || left.has(node)) continue;
    x[node * 3] += (cos(rad(140)) - 1) * behind * tx;
    x[node * 3 + 1] += (cos(rad(140)) - 1) * behind * ty;
    x[node * 3 + 2] = -behind * sin(rad(140));
  }
}

const REST = { tolerance_mN: 3e-4 * F, drag_s: 1e-7, iterations: 100 };

function parabola(): readonly Finding[] {
  let tear = startingCut();
  let disc = heldDisc(tear);
  layFlap(disc, tear);
  settle(disc, { ...REST, steps: 60 });
  const steps = Math.round(LENGTH / EDGE);
  for (let step = 0; step < steps; step++) {
    const face = disc.mesh.left[0];
    const { x, y, tx, ty } = tipFrame({ tear, atEnd: true });
    const { force } = fieldAt(disc, face[face.length - 1], 0, EDGE);
    // each element is straight, in the direction of the force at its beginning, as in an attempt
    const [hx, hy] = headingOf([tx, ty], force, 180);
    const next: TearLine = { ...tear, points: tear.points.slice() };
    extendTip({ tear: next, atEnd: true }, x + EDGE * hx, y + EDGE * hy);
    const grown = heldDisc(next);
    grown.x.set(carry(createTransfer(disc.mesh, [tear], grown.mesh, [next]), disc.x, 3));
    settle(grown, { ...REST, steps: 10 });
    [tear, disc] = [next, grown];
  }
  const [x, y] = tear.points.slice(-2);
  const [wantedX, wantedY] = parabolaPathEnd(1, START_deg, LENGTH);
  const end = (axis: string, computed: number, reference: number): Finding => ({
    quantity: `end of the path, ${axis}, after a length of ${LENGTH} in ${steps} advances`,
    computed,
    reference,
    unit: 'distance from grip to start',
    tolerance: relative(0.02),
  });
  return [end('along the pull', x + MIDDLE[0], wantedX), end('across it', y + MIDDLE[1], wantedY)];
}

export const pathChecks: readonly Check[] = [
  {
    name: 'B13',
    problem: 'a folded flap held at one place and pulled one way: the path is a parabola about the grip',
    source: 'derived: r (1 - cos th) = const, from the heading of a folded flap',
    first: false,
    quick: false,
    run: parabola,
  },
];

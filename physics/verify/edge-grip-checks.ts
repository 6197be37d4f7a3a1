/** Check of a folded flap that is held at its torn edge: B12. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { neoHookean } from '../membrane/material.ts';
import { createTipPatch, PATCH_RADII, tipForce } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { angle, relative } from './compare.ts';
import { type DiscSample, discSample, eachRimNode, tearThrough } from './disc-sample.ts';
import { edgeGripHeading_deg, edgeGripPullOverT } from './reference/flaps.ts';
import { clamp, settle, THICKNESS_mm } from './sample.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** E t, mN/mm. */
export const S = 1;
const soft = /* @__PURE__ */ neoHookean(S / THICKNESS_mm / 3);
const EDGE = 0.03;
/** Torn arc of a circle of radius 1 that ends at (1, 0); more than half, so that both ends of the fold are free to move. */
const TORN_deg = 200;
/** Arc from the tip back to the grip, degrees. */
export const GRIP_ARC_deg = 60;
/** Bending stiffness over E t, mm^2: keeps the fold from being sharper than the mesh. */
const BENDING = 3e-7;
/** How far the flap is turned over at the start, degrees; the pull does the rest. */
const TURNED_deg = 120;

export interface ArcDisc {
  readonly disc: DiscSample;
  /** Node of the torn edge that is pulled, and of the tip, which lies at (1, 0) and points along +y; the centre is at -x. */
  readonly gripNode: number;
  readonly tip: number;
}

export function arcDisc(): ArcDisc {
  const count = Math.round(rad(TORN_deg) / EDGE);
  const points: number[] = [];
  for (let k = 0; k <= count; k++) {
    const at = -rad(TORN_deg) * (1 - k / count);
    points.push(k === count ? 1 : cos(at), k === count ? 0 : sin(at));
  }
  const disc = discSample(
    {
      radius_mm: 2,
      tears: [tearThrough(points, 'blunt', 'live')],
      tip_mm: EDGE,
      face_mm: 2 * EDGE,
      far_mm: 4 * EDGE,
      rim_mm: 0.2,
      growth: 0.22,
      bending_mN_mm: BENDING * S,
    },
    soft,
  );
  const inner = disc.mesh.left[0];
  const behind = Math.round((count * GRIP_ARC_deg) / TORN_deg);
  return { disc, gripNode: inner[2 * (count - behind)], tip: inner[inner.length - 1] };
}

/** Turns the flap over the line through the tip that is square to a heading, and holds the rim, which may be strained. */
export function layFlap(disc: DiscSample, heading_deg: number, strain = 0): void {
  const { mesh, x } = disc;
  // the tangent is y, the centre lies at -x
  const [tx, ty] = [-sin(rad(heading_deg)), cos(rad(heading_deg))];
  const outer = new Set(mesh.right[0]);
  for (const node of mesh.left[0]) outer.delete(node);
  const fall = cos(rad(TURNED_deg)) - 1;
  for (let node = 0; node < mesh.nodeCount; node++) {
    const [X, Y] = [mesh.reference_mm[node * 2], mesh.reference_mm[node * 2 + 1]];
    const behind = (X - 1) * tx + Y * ty;
    if (behind < 0 && hypot(X, Y) < 1 + 1e-9 && !outer.has(node)) {
      x[node * 3] += fall * behind * tx;
      x[node * 3 + 1] += fall * behind * ty;
      x[node * 3 + 2] = -behind * sin(rad(TURNED_deg));
    }
    disc.body.floor_mN_per_mm[node] = S / 100;
  }
  const held = 2 * (1 + strain);
  eachRimNode(disc, (node, cos, sin) => clamp(disc, node, held * cos, held * sin));
}

/** Tip force of the laid flap under a pull at its edge, at rest. */
export function pulledForce({ disc, gripNode, tip }: ArcDisc, F: number, pull_deg: number): [number, number] {
  disc.body.load.set([-F * sin(rad(pull_deg)), F * cos(rad(pull_deg)), 0], gripNode * 3);
  settle(disc, { tolerance_mN: 1e-4 * S * 1e-3, steps: 60, drag_s: 1e-7, iterations: 100 });
  const { membrane } = disc.body;
  return tipForce(membrane, createTipPatch(membrane, tip, PATCH_RADII[0] * EDGE, PATCH_RADII[1] * EDGE), disc.x);
}

function edgeGrip(pull_deg: number): readonly Finding[] {
  const F = 1e-3 * S;
  const arc = arcDisc();
  const heading_deg = edgeGripHeading_deg(GRIP_ARC_deg, pull_deg);
  layFlap(arc.disc, heading_deg);
  const J = pulledForce(arc, F, pull_deg);
  return [
    {
      quantity: `heading of the tip force, pull at ${pull_deg} degrees`,
      computed: (atan2(-J[0], J[1]) * 180) / Math.PI,
      reference: heading_deg,
      unit: 'deg',
      tolerance: angle(2),
    },
    {
      quantity: `pull over the tip force, pull at ${pull_deg} degrees`,
      computed: F / hypot(...J),
      reference: edgeGripPullOverT(GRIP_ARC_deg, pull_deg),
      unit: '1',
      tolerance: relative(0.02),
    },
  ];
}

export const edgeGripChecks: readonly Check[] = [
  {
    name: 'B12',
    problem:
      'a folded flap held at its torn edge a sixth of a circle behind the tip: half that angle of pull holds the circle',
    source: 'derived: heading ph/2 - al/4, F = T/(2 cos(ph/2 + al/4))',
    first: false,
    quick: true,
    run: () => [30, 50].flatMap(edgeGrip),
  },
];

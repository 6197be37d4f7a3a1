/** Checks of where folded flaps tear: one in a tense sheet, and a strip between two tears: B14, B17. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { neoHookean } from '../membrane/material.ts';
import { directionTurn } from '../tear/direction.ts';
import type { Check, Finding } from './check.ts';
import { angle } from './compare.ts';
import { type DiscSample, discSample, eachRimNode, tearThrough } from './disc-sample.ts';
import { arcDisc, GRIP_ARC_deg, layFlap, pulledForce, S } from './edge-grip-checks.ts';
import { fieldAt } from './flat-flap-checks.ts';
import { edgeGripHeading_deg, edgeGripHoldAngleTense_deg } from './reference/flaps.ts';
import { clamp, settle, THICKNESS_mm } from './sample.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;
const deg = (radians: number): number => (radians * 180) / Math.PI;

/**
 * Strain of the rim that makes the sheet tense: small, so that the sheet is linear, and large enough for pulls well above what
 * the residual stiffness of slack directions carries (at 0.004 the larger of the two pulls comes out 10 degrees too large).
 */
const STRAIN = 0.01;

/** Along the tear and to the centre, at a tip that points along +y with the centre at -x. */
const alongAndInward = ([x, y]: readonly [number, number]): [number, number] => [y, -x];

function tense(share: number): Finding {
  const free = arcDisc();
  layFlap(free.disc, 0, STRAIN);
  const [j1, outward] = alongAndInward(pulledForce(free, 0, 0));
  // the tear resistance of which the sheet's part is the given share
  const T = hypot(j1, outward) / share;
  const [along, aside] = [j1 / T, -outward / T];
  const expected = edgeGripHoldAngleTense_deg(GRIP_ARC_deg, 1, along, aside);
  const F = (T * hypot(1 - along, aside)) / (2 * cos(rad(expected / 2 + GRIP_ARC_deg / 4)));
  const heading = (pull_deg: number): number => {
    const arc = arcDisc();
    layFlap(arc.disc, edgeGripHeading_deg(GRIP_ARC_deg, pull_deg), STRAIN);
    const [forward, inward] = alongAndInward(pulledForce(arc, F, pull_deg));
    return deg(atan2(inward, forward));
  };
  const [low, high] = [expected - 4, expected + 4];
  const [below, above] = [heading(low), heading(high)];
  return {
    quantity: `pull that holds the circle where the sheet alone has ${share} of the tear resistance`,
    computed: low - (below * (high - low)) / (above - below),
    reference: expected,
    unit: 'deg',
    tolerance: angle(3),
    note: `the sheet's part points ${deg(atan2(aside, along)).toFixed(0)} degrees outward; slack, the pull would be ${GRIP_ARC_deg / 2} degrees`,
  };
}

const STRIP_EDGE = 0.04;
const RADIUS = 2;
/** Rim nodes, and how many of them from -x lie the two cuts: a strip of 0.78 between them. */
const RIM_COUNT = 96;
const CUT = 6;
const PULL = 1e-3;
const BENDING = 3e-7;

/** A cut from a rim node straight along +x to x = 0. */
function cutFrom(node: number): number[] {
  const at = (2 * Math.PI * node) / RIM_COUNT;
  const [x, y] = [RADIUS * cos(at), RADIUS * sin(at)];
  const count = Math.round(-x / STRIP_EDGE);
  const points = [x, y];
  for (let k = 1; k <= count; k++) points.push(x * (1 - k / count), y);
  return points;
}

/** Nodes of the strip between the cuts: the upper cut's right face, the lower one's left face, and what lies between. */
function stripNodes({ mesh }: DiscSample): number[] {
  const [upper, lower] = [0, 1];
  const outside = new Set([...mesh.left[upper], ...mesh.right[lower]]);
  for (const node of [...mesh.right[upper], ...mesh.left[lower]]) outside.delete(node);
  const width = Math.abs(RADIUS * sin((2 * Math.PI * CUT) / RIM_COUNT)) + 1e-9;
  const nodes: number[] = [];
  for (let node = 0; node < mesh.nodeCount; node++) {
    const [X, Y] = [mesh.reference_mm[node * 2], mesh.reference_mm[node * 2 + 1]];
    if (X < -1e-9 && Math.abs(Y) <= width && !outside.has(node)) nodes.push(node);
  }
  return nodes;
}

function peeledStrip(): DiscSample {
  const half = RIM_COUNT / 2;
  const sizes = {
    tip_mm: STRIP_EDGE,
    face_mm: STRIP_EDGE,
    far_mm: 4 * STRIP_EDGE,
    rim_mm: (2 * Math.PI * RADIUS) / RIM_COUNT,
  };
  const tears = [half - CUT, half + CUT].map((node, id) => tearThrough(cutFrom(node), 'joined', 'live', id));
  const material = neoHookean(S / THICKNESS_mm / 3);
  const disc = discSample({ radius_mm: RADIUS, tears, ...sizes, bending_mN_mm: BENDING * S }, material);
  eachRimNode(disc, (node, cos, sin) => clamp(disc, node, RADIUS * cos, RADIUS * sin));
  const strip = stripNodes(disc);
  const fall = cos(rad(150)) - 1;
  let end = 0;
  for (const node of strip) {
    const X = disc.x[node * 3];
    // laid over the line between the tips, not quite flat; the pull does the rest
    disc.x[node * 3] += fall * X;
    disc.x[node * 3 + 2] = -X * sin(rad(150));
    disc.body.spring_mN_per_mm[node] = 0;
    if (disc.mesh.stem[node] === 'rim' || hypot(X, disc.x[node * 3 + 1]) > RADIUS - 1e-6) end++;
  }
  for (const node of strip)
    if (hypot(disc.mesh.reference_mm[node * 2], disc.mesh.reference_mm[node * 2 + 1]) > RADIUS - 1e-6)
      disc.body.load[node * 3] = (PULL * S) / end;
  disc.body.floor_mN_per_mm.fill(S / 100);
  settle(disc, { tolerance_mN: 1e-4 * PULL * S, steps: 60, drag_s: 1e-7, iterations: 100 });
  return disc;
}

function twoEdges(): readonly Finding[] {
  const disc = peeledStrip();
  return ['upper', 'lower'].flatMap((name, index): Finding[] => {
    const face = disc.mesh.left[index];
    const field = fieldAt(disc, face[face.length - 1], 0, STRIP_EDGE);
    const inward = index === 0 ? -1 : 1;
    return (['vector', 'blend'] as const).map((rule) => ({
      quantity: `turn toward the other tear by the ${rule}, ${name} tear`,
      computed: inward * deg(directionTurn(rule, field)),
      reference: 0,
      unit: 'deg',
      tolerance: angle(2),
      note: `driving force ${(hypot(...field.force) / (PULL * S)).toFixed(3)} of the pull, 1 expected`,
    }));
  });
}

export const foldDirectionChecks: readonly Check[] = [
  {
    name: 'B14',
    problem: 'a folded flap in a tense sheet: the pull that holds the circle turns inward as the tension grows',
    source: "derived: tan((ph - al/2)/2) = Pi j2/(1 - Pi j1), with the sheet's own share computed",
    first: false,
    quick: false,
    run: () => [0.1, 0.2].map(tense),
  },
  {
    name: 'B17',
    problem: 'a strip between two tears, folded back and pulled: neither narrows nor widens',
    source: 'symmetry and no stiffness of the fold: the limit of Hamm 2008',
    first: false,
    quick: true,
    run: twoEdges,
  },
];

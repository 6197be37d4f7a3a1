/** Checks of where a flat flap's tear turns under a pull at its edge, in a slack and in a tense sheet: B15, B16. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { directionTurn, type TipField } from '../tear/direction.ts';
import { createTipPatch, PATCH_RADII, tipForce } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { angle } from './compare.ts';
import { discSample, eachRimNode, tearThrough } from './disc-sample.ts';
import { EDGE, pulledFace } from './face-pull-checks.ts';
import { arcSlitK, flatFlapHoldAngle_deg } from './reference/slits.ts';
import { clamp, type Sample, settle } from './sample.ts';
import { endTip, linear, S } from './slit-sample.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;
const deg = (radians: number): number => (radians * 180) / Math.PI;

/** What the product's rules of direction read of a tip in a sample; tangent in degrees from +x. */
export function fieldAt(sample: Sample, node: number, tangent_deg: number, edge_mm: number): TipField {
  const { membrane } = sample.body;
  const { reference_mm } = membrane;
  const patch = createTipPatch(membrane, node, PATCH_RADII[0] * edge_mm, PATCH_RADII[1] * edge_mm);
  const [tx, ty] = [cos(rad(tangent_deg)), sin(rad(tangent_deg))];
  const tip = { x: reference_mm[node * 2], y: reference_mm[node * 2 + 1], tx, ty };
  return { membrane, x: sample.x, tip, force: tipForce(membrane, patch, sample.x), edge_mm };
}

/** Pull and turn, degrees from the tangent, positive to the flap's side. */
const SLACK: readonly (readonly [number, number])[] = [
  [90, 0],
  [60, -43],
  [45, -53],
  [0, -70.5],
  [120, 43],
];

const slackSheet = (): readonly Finding[] =>
  SLACK.map(([pull_deg, turn_deg]): Finding => {
    const { sheet, tip } = pulledFace(pull_deg);
    const field = fieldAt(sheet, tip, 0, EDGE);
    return {
      quantity: `turn of the tear by the blend, pull at ${pull_deg} degrees`,
      computed: deg(directionTurn('blend', field)),
      reference: turn_deg,
      unit: 'deg',
      tolerance: angle(4),
      note: `the vector rule alone turns ${deg(directionTurn('vector', field)).toFixed(1)} degrees`,
    };
  });

/** Half-angle of the arc, of radius 1. */
const HALF_deg = 45;
/**
 * Where its inner face is pulled, length behind the tip. The answer is that of a pull very near the tip: at these two the arc
 * between pull and tip still turns by 6 and 3 degrees, and what is compared is the straight line through both, at no distance.
 */
const BEHIND: readonly [number, number] = [0.1, 0.05];
/** Edge at the tip over the distance of the pull. */
const EDGE_SHARE = 1 / 50;
/** Radius of the disc, whose rim is held: far enough not to be felt by more than 1 %. */
const WIDE = 20;

/** Points of the arc from below to above, at the tip's spacing as far as the pull and growing behind it. */
function gradedArc(behind: number): number[] {
  const stations = [0];
  let size = EDGE_SHARE * behind;
  const most = 2 * size;
  for (let s = 0; s < 2 * rad(HALF_deg); s = stations[stations.length - 1]) {
    if (s > 1.2 * behind) size = Math.min(most, 1.15 * size);
    stations.push(s + size);
  }
  const scale = (2 * rad(HALF_deg)) / stations[stations.length - 1];
  return stations.reverse().flatMap((s) => [cos(rad(HALF_deg) - s * scale), sin(rad(HALF_deg) - s * scale)]);
}

/** Turn at the upper end of an arc in a sheet under the tension N0 whose inner face is pulled by F, degrees, inward positive. */
function tenseTurn(behind: number, N0: number, F: number, pull_deg: number): number {
  const points = gradedArc(behind);
  const edge = EDGE_SHARE * behind;
  const sizes = { tip_mm: edge, face_mm: 2 * edge, far_mm: WIDE / 8, rim_mm: WIDE / 12 };
  const tears = [tearThrough(points, 'live', 'live')];
  const disc = discSample({ radius_mm: WIDE, tears, ...sizes, tensionField: false }, linear);
  const outer = WIDE * (1 + (0.5 * N0) / S);
  eachRimNode(disc, (node, cos, sin) => clamp(disc, node, outer * cos, outer * sin));
  const pulled = innerNode(behind, disc.mesh.left[0], disc.body.membrane.reference_mm);
  // tangent and inward at the tip
  const t = [-sin(rad(HALF_deg)), cos(rad(HALF_deg))];
  const n = [-cos(rad(HALF_deg)), -sin(rad(HALF_deg))];
  const [c, s] = [cos(rad(pull_deg)), sin(rad(pull_deg))];
  disc.body.load.set([F * (c * t[0] + s * n[0]), F * (c * t[1] + s * n[1]), 0], pulled * 3);
  settle(disc, { tolerance_mN: 1e-5 * N0 });
  // inward is to the left of an arc torn counter-clockwise
  return deg(directionTurn('blend', fieldAt(disc, endTip(disc), 90 + HALF_deg, edge)));
}

/** Node of the inner face nearest to the place of the pull. */
function innerNode(behind: number, face: Int32Array, reference_mm: Float64Array): number {
  const at = rad(HALF_deg) - behind;
  const away = (node: number) => hypot(reference_mm[node * 2] - cos(at), reference_mm[node * 2 + 1] - sin(at));
  return face.reduce((best, node) => (away(node) < away(best) ? node : best));
}

/** Pulls to either side of the expected one between which the turn changes its sign, degrees. */
const BRACKET_deg = 8;

/** Pull that holds the circle when the face is pulled at a distance behind the tip, degrees. */
function holdingPull(behind: number, Pi: number): number {
  const N0 = 1;
  const wanted = Math.sqrt(N0 ** 2 / Pi);
  const { KI, KII } = arcSlitK(N0, 1, HALF_deg);
  // the pull that leaves nothing but the opening at which the sheet tears
  const F = hypot(wanted - KI, KII) * Math.sqrt(2 * Math.PI * behind);
  const expected = flatFlapHoldAngle_deg(HALF_deg, Pi);
  const [low, high] = [expected - BRACKET_deg, expected + BRACKET_deg];
  const [below, above] = [tenseTurn(behind, N0, F, low), tenseTurn(behind, N0, F, high)];
  return low + ((high - low) * below) / (below - above);
}

function tenseSheet(Pi: number): Finding {
  const [far, near] = BEHIND;
  const [atFar, atNear] = [holdingPull(far, Pi), holdingPull(near, Pi)];
  return {
    quantity: `pull that holds the circle, arc of half-angle ${HALF_deg} degrees, Pi ${Pi}`,
    computed: atNear + ((atNear - atFar) * near) / (far - near),
    reference: flatFlapHoldAngle_deg(HALF_deg, Pi),
    unit: 'deg',
    tolerance: angle(6),
    note: `${atFar.toFixed(1)} degrees pulled ${far} behind the tip, ${atNear.toFixed(1)} at ${near}`,
  };
}

export const flatFlapChecks: readonly Check[] = [
  {
    name: 'B15',
    problem: 'a flat flap in a tense sheet: the pull that holds the circle points back and to the centre',
    source: 'derived: 90 deg + atan(k2 sqrt(Pi)/(1 - k1 sqrt(Pi))), from the arc slit and a force on its face',
    first: false,
    quick: false,
    run: () => [0.1, 0.25].map(tenseSheet),
  },
  {
    name: 'B16',
    problem: 'a flat flap, no tension: the turn by the direction of the pull',
    source: 'a force on a slit face (Tada, memory) with the largest hoop tension (Erdogan and Sih 1963)',
    first: false,
    quick: true,
    run: slackSheet,
  },
];

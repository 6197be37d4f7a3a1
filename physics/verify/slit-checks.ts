/** Checks of the tip force at slits in taut sheets, and of tearing in simple strips: B1 to B5, B9, B10. */
import { cos, sin } from '../core/elementary/circular.ts';
import { neoHookean } from '../membrane/material.ts';
import { PATCH_RADII } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { relative } from './compare.ts';
import { circleTear, discSample, pullRim, tearThrough } from './disc-sample.ts';
import {
  arcSlitK,
  centreSlitFactor,
  edgeSlitFactor,
  HOLE_SLIT_FACTOR,
  neoHookeanEnergyUniaxial,
  pureShearG_J_per_m2,
  SHORT_SLIT_FACTOR,
  type StressIntensity,
  slantedSlitK,
  slitK,
  tipForce as tipForceOf,
} from './reference/slits.ts';
import { clamp, settle, THICKNESS_mm } from './sample.ts';
import {
  ARC_TIP_EDGE,
  alongAndInward,
  arcPoints,
  endTip,
  forceAt,
  GROWTH,
  linear,
  lineInDisc,
  N0,
  pullStrip,
  rightTip,
  S,
  slantedPoints,
  slitStrip,
  TIP_EDGE,
} from './slit-sample.ts';
import { gradedLines, pullEdges, stripSample } from './strip-sample.ts';

/**
 * A strip with one slit also straightens under its own pull, in proportion to it; the answer is the limit of no pull, taken from
 * these two shares of the pull of the other strips.
 */
const EDGE_SHARES: readonly [number, number] = [0.2, 0.4];

/** J1 at the right tip of a slit strip over N^2/S under the pull N: K^2 of unit stress. */
export function slitStripJ(b: number, at: 'centre' | 'edge', N: number, finer = 1): number {
  const strip = slitStrip(b, at, { finer });
  pullStrip(strip, N);
  return (forceAt(strip, rightTip(strip), TIP_EDGE)[0] * S) / (N * N);
}

/** The same for an edge slit in the limit of no pull. */
export function edgeSlitJ(b: number, finer = 1): number {
  const [low, high] = EDGE_SHARES;
  const [a, c] = [slitStripJ(b, 'edge', low * N0, finer), slitStripJ(b, 'edge', high * N0, finer)];
  return a + ((a - c) * low) / (high - low);
}

const slitFinding = (
  quantity: string,
  computed: number,
  K: StressIntensity,
  allowed: number,
  note?: string,
): Finding => ({
  quantity,
  computed,
  reference: tipForceOf(K, 1).J1,
  unit: 'N0^2 a/S',
  tolerance: relative(allowed),
  ...(note === undefined ? {} : { note }),
});

const centreSlit = (): readonly Finding[] =>
  [0.25, 0.5].map((al) =>
    slitFinding(
      `J, slit of ${al} of the width`,
      slitStripJ(1 / al, 'centre', N0),
      slitK(1, 1, centreSlitFactor(al)),
      0.04,
    ),
  );

const edgeSlit = (): readonly Finding[] =>
  [0.1, 0.5].map((al) =>
    slitFinding(`J, slit of ${al} of the width`, edgeSlitJ(1 / al), slitK(1, 1, edgeSlitFactor(al)), 0.04),
  );

function slantedSlit(): readonly Finding[] {
  return [30, 45, 60].flatMap((slant_deg) => {
    const be = (slant_deg * Math.PI) / 180;
    const disc = lineInDisc(slantedPoints(slant_deg), 20, TIP_EDGE, N0, 0);
    const force = forceAt(disc, endTip(disc), TIP_EDGE, PATCH_RADII);
    const along = force[0] * cos(be) + force[1] * sin(be);
    const across = force[1] * cos(be) - force[0] * sin(be);
    const K = slantedSlitK(1, 1, slant_deg);
    const note = `second component over its reference: ${Math.abs(across / (tipForceOf(K, 1).J2 * (N0 ** 2 / S))).toFixed(3)}`;
    return [slitFinding(`J along the slit, ${slant_deg} degrees to the pull`, (along * S) / N0 ** 2, K, 0.04, note)];
  });
}

/** Tip force at the upper end of an arc over N0^2/S: along the arc and inward. `finer` refines the whole mesh, not the patch. */
export function arcSlitJ(half_deg: number, finer = 1): [number, number] {
  const disc = lineInDisc(arcPoints(half_deg, ARC_TIP_EDGE / finer), 20, ARC_TIP_EDGE, N0, N0, { finer });
  const [along, inward] = alongAndInward(forceAt(disc, endTip(disc), ARC_TIP_EDGE, PATCH_RADII), half_deg);
  return [(along * S) / N0 ** 2, (inward * S) / N0 ** 2];
}

function arcSlit(): readonly Finding[] {
  return [45, 70, 90].map((half_deg) => {
    const [along, inward] = arcSlitJ(half_deg);
    const K = arcSlitK(1, 1, half_deg);
    const share = inward / tipForceOf(K, 1).J2;
    const note = `the outward component is ${share.toFixed(3)} of its reference; it depends on the patch`;
    return slitFinding(`J along the arc, half-angle ${half_deg} degrees`, along, K, 0.03, note);
  });
}

/** Radial slit of length a at a free hole of radius 1 in a wide disc: F of K = F s sqrt(pi a), from J = K^2/E. */
export function holeSlit(a: number): number {
  const edge = a * TIP_EDGE;
  const around = Math.max(96, Math.round((2 * Math.PI) / (8 * edge)));
  const hole = circleTear(1, around);
  const points: number[] = [1, 0];
  const count = Math.round(1 / TIP_EDGE / 2);
  for (let k = 1; k <= count; k++) points.push(1 + (a * k) / count, 0);
  const radius_mm = 20;
  const disc = discSample(
    {
      radius_mm,
      tears: [hole, tearThrough(points, 'joined', 'live', 1)],
      tip_mm: edge,
      face_mm: 2 * edge,
      far_mm: radius_mm / 8,
      rim_mm: radius_mm / 12,
      tensionField: false,
    },
    linear,
  );
  pullRim(disc, N0);
  settle(disc, { tolerance_mN: 1e-6 * N0 });
  const face = disc.mesh.left[1];
  const J = forceAt(disc, face[face.length - 1], edge)[0];
  return Math.sqrt((J * S) / (Math.PI * a)) / N0;
}

const holeSlits = (): readonly Finding[] =>
  HOLE_SLIT_FACTOR.map(
    ([a, F]): Finding => ({
      quantity: `F of K = F s sqrt(pi a), slit of ${a} of the hole's radius`,
      computed: holeSlit(a),
      reference: F,
      unit: '1',
      tolerance: relative(0.03),
    }),
  );

function pureShearStrip(): readonly Finding[] {
  const H0 = 10;
  const mu = 500;
  const l = 1.5;
  const edge = H0 / 100;
  const ys = gradedLines(-H0 / 2, H0 / 2, [0], edge, GROWTH);
  const xs = gradedLines(-2 * H0, 2 * H0, [0], edge, GROWTH);
  const strip = stripSample(xs, ys, [-2 * H0, 0], neoHookean(mu));
  for (let i = 1; i < strip.x.length; i += 3) strip.x[i] *= l;
  xs.forEach((x, i) => {
    clamp(strip, strip.node(i, 0), x, (-l * H0) / 2);
    clamp(strip, strip.node(i, ys.length - 1), x, (l * H0) / 2);
  });
  settle(strip, { tolerance_mN: 1e-5 });
  const tip = strip.node(strip.column(0), ys.indexOf(0));
  const J = forceAt(strip, tip, edge);
  return [
    {
      quantity: 'G of a strip of mu 0.5 MPa and 10 mm, held at stretch 1.5',
      computed: J[0] / THICKNESS_mm,
      reference: pureShearG_J_per_m2(mu, l, H0),
      unit: 'J/m^2',
      tolerance: relative(0.02),
    },
  ];
}

/** Short slit in a wide neo-Hookean sheet under uniaxial stretch l along y: k of G = 2 k W a. */
function shortSlit(l: number, at: 'centre' | 'edge'): number {
  const wide = 16;
  const ys = gradedLines(-wide, wide, [0], TIP_EDGE, GROWTH);
  const xs =
    at === 'centre' ? gradedLines(-wide, wide, [-1, 1], TIP_EDGE, GROWTH) : gradedLines(0, wide, [1], TIP_EDGE, GROWTH);
  const mu = 1000;
  const material = neoHookean(mu);
  const strip = stripSample(xs, ys, at === 'centre' ? [-1, 1] : [0, 1], material, { tensionField: false });
  for (let i = 0; i < strip.x.length; i += 3) {
    strip.x[i] *= material.naturalWidth(l);
    strip.x[i + 1] *= l;
  }
  pullEdges(strip, mu * (l - l ** -2) * THICKNESS_mm);
  settle(strip, { tolerance_mN: 1e-6 });
  const J = forceAt(strip, strip.node(strip.column(1), ys.indexOf(0)), TIP_EDGE);
  return J[0] / (2 * neoHookeanEnergyUniaxial(mu, l) * THICKNESS_mm);
}

const shortSlits = (): readonly Finding[] =>
  SHORT_SLIT_FACTOR.flatMap(([l, centre, edge]) =>
    (['centre', 'edge'] as const).map(
      (at): Finding => ({
        quantity: `k of G = 2 k W a, ${at} slit at stretch ${l}`,
        computed: shortSlit(l, at),
        reference: at === 'centre' ? centre : edge,
        unit: '1',
        tolerance: relative(0.04),
      }),
    ),
  );

export const slitChecks: readonly Check[] = [
  {
    name: 'B1',
    problem: 'a centre slit across a strip',
    source: 'Feddersen; Tada',
    first: true,
    quick: true,
    run: centreSlit,
  },
  {
    name: 'B2',
    problem: 'a slit at one edge of a strip',
    source: 'Brown and Srawley; Tada',
    first: false,
    quick: true,
    run: edgeSlit,
  },
  {
    name: 'B3',
    problem: 'a slit at a slant in a wide sheet pulled one way',
    source: 'textbook: KI = s sqrt(pi a) sin^2, KII = s sqrt(pi a) sin cos',
    first: false,
    quick: true,
    run: slantedSlit,
  },
  {
    name: 'B4',
    problem: 'an arc slit under even tension: a partly torn circle',
    source: 'Cotterell and Rice 1980 and earlier (memory); confirmed by a dislocation solution',
    first: true,
    quick: true,
    run: arcSlit,
  },
  {
    name: 'B5',
    problem: 'one radial slit at a free hole under even tension',
    source: 'Bowie 1956; computed',
    first: false,
    quick: true,
    run: holeSlits,
  },
  {
    name: 'B9',
    problem: 'a wide strip torn along its middle while it is held stretched',
    source: 'Rivlin and Thomas 1953: G = W H0',
    first: true,
    quick: true,
    run: pureShearStrip,
  },
  {
    name: 'B10',
    problem: 'a short slit in a neo-Hookean sheet at large stretch',
    source: 'Greensmith 1963; numbers computed',
    first: false,
    quick: true,
    run: shortSlits,
  },
];

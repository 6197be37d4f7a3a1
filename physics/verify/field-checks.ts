/** Checks of the tension field: A13 to A15. */
import { sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan } from '../core/elementary/inverse-circular.ts';
import { linearPlaneStress } from '../membrane/material.ts';
import type { TriangleState } from '../membrane/membrane.ts';
import type { Check, Finding } from './check.ts';
import { absolute, relative } from './compare.ts';
import { circleTear, discSample, pullRim } from './disc-sample.ts';
import { TENSION_FIELD_SHEAR_SHARE, wrinkledShareOfStrip, wrinkleRadius } from './reference/sheets.ts';
import { clamp, eachTriangle, type Sample, settle, THICKNESS_mm } from './sample.ts';
import { gradedLines, stripSample } from './strip-sample.ts';

/** E t, mN/mm. */
const S = 1000;
const linear = /* @__PURE__ */ linearPlaneStress(S / THICKNESS_mm, 0.5);

/** Tension in a reference direction (c, s) across a line square to it, and the shear along that line, mN/mm. */
function tensionAlong(state: TriangleState, c: number, s: number): { normal: number; shear: number } {
  const cos = c * state.cos + s * state.sin;
  const sin = s * state.cos - c * state.sin;
  const { tension1_mN_per_mm: t1, tension2_mN_per_mm: t2 } = state;
  return { normal: t1 * cos * cos + t2 * sin * sin, shear: (t1 - t2) * cos * sin };
}

const isWrinkled = (state: TriangleState): boolean => state.l1 >= 1 && state.l2 < linear.naturalWidth(state.l1);

const ANNULUS = { inner: 1, outer: 12, Ti: 1e-3 * S, To: 0.25e-3 * S };
/** Between these radii, over that of the hole, the tensions of the wrinkled zone are read: an element inside of either end of it. */
const WRINKLED_BAND: readonly [number, number] = [1.1, 1.9];

function wrinkledAnnulus(): readonly Finding[] {
  const { inner, outer, Ti, To } = ANNULUS;
  const vertices = 120;
  const face_mm = (2 * Math.PI * inner) / vertices;
  const disc = discSample(
    {
      radius_mm: outer,
      tears: [circleTear(inner, vertices)],
      tip_mm: face_mm,
      face_mm,
      far_mm: outer / 10,
      rim_mm: outer / 12,
      growth: 0.08,
    },
    linear,
  );
  pullRim(disc, To);
  const arc = inner * sin((2 * Math.PI) / vertices);
  const margin = new Set(disc.mesh.right[0]);
  const { reference_mm } = disc.mesh;
  for (const node of margin)
    for (const axis of [0, 1]) disc.body.load[node * 3 + axis] = (-Ti * arc * reference_mm[node * 2 + axis]) / inner;
  settle(disc, { tolerance_mN: 1e-5 * To, steps: 10 });
  let wrinkled = 0;
  let carried = 0;
  let hoop = 0;
  let band = 0;
  const { area_mm2 } = disc.body.membrane;
  eachTriangle(disc, (state, cx, cy, t) => {
    const r = hypot(cx, cy);
    if (r < inner) return;
    if (isWrinkled(state)) wrinkled += area_mm2[t];
    if (r < WRINKLED_BAND[0] * inner || r > WRINKLED_BAND[1] * inner) return;
    band += area_mm2[t];
    carried += area_mm2[t] * r * tensionAlong(state, cx / r, cy / r).normal;
    hoop += area_mm2[t] * r * tensionAlong(state, -cy / r, cx / r).normal;
  });
  const tolerance = relative(0.02);
  return [
    {
      quantity: 'outer radius of the wrinkled zone, from its area',
      computed: Math.sqrt(inner * inner + wrinkled / Math.PI) / inner,
      reference: wrinkleRadius(Ti, To, inner, outer) / inner,
      unit: 'R',
      tolerance,
    },
    {
      quantity: `radial tension times radius between ${WRINKLED_BAND.join(' and ')} R`,
      computed: carried / band / (Ti * inner),
      reference: 1,
      unit: 'Ti R',
      tolerance,
    },
    {
      quantity: `hoop tension times radius between ${WRINKLED_BAND.join(' and ')} R`,
      computed: hoop / band / (Ti * inner),
      reference: 0,
      unit: 'Ti R',
      // of the radial tension there, which is 1
      tolerance: absolute(0.02),
    },
  ];
}

const BENT = { height: 1, half: 3, wrinkled: 0.4, strain: 2e-3 };

/** Tension and moment carried by the middle of a strip, and where its tension ends, mm above the lower edge. */
function middleOf(sample: Sample): { N: number; M: number; end: number } {
  const { height } = BENT;
  let [area, N, M, most] = [0, 0, 0, 0];
  const seen: { y: number; T: number; area: number }[] = [];
  const { area_mm2 } = sample.body.membrane;
  eachTriangle(sample, (state, cx, cy, t) => {
    if (Math.abs(cx) > 0.5 * height) return;
    const T = tensionAlong(state, 1, 0).normal;
    area += area_mm2[t];
    N += area_mm2[t] * T;
    M += area_mm2[t] * T * cy;
    most = Math.max(most, T);
    seen.push({ y: cy, T, area: area_mm2[t] });
  });
  // straight line through the tensions of the taut part, and where it comes to nothing
  const taut = seen.filter(({ T }) => T > 0.1 * most);
  const sum = (of: (one: { y: number; T: number; area: number }) => number) =>
    taut.reduce((total, one) => total + one.area * of(one), 0);
  const weight = sum(() => 1);
  const [y, T] = [sum((one) => one.y) / weight, sum((one) => one.T) / weight];
  const slope = sum((one) => (one.y - y) * (one.T - T)) / sum((one) => (one.y - y) ** 2);
  return { N: (N * height) / area, M: (M * height) / area, end: y - T / slope + height / 2 };
}

function bentStrip(): readonly Finding[] {
  const { height, half, wrinkled, strain } = BENT;
  const xs = gradedLines(-half, half, [], height / 30, 1);
  const ys = gradedLines(-height / 2, height / 2, [], height / 40, 1);
  const strip = stripSample(xs, ys, null, linear);
  const curvature = strain / (height * (1 - wrinkled));
  const level = wrinkled * height - height / 2;
  // strain curvature (y - level), so each end turns by curvature half
  ys.forEach((y, j) => {
    const pull = half * curvature * (y - level);
    clamp(strip, strip.node(0, j), -half - pull, y);
    clamp(strip, strip.node(xs.length - 1, j), half + pull, y);
  });
  for (let i = 0; i < strip.x.length; i += 3) {
    const [x, y] = [strip.x[i], strip.x[i + 1]];
    strip.x[i] += x * curvature * (y - level);
    strip.x[i + 1] -= 0.5 * curvature * x * x;
  }
  settle(strip, { tolerance_mN: 1e-5, steps: 10 });
  const { N, M, end } = middleOf(strip);
  const share = M / (N * height);
  return [
    {
      quantity: 'wrinkled share of the width',
      computed: end / height,
      reference: wrinkledShareOfStrip(share),
      unit: '1',
      tolerance: relative(0.03),
      note: `at M/(P H) = ${share.toFixed(4)}, measured in the middle of the strip`,
    },
  ];
}

/** Shear flow over S g and direction of the larger stretch in the middle of a wide strip sheared by g between clamps. */
function shearedStrip(tensionField: boolean): { flow: number; direction_deg: number } {
  const g = 2e-3;
  const half = 4;
  const xs = gradedLines(-half, half, [], 1 / 15, 1);
  const ys = gradedLines(-0.5, 0.5, [], 1 / 20, 1);
  const strip = stripSample(xs, ys, null, linear, { tensionField });
  for (let i = 0; i < strip.x.length; i += 3) strip.x[i] += g * strip.x[i + 1];
  xs.forEach((x, i) => {
    clamp(strip, strip.node(i, 0), x - 0.5 * g, -0.5);
    clamp(strip, strip.node(i, ys.length - 1), x + 0.5 * g, 0.5);
  });
  settle(strip, { tolerance_mN: 1e-5, steps: 10 });
  let [area, flow, direction] = [0, 0, 0];
  const { area_mm2 } = strip.body.membrane;
  eachTriangle(strip, (state, cx, _, t) => {
    if (Math.abs(cx) > 1) return;
    area += area_mm2[t];
    flow += area_mm2[t] * tensionAlong(state, 0, 1).shear;
    direction += area_mm2[t] * atan(state.sin / state.cos);
  });
  return { flow: Math.abs(flow) / area / (S * g), direction_deg: (direction / area) * (180 / Math.PI) };
}

function shear(): readonly Finding[] {
  const [slack, taut] = [shearedStrip(true), shearedStrip(false)];
  const tolerance = relative(0.02);
  return [
    { quantity: 'shear flow of the tension field', computed: slack.flow, reference: 1 / 4, unit: 'S g', tolerance },
    { quantity: 'shear flow held taut', computed: taut.flow, reference: 1 / 3, unit: 'S g', tolerance },
    {
      quantity: 'tension field over taut',
      computed: slack.flow / taut.flow,
      reference: TENSION_FIELD_SHEAR_SHARE,
      unit: '1',
      tolerance,
    },
    {
      quantity: 'direction of the tension',
      computed: slack.direction_deg,
      reference: 45,
      unit: 'deg',
      tolerance,
    },
  ];
}

export const fieldChecks: readonly Check[] = [
  {
    name: 'A13',
    problem: 'a wrinkled annulus, its inner edge pulled four times as hard as its outer one, twelve times as wide',
    source: 'tension-field theory: hoop 0 and N = Ti R/r out to L, Ti R (1 + L^2/b^2) = 2 L To',
    first: false,
    quick: true,
    run: wrinkledAnnulus,
  },
  {
    name: 'A14',
    problem: 'a strip under tension and bending, partly wrinkled',
    source: 'Stein and Hedgepeth 1961: b/H = 3 M/(P H) - 1/2',
    first: false,
    quick: true,
    run: bentStrip,
  },
  {
    name: 'A15',
    problem: 'a wide strip sheared between clamps, as a tension field and held taut',
    source: 'Wagner 1929; Pipkin 1986: S g/4 at 45 degrees against S g/3',
    first: false,
    quick: true,
    run: shear,
  },
];

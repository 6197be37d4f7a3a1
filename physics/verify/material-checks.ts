/** Checks of the membrane and its materials in even states: A1 to A6. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { createRandom } from '../core/random.ts';
import { gradient } from '../membrane/body.ts';
import {
  exponentialMaterial,
  linearPlaneStress,
  type Material,
  mooneyRivlin,
  neoHookean,
  planarFung,
} from '../membrane/material.ts';
import { createTriangleState, type TriangleState, triangleState } from '../membrane/membrane.ts';
import { buildDiscMesh } from '../mesh/disc-mesh.ts';
import type { Check, Finding } from './check.ts';
import { absolute, relative } from './compare.ts';
import {
  fungEquibiaxial,
  fungUniaxial,
  mooneyEquibiaxial,
  mooneyUniaxial,
  neoHookeanEquibiaxial,
  neoHookeanPureShear,
  neoHookeanUniaxial,
} from './reference/sheets.ts';
import { createSample, eachTriangle, settle, THICKNESS_mm } from './sample.ts';
import { gradedLines, pullEdges, pullEnds, stripSample } from './strip-sample.ts';

/** Everyday rounding of sums over some hundred triangles, as a share of E t. */
const ROUNDING = 1e-10;
/** What the solver may leave in a stretch. */
const EXACT = 1e-8;

const MATERIALS: readonly Material[] = [
  /* @__PURE__ */ exponentialMaterial(300, 2),
  /* @__PURE__ */ neoHookean(300),
  /* @__PURE__ */ mooneyRivlin(200, 50),
  /* @__PURE__ */ planarFung(40, 10, 0.5),
  /* @__PURE__ */ linearPlaneStress(900, 0.5),
];

/** Irregular round mesh: the mesher's own with every inner node shifted by up to a quarter of the spacing. */
function irregularDisc(material: Material, seed: number) {
  const spacing = 0.3;
  const sizes = { tip_mm: 0.1, face_mm: spacing, far_mm: spacing, levels: 0, growth: 0.2, rim_mm: spacing };
  const mesh = buildDiscMesh({ radius_mm: 1.5, tears: [], grips: [], sizes });
  const random = createRandom(seed);
  const place = mesh.reference_mm.slice();
  const inner = (node: number) => hypot(place[node * 2], place[node * 2 + 1]) < 1.1;
  for (let node = mesh.rimCount; node < mesh.nodeCount; node++)
    if (inner(node)) for (const axis of [0, 1]) place[node * 2 + axis] += 0.5 * spacing * (random.uniform() - 0.5);
  return { rimCount: mesh.rimCount, ...createSample(place, mesh.triangle, material) };
}

/** Random stretches (taut, wrinkled or slack) along a random axis, turned anyhow in space: the columns of F. */
function randomGradient(random: () => number): { u: number[]; v: number[] } {
  const [l1, l2] = [0.9 + 0.5 * random(), 0.6 + 0.6 * random()];
  const angle = 2 * Math.PI * random();
  const axes = randomAxes(random);
  const [c, s] = [cos(angle), sin(angle)];
  const column = (p: number, q: number) => [0, 1, 2].map((i) => l1 * p * axes[0][i] + l2 * q * axes[1][i]);
  return { u: column(c, -s), v: column(s, c) };
}

function randomAxes(random: () => number): readonly [number[], number[]] {
  const a = [0, 1, 2].map(() => random() - 0.5);
  const b = [0, 1, 2].map(() => random() - 0.5);
  const unit = (p: number[]) => p.map((value) => value / hypot(p[0], p[1], p[2]));
  const first = unit(a);
  const along = first.reduce((sum, value, i) => sum + value * b[i], 0);
  return [first, unit(b.map((value, i) => value - along * first[i]))];
}

/** Nominal tension of a triangle, 3x2: in space by the axes of the reference. Does not depend on how equal stretches are told apart. */
function tensionTensor({ tension1_mN_per_mm: a, tension2_mN_per_mm: b, cos, sin, axes }: TriangleState): number[] {
  return [0, 1, 2].flatMap((i) => [
    a * axes[i] * cos - b * axes[3 + i] * sin,
    a * axes[i] * sin + b * axes[3 + i] * cos,
  ]);
}

function patchTest(): readonly Finding[] {
  let residual = 0;
  let spread = 0;
  MATERIALS.forEach((material, index) => {
    const random = createRandom(11 + index);
    const disc = irregularDisc(material, 3 + index);
    const { membrane } = disc.body;
    const scale = material.youngModulus_kPa * THICKNESS_mm;
    const force = new Float64Array(disc.x.length);
    const state = createTriangleState();
    for (let trial = 0; trial < 8; trial++) {
      const { u, v } = randomGradient(random.uniform);
      for (let i = 0; i < disc.x.length; i++) {
        const node = Math.floor(i / 3);
        disc.x[i] = u[i % 3] * membrane.reference_mm[node * 2] + v[i % 3] * membrane.reference_mm[node * 2 + 1];
      }
      gradient(disc.body, { from: disc.x, dt_s: Infinity }, disc.x, force);
      for (let i = disc.rimCount * 3; i < force.length; i++) residual = Math.max(residual, Math.abs(force[i]) / scale);
      triangleState(membrane, disc.x, 0, state);
      const first = tensionTensor(state);
      eachTriangle(disc, (each) => {
        tensionTensor(each).forEach((part, k) => {
          spread = Math.max(spread, Math.abs(part - first[k]) / scale);
        });
      });
    }
  });
  const note = 'five materials, eight states each: taut, wrinkled and slack, turned anyhow in space';
  const common = { reference: 0, unit: 'E t', tolerance: absolute(ROUNDING), note };
  return [
    { quantity: 'largest residual at an inner node', computed: residual, ...common },
    { quantity: 'largest difference of tension between triangles', computed: spread, ...common },
  ];
}

/** Strip under dead loads that belong to a stretch by the reference: the stretch it comes to. */
function stretchUnder(
  material: Material,
  along_kPa: number,
  across_kPa: number,
  guess: readonly [number, number],
): number {
  const lines = gradedLines(0, 1, [], 0.25, 1);
  const strip = stripSample(lines, lines, null, material);
  pullEnds(strip, along_kPa * THICKNESS_mm);
  if (across_kPa !== 0) pullEdges(strip, across_kPa * THICKNESS_mm);
  for (let i = 0; i < strip.x.length; i += 3) {
    strip.x[i] *= guess[0];
    strip.x[i + 1] *= guess[1];
  }
  settle(strip, { tolerance_mN: 1e-9 * Math.abs(along_kPa * THICKNESS_mm) });
  const last = lines.length - 1;
  return strip.x[strip.node(last, 1) * 3] - strip.x[strip.node(0, 1) * 3];
}

/** Nominal stress along a strip held at stretches l1, l2, kPa, from the triangles. */
function stressAt(material: Material, l1: number, l2: number): number {
  const lines = gradedLines(0, 1, [], 0.5, 1);
  const strip = stripSample(lines, lines, null, material);
  for (let i = 0; i < strip.x.length; i += 3) {
    strip.x[i] *= l1;
    strip.x[i + 1] *= l2;
  }
  const state = createTriangleState();
  triangleState(strip.body.membrane, strip.x, 0, state);
  return state.tension1_mN_per_mm / THICKNESS_mm;
}

interface EvenState {
  readonly title: string;
  readonly material: Material;
  readonly l: number;
  readonly across: number;
  readonly reference_kPa: number;
  readonly across_kPa: number;
}

/** Two rows: the stress at the stretch, and the stretch that the solver finds under the reference's stress. */
function evenState({ title, material, l, across, reference_kPa, across_kPa }: EvenState): readonly Finding[] {
  const stretch = stretchUnder(material, reference_kPa, across_kPa, [0.98 * l, 1.02 * across]);
  const tolerance = relative(EXACT);
  return [
    {
      quantity: `${title}, stress at stretch ${l}`,
      computed: stressAt(material, l, across),
      reference: reference_kPa,
      unit: 'kPa',
      tolerance,
    },
    {
      quantity: `${title}, stretch under that stress`,
      computed: stretch,
      reference: l,
      unit: '1',
      tolerance,
    },
  ];
}

const uniaxial = (title: string, material: Material, l: number, reference_kPa: number) =>
  evenState({ title, material, l, across: material.naturalWidth(l), reference_kPa, across_kPa: 0 });
const equibiaxial = (title: string, material: Material, l: number, reference_kPa: number) =>
  evenState({ title, material, l, across: l, reference_kPa, across_kPa: reference_kPa });

export const materialChecks: readonly Check[] = [
  {
    name: 'A1',
    problem: 'an irregular mesh carries every even stretch, in any orientation, without a residual',
    source: 'textbook (patch test)',
    first: true,
    quick: true,
    run: patchTest,
  },
  {
    name: 'A2',
    problem: 'a neo-Hookean strip pulled one way',
    source: 'P = mu (l - l^-2); Treloar',
    first: true,
    quick: true,
    run: () => uniaxial('mu 1 kPa', neoHookean(1), 1.5, neoHookeanUniaxial(1.5)),
  },
  {
    name: 'A3',
    problem: 'a neo-Hookean sheet pulled evenly',
    source: 'P = mu (l - l^-5); Treloar',
    first: true,
    quick: true,
    run: () => equibiaxial('mu 1 kPa', neoHookean(1), 1.2, neoHookeanEquibiaxial(1.2)),
  },
  {
    name: 'A4',
    problem: 'a Mooney sheet pulled one way and evenly',
    source: 'Rivlin 1948',
    first: false,
    quick: true,
    run: () => [
      ...uniaxial('one way', mooneyRivlin(0.4, 0.1), 1.5, mooneyUniaxial(0.4, 0.1, 1.5)),
      ...equibiaxial('evenly', mooneyRivlin(0.4, 0.1), 1.5, mooneyEquibiaxial(0.4, 0.1, 1.5)),
    ],
  },
  {
    name: 'A5',
    problem: 'a planar Fung sheet pulled one way and evenly',
    source: 'Fung, Biomechanics',
    first: false,
    quick: true,
    run: () => [
      ...uniaxial('one way', planarFung(1, 10, 0.5), 1.1, fungUniaxial(10, 0.5, 1.1)),
      ...equibiaxial('evenly', planarFung(1, 10, 0.5), 1.1, fungEquibiaxial(10, 0.5, 1.1)),
    ],
  },
  {
    name: 'A6',
    problem: 'a neo-Hookean sheet pulled one way and held in width',
    source: 'P = mu (l - l^-3), across mu (1 - l^-2); Treloar',
    first: false,
    quick: true,
    run: () =>
      evenState({
        title: 'mu 1 kPa',
        material: neoHookean(1),
        l: 1.2,
        across: 1,
        reference_kPa: neoHookeanPureShear(1.2),
        across_kPa: 1 - 1.2 ** -2,
      }),
  },
];

/** Checks of holes and discs, and of a cap under pressure: A7 to A12. */
import { laplaceTension_mN_per_mm, MMHG_kPa, uncutTension_mN_per_mm } from '../eye/chamber.ts';
import { linearPlaneStress, type Material, neoHookean } from '../membrane/material.ts';
import type { Check, Finding } from './check.ts';
import { absolute, relative } from './compare.ts';
import {
  circleTear,
  type DiscSample,
  discSample,
  eachRimNode,
  freeEdgeTension,
  marginStretch,
  pullRim,
} from './disc-sample.ts';
import {
  kirschHoop,
  LAME_HOOP_OVER_N0,
  lameDisplacementFromTense_mm,
  lameDisplacementFromUnstressed_mm,
  laplace_mN_per_mm,
  springRimDisplacement_mm,
  springRimHoop_mN_per_mm,
} from './reference/sheets.ts';
import { clamp, edgeStretch, type SampleOptions, settle, THICKNESS_mm } from './sample.ts';

/** Vertices round a hole; the chords' own error is (pi/n)^2/6, 0.01 %. */
const HOLE_VERTICES = 120;
/** Far tension over E t in the checks of small strain: what is left of the large-strain terms is of this size. */
const SMALL = 1e-3;

/** Disc with a hole of radius 1; what is inside the hole is in the mesh too and hangs free. */
export function holedDisc(outer: number, material: Material, options: SampleOptions = {}): DiscSample {
  const face_mm = (2 * Math.PI) / HOLE_VERTICES;
  return discSample(
    {
      radius_mm: outer,
      tears: [circleTear(1, HOLE_VERTICES)],
      tip_mm: face_mm,
      face_mm,
      far_mm: outer / 8,
      rim_mm: outer / 12,
      ...options,
    },
    material,
  );
}

/** E t of the linear sheets below, mN/mm. */
const S = 1000;
const linear = /* @__PURE__ */ linearPlaneStress(S / THICKNESS_mm, 0.5);

function wideHole(): readonly Finding[] {
  const N0 = SMALL * S;
  const disc = holedDisc(20, linear);
  pullRim(disc, N0);
  settle(disc, { tolerance_mN: 1e-6 * N0 });
  const stretch = marginStretch(disc);
  const whole = discSample({ radius_mm: 20, tears: [], tip_mm: 1, face_mm: 2, far_mm: 2.5, rim_mm: 20 / 12 }, linear);
  pullRim(whole, N0);
  settle(whole, { tolerance_mN: 5e-4 * N0 });
  const tense = edgeStretch(whole, 0, 1);
  const tolerance = relative(0.01);
  return [
    {
      quantity: 'hoop tension at the margin over the far tension',
      computed: freeEdgeTension(disc, stretch) / N0,
      reference: LAME_HOOP_OVER_N0,
      unit: '1',
      tolerance,
      note: 'disc of 20 radii; its own share of the difference is 0.25 %',
    },
    {
      quantity: 'margin moves outward, from the unstressed sheet',
      computed: 1000 * (stretch - 1),
      reference: 1000 * lameDisplacementFromUnstressed_mm(N0, S, 1),
      unit: 'um',
      tolerance,
    },
    {
      quantity: 'margin moves outward, cut into the tense sheet',
      computed: 1000 * (stretch - tense),
      reference: 1000 * lameDisplacementFromTense_mm(N0, S, 1, 0.5),
      unit: 'um',
      tolerance,
    },
  ];
}

/** Hole of radius 1 in a disc of radius 2 on rim springs k, N0 in the uncut disc. */
function springRim(k: number, title: string): readonly Finding[] {
  const N0 = SMALL * S;
  const nu = 0.5;
  const disc = holedDisc(2, linear);
  const uncut = 1 + ((1 - nu) * N0) / S;
  if (k === 0) pullRim(disc, N0);
  else
    eachRimNode(disc, (node, cos, sin, arc) => {
      const anchor = 2 * uncut + N0 / k;
      disc.body.spring_mN_per_mm[node] = k * arc;
      disc.body.anchor.set([anchor * cos, anchor * sin, 0], node * 3);
    });
  settle(disc, { tolerance_mN: 1e-6 * N0 });
  const stretch = marginStretch(disc);
  const reference = { N0, S, nu, a: 1, b: 2, k };
  return [
    {
      quantity: `${title}: hoop tension at the margin over N0`,
      computed: freeEdgeTension(disc, stretch) / N0,
      reference: springRimHoop_mN_per_mm(reference) / N0,
      unit: '1',
      tolerance: relative(0.01),
    },
    {
      quantity: `${title}: margin moves outward from the tense disc`,
      computed: 1000 * (stretch - uncut),
      reference: 1000 * springRimDisplacement_mm(reference),
      unit: 'um',
      tolerance: relative(0.01),
    },
  ];
}

/** A wide sheet with a hole that takes compression, pulled along x and y. */
function pulledSheet(Nx: number, Ny: number): DiscSample {
  const disc = holedDisc(20, linear, { tensionField: false });
  pullRim(disc, Nx, Ny);
  settle(disc, { tolerance_mN: 1e-6 * Nx });
  return disc;
}

function kirsch(): readonly Finding[] {
  const N0 = SMALL * S;
  const disc = pulledSheet(N0, 0);
  const even = pulledSheet(N0, N0);
  const face = disc.mesh.right[0];
  const hoopAt = (segment: number) =>
    freeEdgeTension(disc, edgeStretch(disc, face[2 * segment], face[2 * segment + 1]));
  // the two segments that meet at the place, whose middles lie 1.5 degrees off
  const half = HOLE_VERTICES / 4;
  const across = 0.5 * (hoopAt(half - 1) + hoopAt(half));
  const along = 0.5 * (hoopAt(0) + hoopAt(HOLE_VERTICES - 1));
  const unit = '1';
  return [
    {
      quantity: 'hoop stress across the pull over the far stress',
      computed: across / N0,
      reference: kirschHoop(90),
      unit,
      tolerance: relative(0.03),
    },
    {
      quantity: 'hoop stress along the pull over the far stress',
      computed: along / N0,
      reference: kirschHoop(0),
      unit,
      tolerance: relative(0.03),
    },
    {
      quantity: 'hoop stress over the far stress, pulled evenly',
      computed: freeEdgeTension(even, marginStretch(even)) / N0,
      // both pulls at once
      reference: kirschHoop(0) + kirschHoop(90),
      unit,
      tolerance: relative(0.03),
    },
  ];
}

/** Brings a disc with a hole to rest with its rim held at a stretch: mean stretch of the hole's margin. */
export function clampedHoleStretch(disc: DiscSample, rimStretch: number): number {
  for (let i = 0; i < disc.x.length; i++) if (i % 3 < 2) disc.x[i] *= rimStretch;
  const rim = disc.radius_mm * rimStretch;
  eachRimNode(disc, (node, cos, sin) => clamp(disc, node, rim * cos, rim * sin));
  settle(disc, { tolerance_mN: 1e-5 });
  return marginStretch(disc);
}

const ANNULUS: readonly (readonly [number, number])[] = [
  [1.1, 1.3359],
  [1.2, 1.6582],
  [1.5, 2.5002],
];

/** Hole in an infinite sheet by far stretch. Yang 1967; Wong and Shield 1969; computed from their equation. */
const INFINITE: readonly (readonly [number, number])[] = [
  [1.1, 1.4037],
  [1.2, 1.7845],
  [1.5, 2.7074],
  [2, 3.8847],
];

const holeStretches = (outer: number, cases: readonly (readonly [number, number])[], allowed: number) =>
  cases.map(
    ([rim, hole]): Finding => ({
      quantity: `hole stretch at a rim stretch of ${rim}`,
      computed: clampedHoleStretch(holedDisc(outer, neoHookean(1000)), rim),
      reference: hole,
      unit: '1',
      tolerance: relative(allowed),
    }),
  );

function laplace(): readonly Finding[] {
  const eye = { baseTension_mN_per_mm: 1, anteriorRadius_mm: 8.4 };
  const pressure_kPa = 0.4666;
  const reference = laplace_mN_per_mm(pressure_kPa, 8.4);
  return [
    {
      quantity: 'cap of radius 8.4 mm under 466.6 Pa',
      computed: laplaceTension_mN_per_mm(pressure_kPa, 8.4),
      reference,
      unit: 'mN/mm',
      tolerance: relative(1e-12),
    },
    {
      quantity: 'the same through the eye: what that pressure adds to the tension of the uncut capsule',
      computed: uncutTension_mN_per_mm(eye, pressure_kPa / MMHG_kPa) - uncutTension_mN_per_mm(eye, 0),
      reference: 1.96,
      unit: 'mN/mm',
      // the number beside the problem is rounded to three decimals
      tolerance: absolute(5e-4),
    },
  ];
}

export const holeChecks: readonly Check[] = [
  {
    name: 'A7',
    problem: 'a free round hole in a wide sheet under even tension',
    source: 'Lame: 2 N0 at the margin, u = 2 N0 a/S or (1 + nu) N0 a/S',
    first: true,
    quick: true,
    run: wideHole,
  },
  {
    name: 'A8',
    problem: 'a hole in a disc of twice its radius on rim springs, from dead load to rigid rim',
    source: 'Lame, derived',
    first: false,
    quick: true,
    run: () => [
      ...springRim(0, 'dead load'),
      ...springRim(S / 2, 'springs of S/b'),
      ...springRim(1e4 * S, 'rigid rim'),
    ],
  },
  {
    name: 'A9',
    problem: 'a round hole in a wide sheet pulled one way and evenly, tension field off',
    source: 'Kirsch 1898: 3 across, -1 along, 2 under an even pull',
    first: false,
    quick: true,
    run: kirsch,
  },
  {
    name: 'A10',
    problem: 'a neo-Hookean hole in a very wide sheet under large stretch',
    source: 'Yang 1967; Wong and Shield 1969; numbers computed from their equation',
    first: false,
    quick: true,
    run: () => holeStretches(40, INFINITE, 0.01),
  },
  {
    name: 'A11',
    problem: 'a neo-Hookean annulus of ratio 4 with its rim held at a stretch',
    source: 'Rivlin and Thomas 1951; numbers from the radial equation, FreeFem++ and CalculiX',
    first: true,
    quick: true,
    run: () => holeStretches(4, ANNULUS, 0.005),
  },
  {
    name: 'A12',
    problem: 'a spherical cap under pressure',
    source: 'Laplace: N = dp R/2',
    first: true,
    quick: true,
    run: laplace,
  },
];

/** Checks of the capsule as a whole that need no attempt: C1, C2, C3 in sheets of small strain; C6, C7 in the eyes by age. */

import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { type Eye, eyeAt } from '../eye/age.ts';
import { fittedOpeningDiameter_mm, publishedEnlargement } from '../eye/base-tension.ts';
import { marchFromHole, openingEnlargement } from '../eye/radial.ts';
import { stretchAtTension } from '../eye/tension.ts';
import { hoopKink } from '../tear/hoop-kink.ts';
import { PATCH_RADII } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { absolute, angle, relative } from './compare.ts';
import { ringFitAtEnd } from './direction-checks.ts';
import { type DiscSample, discSample, eachRimNode, pullRim, tearThrough } from './disc-sample.ts';
import { HOLE_SLIT_FACTOR } from './reference/slits.ts';
import { settle } from './sample.ts';
import { holeSlit } from './slit-checks.ts';
import { ARC_TIP_EDGE, arcPoints, endTip, forceAt, linear, lineInDisc, N0, S } from './slit-sample.ts';

/** How the rim of a disc gives: a dead load, or not at all. */
type Rim = 'dead load' | 'rigid';

/** A cut from the centre to radius 1, then torn round by an angle: the flap between is slack. */
function flapPoints(torn_deg: number): number[] {
  const points: number[] = [];
  const along = Math.round(0.5 / ARC_TIP_EDGE);
  for (let k = 0; k < along; k++) points.push(k / along, 0);
  const torn = (torn_deg * Math.PI) / 180;
  const count = Math.round(torn / ARC_TIP_EDGE);
  for (let k = 0; k <= count; k++) points.push(cos((torn * k) / count), sin((torn * k) / count));
  return points;
}

/** Stiffness of springs that stand for a rigid rim, over that of the sheet. */
const RIGID = 1e4;

/** A disc of linear sheet under the tension N0 when uncut, its flap torn round by an angle and let go, at rest. */
function tornDisc(torn_deg: number, radius: number, rim: Rim): DiscSample {
  const edge = ARC_TIP_EDGE;
  const sizes = { tip_mm: edge, face_mm: 2 * edge, far_mm: radius / 8, rim_mm: radius / 12 };
  const tears = [tearThrough(flapPoints(torn_deg), 'blunt', 'live')];
  const disc = discSample({ radius_mm: radius, tears, ...sizes }, linear);
  const uncut = 1 + (0.5 * N0) / S;
  if (rim === 'dead load') pullRim(disc, N0);
  else
    eachRimNode(disc, (node, cos, sin, arc) => {
      const k = RIGID * S;
      const anchor = radius * uncut + N0 / k;
      disc.body.spring_mN_per_mm[node] = k * arc;
      disc.body.anchor.set([anchor * cos, anchor * sin, 0], node * 3);
    });
  for (let i = 0; i < disc.x.length; i++) if (i % 3 < 2) disc.x[i] *= uncut;
  settle(disc, { tolerance_mN: 1e-5 * N0, steps: 20, drag_s: 1e-6 });
  return disc;
}

/** Pi = N0^2 R/(S T) at which the size of the product's own tip force reaches T: it grows as N0^2. */
function selfRunning(disc: DiscSample): number {
  const force = forceAt(disc, endTip(disc), ARC_TIP_EDGE, PATCH_RADII);
  return N0 ** 2 / (S * hypot(force[0], force[1]));
}

/** Angles torn among which the worst is looked for, degrees. */
const TORN_deg: readonly number[] = [90, 120, 150, 180];

function selfRunningFindings(): readonly Finding[] {
  const worst = (rim: Rim, reference: number): Finding => {
    const each = TORN_deg.map((torn) => ({ torn, Pi: selfRunning(tornDisc(torn, 2, rim)) }));
    const least = each.reduce((a, b) => (b.Pi < a.Pi ? b : a));
    return {
      quantity: `Pi at which the sheet alone tears, disc of two tear radii, ${rim}`,
      computed: least.Pi,
      reference,
      unit: '1',
      tolerance: relative(0.15),
      note: `worst of ${each.map(({ torn, Pi }) => `${Pi.toFixed(3)} at ${torn}`).join(', ')} degrees torn, flap slack`,
    };
  };
  const arc = lineInDisc(arcPoints(70), 20, ARC_TIP_EDGE, N0, N0);
  const infinite: Finding = {
    quantity: 'the same in a wide sheet, arc of half-angle 70 degrees',
    computed: selfRunning(arc),
    reference: 0.4,
    unit: '1',
    tolerance: relative(0.15),
  };
  return [worst('dead load', 0.3), infinite, worst('rigid', 0.92)];
}

const heading = (quantity: string, disc: DiscSample, tangent_deg: number, outward_deg: number): Finding => {
  const fit = ringFitAtEnd(disc, tangent_deg);
  return {
    quantity,
    computed: -hoopKink(fit.KI, fit.KII).turn_deg,
    reference: outward_deg,
    unit: 'deg',
    tolerance: angle(6),
    note: `KI ${fit.KI.toFixed(3)}, KII ${fit.KII.toFixed(3)} N0 sqrt(R); the ring lies on a curve, which its straight terms do not know`,
  };
};

/** Half-angle of an arc and its kink outward by the hoop rule, degrees, from the closed form of the arc slit. */
const ARC_KINK: readonly (readonly [number, number])[] = [
  [45, 36],
  [60, 43],
  [90, 53],
];
/** Kink outward of a cut with an arc torn round by 60 to 180 degrees: 46 to 49 degrees. */
const FLAP_KINK_deg = 47.5;

const headings = (): readonly Finding[] => [
  ...ARC_KINK.map(([half, kink]) =>
    heading(
      `turn outward without a pull, arc of half-angle ${half} degrees`,
      lineInDisc(arcPoints(half), 20, ARC_TIP_EDGE, N0, N0),
      90 + half,
      kink,
    ),
  ),
  ...[60, 120, 180].map((torn) =>
    heading(
      `turn outward without a pull, cut and arc torn by ${torn} degrees`,
      tornDisc(torn, 20, 'dead load'),
      90 + torn,
      FLAP_KINK_deg,
    ),
  ),
];

/** Nick over the radius of the opening at which it would run, times Pi, for a short one. */
const NICK_TIMES_PI = 0.063;
const SHORT = 0.02;

function nicks(): readonly Finding[] {
  // J = F^2 pi a N0^2/S reaches T
  const runsAt = (F: number) => 1 / (Math.PI * F ** 2);
  const [[a, Fa], [b, Fb]] = HOLE_SLIT_FACTOR;
  const [ourFa, ourFb] = [holeSlit(a), holeSlit(b)];
  const runs = (nick: number, F: number, reference: number, allowed: number): Finding => ({
    quantity: `Pi a/R at which a nick of ${nick} of the radius runs`,
    computed: runsAt(F),
    reference,
    unit: '1',
    tolerance: relative(allowed),
  });
  return [
    runs(SHORT, holeSlit(SHORT), NICK_TIMES_PI, 0.15),
    runs(a, ourFa, runsAt(Fa), 0.06),
    {
      quantity: `J of a nick of ${b} of the radius over that of one of ${a}: above 1, so growth does not stop`,
      computed: (b * ourFb ** 2) / (a * ourFa ** 2),
      reference: (b * Fb ** 2) / (a * Fa ** 2),
      unit: '1',
      tolerance: relative(0.06),
    },
  ];
}

const eye = (age_years: number): Eye => eyeAt(age_years, { stiffnessPreset: 'uniaxial', dyed: false, overrides: {} });

/** Stretch of the uncut capsule at no net pressure, and of the margin of the finished opening usual at that age. */
function openedStretches(of: Eye): { uncut: number; margin: number } {
  const tension = of.baseTension_mN_per_mm;
  const line_mm = fittedOpeningDiameter_mm(of.age_years) / publishedEnlargement(of.age_years);
  const uncut = stretchAtTension(tension, of);
  return { uncut, margin: uncut * openingEnlargement(of, line_mm, tension) };
}

/** Middle and half-width of the published range of added circumference: 35 to 85 %. */
const ADDED: readonly [number, number] = [0.6, 0.25];

const ruptures = (): readonly Finding[] =>
  [0.5, 6, 20, 60, 75].map((age): Finding => {
    const of = eye(age);
    return {
      quantity: `circumference added to the finished opening until its margin ruptures, ${age} years`,
      computed: (1 + of.ruptureStrain) / openedStretches(of).margin - 1,
      reference: ADDED[0],
      unit: '1',
      tolerance: absolute(ADDED[1]),
      note: 'margin stretched evenly round, as by tools it slides over; the elongation at rupture is from memory',
    };
  });

/**
 * Distance from the centre over the opening's radius at which the change of strain is read. Assumed, 1.1 to 1.5: where the source
 * read it is not known to us. At 1.1 hoop strain rises by 21 and 20 %, radial falls by 27 and 24 %, at 6 months and 2 years.
 */
const BESIDE = 1.25;
/** Middle and half-width of "up to about 20 %". */
const CHANGED: readonly [number, number] = [0.1, 0.1];

const redistribution = (): readonly Finding[] =>
  [0.5, 2, 6, 60].flatMap((age): Finding[] => {
    const of = eye(age);
    const { uncut, margin } = openedStretches(of);
    const material = { shearModulus: of.youngModulus_MPa / 3, stiffening: of.stiffening };
    const { radialStretch, hoopStretch } = marchFromHole(material, margin, BESIDE);
    const finding = (quantity: string, computed: number): Finding => ({
      quantity: `${quantity} ${BESIDE} radii from the centre, ${age} years`,
      computed,
      reference: CHANGED[0],
      unit: '1',
      tolerance: absolute(CHANGED[1]),
      note: `at the margin itself the hoop strain rises by ${(100 * (margin / uncut - 1)).toFixed(0)} %`,
    });
    const falls = finding('strain falls toward the opening,', 1 - radialStretch / uncut);
    return [
      finding('hoop strain rises,', hoopStretch / uncut - 1),
      age < 1 ? { ...falls, knownMiss: INFANT_FALL } : falls,
    ];
  });

const INFANT_FALL = {
  size: 0.125,
  reason:
    'the soft capsule of an infant gives up 22 % beside the opening, where the pig gave up to about 20 %; its tension is ' +
    'fitted to an enlargement of 1.26, which asks for it',
};

export const capsuleChecks: readonly Check[] = [
  {
    name: 'C1',
    problem: 'tension at which the sheet alone tears, flap slack, small strain',
    source: 'independent finite elements; never below 0.3 there',
    first: false,
    quick: false,
    run: selfRunningFindings,
  },
  {
    name: 'C2',
    problem: "heading of the sheet's own share of the tip force, by the hoop rule",
    source: 'arc slit: Cotterell and Rice 1980 with Erdogan and Sih 1963; cut and arc: computed',
    first: false,
    quick: false,
    run: headings,
  },
  {
    name: 'C3',
    problem: 'a finished opening with a radial nick',
    source: 'short edge slit in twice the far tension: Pi a/R = 0.063; Bowie 1956',
    first: false,
    quick: false,
    run: nicks,
  },
  {
    name: 'C6',
    problem: 'circumference of the opening at rupture of its margin',
    source:
      'Assia 1991: +62 % (35 eyes, no trend with age); pig +48 % (J AAPOS 1999;3:356) and +85 % (Wilson 2004); ' +
      'rims +35 % (Auffarth 2013)',
    first: false,
    quick: true,
    run: ruptures,
  },
  {
    name: 'C7',
    problem: 'strain redistribution by an opening',
    source: 'Heistand 2006 (pig): hoop up, meridional down, each up to about 20 %',
    first: false,
    quick: true,
    run: redistribution,
  },
];

/** Checks of the tip force where the sheet leaves its plane: B8 and B11. */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { neoHookean } from '../membrane/material.ts';
import { createTipPatch, PATCH_RADII, tipForce } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { angle, relative } from './compare.ts';
import { type DiscSample, discSample, tearThrough } from './disc-sample.ts';
import { foldedFlapForce, trousersG_J_per_m2 } from './reference/flaps.ts';
import { eachTriangle, type SampleOptions, settle, THICKNESS_mm } from './sample.ts';
import { gradedLines, type StripSample, shareOf, stripSample } from './strip-sample.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** E t, mN/mm. */
const S = 1;
const soft = /* @__PURE__ */ neoHookean(S / THICKNESS_mm / 3);

/** Width of a leg, its length, and the uncut part ahead of the tip, mm. */
const LEG = { width: 1, length: 5, ahead: 3 };
const TROUSER_EDGE = 1 / 40;
/** Steps in which the legs come to rest from where they were laid. */
const TROUSER_STEPS = 300;

/** Height of a leg above the plane at the start, per distance from its fold. */
const LIFTED = 0.1;

/**
 * Two legs pulled apart, folded over: the uncut part lies in a plane with the pull, and each leg is laid over it along a
 * fold through the tip at 45 degrees, which is where a sheet that hardly stretches comes to rest. The legs start a little
 * above the plane. Laid flat, every force lies in the plane, so that nothing can leave it: folds then stay on the triangles
 * they began in, crushed, at twice the energy and more, and J depends on the patch (0.63 to 0.88 of 2 F at a pull of 0.001).
 */
function trousers(F_mN: number, options: SampleOptions): StripSample {
  const { width, length, ahead } = LEG;
  const xs = gradedLines(-length, ahead, [0], TROUSER_EDGE, 1.15);
  const ys = gradedLines(-width, width, [0], TROUSER_EDGE, 1.15);
  const strip = stripSample(xs, ys, [-length, 0], soft, options);
  const { x } = strip;
  const lay = (node: number, side: 1 | -1) => {
    const [X, Y] = [x[node * 3], x[node * 3 + 1]];
    // reflection across the line y = -side x, behind the tip only
    if (side * Y < -X) {
      x[node * 3] = -side * Y;
      x[node * 3 + 1] = -side * X;
      x[node * 3 + 2] = (LIFTED * (-X - side * Y)) / Math.SQRT2;
    }
  };
  const middle = ys.indexOf(0);
  ys.forEach((_, j) => {
    xs.forEach((_, i) => {
      lay(strip.node(i, j), j >= middle ? 1 : -1);
    });
  });
  xs.forEach((_, i) => {
    if (strip.lower(i) !== strip.node(i, middle)) lay(strip.lower(i), -1);
  });
  const pull = (node: number, j: number, side: 1 | -1, share: number) => {
    strip.body.load[node * 3 + 1] += (side * F_mN * share) / width;
    return j;
  };
  ys.forEach((_, j) => {
    const share = j === middle ? 0.5 * shareOf(ys, j) : shareOf(ys, j);
    pull(strip.node(0, j), j, j >= middle ? 1 : -1, share);
    if (j === middle) pull(strip.lower(0), j, -1, share);
  });
  return strip;
}

/** Mean stretch along the legs and energy per volume in them, away from tip and ends. */
function legState(strip: StripSample): { l: number; W_kPa: number } {
  let volume = 0;
  let stretch = 0;
  let energy = 0;
  const { area_mm2 } = strip.body.membrane;
  eachTriangle(strip, (state, cx, _, t) => {
    if (cx > -0.6 * LEG.length || cx < -0.8 * LEG.length) return;
    volume += area_mm2[t];
    stretch += area_mm2[t] * state.l1;
    energy += (area_mm2[t] * state.energy_mN_per_mm) / THICKNESS_mm;
  });
  return { l: stretch / volume, W_kPa: energy / volume };
}

export interface Trousers {
  /** Pull of a leg over E t times its width. */
  readonly pull: number;
  readonly residualShare?: number;
  readonly note: string;
}

function trousersTear({ pull, residualShare, note }: Trousers): Finding {
  const F = pull * S * LEG.width;
  const strip = trousers(F, residualShare === undefined ? {} : { residualShare });
  settle(strip, { tolerance_mN: 1e-4 * F, steps: TROUSER_STEPS, drag_s: 1e-5 });
  const tip = strip.node(strip.column(0), strip.ys.indexOf(0));
  const { membrane } = strip.body;
  const patch = createTipPatch(membrane, tip, PATCH_RADII[0] * TROUSER_EDGE, PATCH_RADII[1] * TROUSER_EDGE);
  const [J] = tipForce(membrane, patch, strip.x);
  const { l, W_kPa } = legState(strip);
  return {
    quantity: `G, legs pulled by ${pull} E t a width${residualShare === undefined ? '' : ', hardly any residual stiffness'}`,
    computed: J / THICKNESS_mm,
    // both legs store energy, so w is the width of the two
    reference: trousersG_J_per_m2(F, THICKNESS_mm * 1000, l, 2 * LEG.width, W_kPa),
    unit: 'J/m^2',
    tolerance: relative(0.03),
    note: `legs stretched by ${(100 * (l - 1)).toFixed(2)} %; 2 F/t alone is ${((2 * F) / THICKNESS_mm).toFixed(4)}. ${note}`,
  };
}

const TROUSERS: readonly Trousers[] = [
  { pull: 0.05, note: "The model's own residual stiffness." },
  { pull: 0.001, residualShare: 2e-5, note: "Residual stiffness a hundredth of the model's own." },
  { pull: 0.001, note: "The model's own residual stiffness." },
];

/** Directions of the grip from the tip and of the pull, degrees from the tear's tangent. */
const GRIP_deg = 150;
const PULL_deg = 20;
const FLAP_EDGE = 0.03;
/** Bending stiffness over E t, mm^2: keeps the fold from being sharper than the mesh, far too little to turn it. */
const FLAP_BENDING = 3e-7;
/** Degrees by which the rim of the flap is free beyond the fold, so that the fold can come to rest there. */
const FREE_RIM_deg = 8;

/** Disc of radius 1, slit from the rim to the middle along -x; the flap is the upper side, gripped at half the radius. */
function slitDisc(): DiscSample {
  const count = Math.round(1 / (2 * FLAP_EDGE));
  const points: number[] = [];
  // the first vertex is a rim node, to the bit
  for (let k = 0; k < count; k++) points.push(k === 0 ? cos(Math.PI) : -1 + k / count, k === 0 ? sin(Math.PI) : 0);
  points.push(-FLAP_EDGE, 0, 0, 0);
  return discSample(
    {
      radius_mm: 1,
      tears: [tearThrough(points, 'joined', 'live')],
      grips: [[0.5 * cos(rad(GRIP_deg)), 0.5 * sin(rad(GRIP_deg))]],
      tip_mm: FLAP_EDGE,
      face_mm: 2 * FLAP_EDGE,
      far_mm: 2 * FLAP_EDGE,
      rim_mm: (2 * Math.PI) / 64,
      growth: 0.22,
      bending_mN_mm: FLAP_BENDING * S,
    },
    soft,
  );
}

/** True for nodes of the flap's side of the slit; on the slit its left face. */
function flapSide(disc: DiscSample): (node: number) => boolean {
  const right = new Set(disc.mesh.right[0]);
  for (const node of disc.mesh.left[0]) right.delete(node);
  const { reference_mm } = disc.mesh;
  return (node) => {
    const [X, Y] = [reference_mm[node * 2], reference_mm[node * 2 + 1]];
    return Y > 1e-9 || (Math.abs(Y) <= 1e-9 && X < 0 && !right.has(node));
  };
}

/** Lays the flap up along the fold that the answer expects (turned by FREE_RIM_deg) and holds the rest of the rim. */
function layFlap(disc: DiscSample): void {
  const { x, body, mesh } = disc;
  const onFlap = flapSide(disc);
  const across = rad((PULL_deg + GRIP_deg + 180) / 2 - FREE_RIM_deg);
  const [nx, ny] = [cos(across), sin(across)];
  const clampStiffness = 100 * S;
  for (let node = 0; node < mesh.nodeCount; node++) {
    const [X, Y] = [mesh.reference_mm[node * 2], mesh.reference_mm[node * 2 + 1]];
    const past = X * nx + Y * ny;
    const folded = onFlap(node) && past > 0;
    if (folded) {
      // stood half way over; the pull does the rest
      const tip = cos(rad(120)) - 1;
      x[node * 3] += tip * past * nx;
      x[node * 3 + 1] += tip * past * ny;
      x[node * 3 + 2] = past * sin(rad(120));
    } else if (hypot(X, Y) > 0.9999) {
      body.spring_mN_per_mm[node] = clampStiffness;
      body.anchor.set([X, Y, 0], node * 3);
    }
    body.floor_mN_per_mm[node] = S / 100;
  }
}

function foldedFlap(): readonly Finding[] {
  const F = 1e-3 * S;
  const disc = slitDisc();
  layFlap(disc);
  const grip = disc.mesh.gripNode[0];
  disc.body.load.set([F * cos(rad(PULL_deg)), F * sin(rad(PULL_deg)), 0], grip * 3);
  settle(disc, { tolerance_mN: 1e-4 * F, steps: 60, drag_s: 1e-7, iterations: 100 });
  const face = disc.mesh.left[0];
  const { membrane } = disc.body;
  const patch = createTipPatch(membrane, face[face.length - 1], PATCH_RADII[0] * FLAP_EDGE, PATCH_RADII[1] * FLAP_EDGE);
  const J = tipForce(membrane, patch, disc.x);
  const reference = foldedFlapForce(GRIP_deg, PULL_deg);
  const note = `the flap's rim is free to ${FREE_RIM_deg} degrees past the fold; held right up to it the fold cannot move there`;
  return [
    {
      quantity: 'size of the tip force over the pull',
      computed: hypot(...J) / F,
      reference: reference.sizeOverF,
      unit: '1',
      tolerance: relative(0.02),
      note,
    },
    {
      quantity: 'direction of the tip force from the tangent',
      computed: (atan2(J[1], J[0]) * 180) / Math.PI,
      reference: reference.direction_deg,
      unit: 'deg',
      tolerance: angle(1.5),
      note,
    },
  ];
}

export const flapChecks: readonly Check[] = [
  {
    name: 'B8',
    problem: 'trousers: two legs of a sheet pulled apart',
    source: 'Rivlin and Thomas 1953: G = 2 l F/t - w W',
    first: true,
    quick: true,
    run: () => TROUSERS.map(trousersTear),
  },
  {
    name: 'B11',
    problem: 'a folded flap pulled over the sheet: the tip force runs square to the fold',
    source: 'derived, framework of Roman 2013; two other programs: 1.819 F at -4.8 degrees',
    first: true,
    quick: true,
    run: foldedFlap,
  },
];

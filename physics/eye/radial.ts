import { exp } from '../core/elementary/exponential.ts';
import { log } from '../core/elementary/logarithm.ts';
import { type CapsuleStiffness, stretchAtTension } from './tension.ts';

/**
 * Axisymmetric answer for a flat membrane with a round free hole, at any stretch. With x = ln R the equilibrium
 * d(R Pr)/dR = Ph and the compatibility lh = r/R, lr = dr/dR become an autonomous pair in (lr, lh), marched outward
 * from the free margin, where Pr = 0 means lr = lh^(-1/2). Rivlin and Thomas 1951; Yang 1967.
 * A hole in a tense sheet has tension in both directions, so slackness does not enter.
 */
export interface RadialMaterial {
  /** Any unit; stresses come out in it. */
  readonly shearModulus: number;
  /** b of W = mu/(2b) (exp(b (I1 - 3)) - 1); 0 for neo-Hookean. */
  readonly stiffening: number;
}

export interface RadialState {
  readonly radialStretch: number;
  readonly hoopStretch: number;
}

/** Steps per unit of ln R; the fourth-order march is converged to about 1e-9 at this density. */
const STEPS_PER_LOG_RADIUS = 120;

/** Nominal stresses Pr, Ph and the derivatives of Pr. Symmetric in its two stretches. */
function stresses(material: RadialMaterial, lr: number, lh: number) {
  const mu = material.shearModulus;
  const b = material.stiffening;
  const l3sq = 1 / (lr * lr * lh * lh);
  const e = mu * exp(b * (lr * lr + lh * lh + l3sq - 3));
  const ir = lr - l3sq / lr;
  const ih = lh - l3sq / lh;
  return {
    radial: e * ir,
    hoop: e * ih,
    radialByRadial: e * (1 + (3 * l3sq) / (lr * lr) + 2 * b * ir * ir),
    radialByHoop: e * ((2 * l3sq) / (lr * lh) + 2 * b * ir * ih),
  };
}

/** Nominal radial stress, in the unit of the shear modulus. */
export function radialStress(material: RadialMaterial, state: RadialState): number {
  return stresses(material, state.radialStretch, state.hoopStretch).radial;
}

/** Nominal hoop stress, in the unit of the shear modulus. */
export function hoopStress(material: RadialMaterial, state: RadialState): number {
  return stresses(material, state.radialStretch, state.hoopStretch).hoop;
}

/**
 * State at `radiusRatio` times the hole's unloaded radius when the margin is stretched by `holeStretch`.
 *
 * @param radiusRatio 1 or more
 * @param holeStretch above 0
 */
export function marchFromHole(material: RadialMaterial, holeStretch: number, radiusRatio: number): RadialState {
  const span = log(radiusRatio);
  const steps = Math.max(1, Math.ceil(span * STEPS_PER_LOG_RADIUS));
  const h = span / steps;
  let lh = holeStretch;
  let lr = 1 / Math.sqrt(holeStretch);
  const slope = (r: number, t: number): readonly [number, number] => {
    const p = stresses(material, r, t);
    const dt = r - t;
    return [(p.hoop - p.radial - p.radialByHoop * dt) / p.radialByRadial, dt];
  };
  for (let i = 0; i < steps; i += 1) {
    const a = slope(lr, lh);
    const b = slope(lr + 0.5 * h * a[0], lh + 0.5 * h * a[1]);
    const c = slope(lr + 0.5 * h * b[0], lh + 0.5 * h * b[1]);
    const d = slope(lr + h * c[0], lh + h * c[1]);
    lr += (h * (a[0] + 2 * b[0] + 2 * c[0] + d[0])) / 6;
    lh += (h * (a[1] + 2 * b[1] + 2 * c[1] + d[1])) / 6;
  }
  return { radialStretch: lr, hoopStretch: lh };
}

const BISECTIONS = 52;

/** The hole stretch above 1 at which `excess` turns positive; excess must rise with the hole stretch. */
function solveHoleStretch(excess: (holeStretch: number) => number): number {
  let low = 1;
  let high = 1.05;
  // a march that overflows counts as beyond the answer
  const beyond = (l: number) => !(excess(l) < 0);
  while (!beyond(high)) {
    low = high;
    high = 1 + 1.5 * (high - 1);
  }
  for (let i = 0; i < BISECTIONS; i += 1) {
    const middle = 0.5 * (low + high);
    if (beyond(middle)) high = middle;
    else low = middle;
  }
  return 0.5 * (low + high);
}

/**
 * Stretch of a free hole's margin when the rim at `radiusRatio` hole radii is held at `rimStretch`.
 *
 * @param rimStretch 1 or more
 * @param radiusRatio above 1; 1000 serves as an infinite sheet to about 1e-6
 */
export function holeStretchAtRimStretch(material: RadialMaterial, rimStretch: number, radiusRatio: number): number {
  return solveHoleStretch((l) => marchFromHole(material, l, radiusRatio).hoopStretch - rimStretch);
}

/** Capsule, its rim springs and its size in the living eye before any cut. */
export interface CapsuleDisc extends CapsuleStiffness {
  readonly lensDiameter_mm: number;
  readonly baseTension_mN_per_mm: number;
  readonly zonuleStiffness_mN_per_mm2: number;
}

/** Radius of the unloaded disc: the rim lies at the lens radius when the uncut capsule carries its base tension. */
export function referenceRadius_mm(disc: CapsuleDisc): number {
  return disc.lensDiameter_mm / 2 / stretchAtTension(disc.baseTension_mN_per_mm, disc);
}

/**
 * Radius of the fixed outer end of the rim springs, so that the uncut capsule carries `tension_mN_per_mm` evenly. The
 * springs act radially, per mm of unloaded rim arc; their outer end moves when the net pressure changes the tension.
 */
export function rimAnchorRadius_mm(disc: CapsuleDisc, tension_mN_per_mm: number): number {
  const rim_mm = stretchAtTension(tension_mN_per_mm, disc) * referenceRadius_mm(disc);
  return rim_mm + tension_mN_per_mm / disc.zonuleStiffness_mN_per_mm2;
}

/**
 * Diameter of a finished round opening over the diameter of the line it was cut along, the line being drawn in the
 * tense uncut capsule.
 *
 * @param lineDiameter_mm above 0, below the lens diameter
 * @param tension_mN_per_mm tension of the uncut capsule when the line was drawn, above 0
 * @returns dimensionless, above 1
 */
export function openingEnlargement(disc: CapsuleDisc, lineDiameter_mm: number, tension_mN_per_mm: number): number {
  const uncut = stretchAtTension(tension_mN_per_mm, disc);
  const outer_mm = referenceRadius_mm(disc);
  const hole_mm = lineDiameter_mm / 2 / uncut;
  const anchor_mm = rimAnchorRadius_mm(disc, tension_mN_per_mm);
  if (!(hole_mm > 0 && hole_mm < outer_mm)) {
    throw new RangeError(`line of ${lineDiameter_mm} mm does not lie inside the capsule`);
  }
  // stress in MPa times thickness in um is mN/mm
  const material = { shearModulus: disc.youngModulus_MPa / 3, stiffening: disc.stiffening };
  const holeStretch = solveHoleStretch((l) => {
    const rim = marchFromHole(material, l, outer_mm / hole_mm);
    const pull = disc.thickness_um * radialStress(material, rim);
    return pull - disc.zonuleStiffness_mN_per_mm2 * (anchor_mm - rim.hoopStretch * outer_mm);
  });
  return holeStretch / uncut;
}

/**
 * Diameter of the line to tear along so that the opening, once relaxed, has the wanted diameter.
 *
 * @param openingDiameter_mm above 0, below the lens diameter
 */
export function lineDiameterFor_mm(disc: CapsuleDisc, openingDiameter_mm: number, tension_mN_per_mm: number): number {
  let low = 0.2 * openingDiameter_mm;
  let high = openingDiameter_mm;
  for (let i = 0; i < BISECTIONS; i += 1) {
    const middle = 0.5 * (low + high);
    if (middle * openingEnlargement(disc, middle, tension_mN_per_mm) < openingDiameter_mm) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

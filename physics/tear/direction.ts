/**
 * Which way a tear goes, by either of two rules behind one interface.
 *
 * The vector rule follows the configurational force g. It is right for a folded flap, whose fold carries hardly any tension to the tip,
 * and wrong for a taut flat sheet in shear, where it does not turn at all. The hoop rule (Erdogan and Sih 1963) is right there and
 * has nothing to go by at a fold. The blend has both limits; it takes the direction of the largest
 *
 *     (a g - b gK) . t(th) + k Keq(th)^2/S,   gK = (KI^2 + KII^2, -2 KI KII)/S,   Keq = hoopIntensity,
 *
 * with K from a ring round the tip and S = E t. k says how far the ring's tensions are those of such a tip (1 where the fit misses
 * little, 0 where it misses much: then a = 1, b = 0 and the vector rule is left); w is 0 in a flat sheet and 1 in a folded one;
 * a = 1 - k (1 - w), b = k w. What it is worth is said by virtual extensions (model.md, "Direction").
 */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { acos, atan2 } from '../core/elementary/inverse-circular.ts';
import { createTriangleState, type Membrane, triangleState } from '../membrane/membrane.ts';
import { hoopIntensity, hoopKink } from './hoop-kink.ts';
import { fromTip, type RingFit, type RingTip, ringFit } from './ring-fit.ts';

export type DirectionRule = 'vector' | 'blend';

/** What a rule reads of a tip. */
export interface TipField {
  readonly membrane: Membrane;
  /** 3 per node, mm. */
  readonly x: Float64Array;
  readonly tip: RingTip;
  /** Configurational force, mN, reference axes. */
  readonly force: readonly [number, number];
  /** Length of an element at the tip, mm. */
  readonly edge_mm: number;
  /** True for the end of a nick or of another cut that has not torn yet. */
  readonly fresh?: boolean;
}

/** Ring of the fit in tip elements: three from the tip, and no farther than a short tear is its own. */
export const RING: readonly [number, number] = [3, 8];
/** Fold, degrees, up to which a sheet counts as flat and from which as folded; a smooth step between. Assumed, 20 to 45. */
export const FLAT_deg = 20;
export const FOLDED_deg = 40;
/**
 * Misfit of the ring up to which its intensities are taken at their word, and from which they are not. Assumed, 0.08 to 0.3: slits
 * and arcs in taut sheets have 0.06 to 0.10, torn capsules with a pulled flap 0.14 to 0.65.
 */
export const TRUSTED = 0.12;
export const NOT_TRUSTED = 0.2;
/** Directions tried by the blend, degrees apart, before the best is narrowed down. */
const SCAN_deg = 5;
const REACH_deg = 150;
const DEG = 180 / Math.PI;

/** What the blend found at a tip. */
export interface Blend {
  /** Turn from the tangent, radians, positive to the left. */
  readonly turn_rad: number;
  /** Angle by which the sheet is folded at the tip, degrees. */
  readonly fold_deg: number;
  /** Null where no ring could be fitted: then the vector rule stands. */
  readonly fit: RingFit | null;
}

/** Turn of the force from the tangent, radians. */
export function vectorTurn({ tip, force }: TipField): number {
  const [fx, fy] = force;
  return atan2(tip.tx * fy - tip.ty * fx, tip.tx * fx + tip.ty * fy);
}

/**
 * Turn by a rule, radians within +-pi, positive to the left of the tangent. A force of 0 and fields that are not finite turn nothing.
 */
export function directionTurn(rule: DirectionRule, field: TipField): number {
  const turn = rule === 'vector' ? vectorTurn(field) : blendDirection(field).turn_rad;
  return Number.isFinite(turn) ? turn : 0;
}

/** The blend at a tip. */
export function blendDirection(field: TipField): Blend {
  const { membrane, x, tip, edge_mm } = field;
  const fold_deg = foldAt(membrane, x, tip, RING[0] * edge_mm, RING[1] * edge_mm);
  const fit = ringFit(membrane, x, tip, RING[0] * edge_mm, RING[1] * edge_mm);
  if (fit === null) return { turn_rad: vectorTurn(field), fold_deg, fit };
  const turn_rad = largestOf(blendedForce(field, fit, fold_deg));
  return { turn_rad: field.fresh && fold_deg < FLAT_deg ? largerKink(field, fit) : turn_rad, fold_deg, fit };
}

/** Of both rules that which turns more: a cut's end in a flat sheet has no margin of its own yet whose curve could be kept. */
function largerKink(field: TipField, fit: RingFit): number {
  const vector = vectorTurn(field);
  const hoop = hoopKink(fit.KI, fit.KII).turn_deg / DEG;
  return Math.abs(hoop) > Math.abs(vector) ? hoop : vector;
}

/** What the blend makes as large as can be, mN, as a function of the turn in radians. */
export function blendedForce(field: TipField, fit: RingFit, fold_deg: number): (turn: number) => number {
  const { membrane, tip, force } = field;
  const along = tip.tx * force[0] + tip.ty * force[1];
  const across = tip.tx * force[1] - tip.ty * force[0];
  const square = fit.KI * fit.KI + fit.KII * fit.KII;
  // a sheet that has stiffened turns its tensions into less energy than its first stiffness says
  const stiffness = Math.max(
    membrane.material.youngModulus_kPa * membrane.thickness_mm,
    square / Math.max(along, 1e-9),
  );
  const folded = smoothStep((fold_deg - FLAT_deg) / (FOLDED_deg - FLAT_deg));
  const trust = 1 - smoothStep((fit.misfit - TRUSTED) / (NOT_TRUSTED - TRUSTED));
  const whole = 1 - trust * (1 - folded);
  const taken = (trust * folded) / stiffness;
  const restAlong = whole * along - taken * square;
  const restAcross = whole * across + taken * 2 * fit.KI * fit.KII;
  return (turn) => {
    const K = Math.max(0, hoopIntensity(fit.KI, fit.KII, turn));
    return restAlong * cos(turn) + restAcross * sin(turn) + (trust * K * K) / stiffness;
  };
}

const smoothStep = (u: number): number => {
  const c = Math.min(1, Math.max(0, u));
  return c * c * (3 - 2 * c);
};

/** Where a smooth function of the turn is largest, radians. */
function largestOf(value: (turn: number) => number): number {
  let best = 0;
  for (let turn = -REACH_deg; turn <= REACH_deg; turn += SCAN_deg)
    if (value(turn / DEG) > value(best)) best = turn / DEG;
  for (let step = SCAN_deg / DEG / 2; step > 1e-5; step /= 2)
    for (const turn of [best - step, best + step]) if (value(turn) > value(best)) best = turn;
  return best;
}

/** Sector behind the tip, to either side, whose plane is compared with the one ahead, degrees from the tangent. */
const SIDE_deg: readonly [number, number] = [90, 165];
const AHEAD_deg = 60;

/**
 * The larger of the angles between the sheet's plane ahead of a tip and the planes to the two sides of the tear behind it, from
 * the mean normals of the triangles between two radii. Degrees, 0 in a flat sheet, 180 where a flap lies folded back; 0 where a sector is empty.
 */
export function foldAt(membrane: Membrane, x: Float64Array, tip: RingTip, inner_mm: number, outer_mm: number): number {
  const { area_mm2, triangleCount } = membrane;
  const seen = { r: 0, th: 0 };
  const normals = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  const state = createTriangleState();
  for (let t = 0; t < triangleCount; t++) {
    fromTip(membrane, tip, t, seen);
    if (seen.r < inner_mm || seen.r > outer_mm) continue;
    const round = seen.th * DEG;
    const size = Math.abs(round);
    const sector = size < AHEAD_deg ? 0 : size < SIDE_deg[0] || size > SIDE_deg[1] ? -1 : round > 0 ? 1 : 2;
    if (sector < 0) continue;
    triangleState(membrane, x, t, state);
    for (let i = 0; i < 3; i++) normals[sector][i] += area_mm2[t] * state.axes[6 + i];
  }
  return Math.max(angleBetween(normals[0], normals[1]), angleBetween(normals[0], normals[2]));
}

function angleBetween(a: Float64Array, b: Float64Array): number {
  const size = hypot(a[0], a[1], a[2]) * hypot(b[0], b[1], b[2]);
  if (!(size > 0)) return 0;
  const cos = (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / size;
  return acos(Math.min(1, Math.max(-1, cos))) * DEG;
}

/**
 * Opening and shearing intensity of a tip from the line tensions in a ring round it: least squares of the first five terms of
 * the crack-tip series (Williams 1957) over the triangles of the ring that lie ahead and to the sides. The tensions are those
 * of Biot in the axes of the unloaded sheet, which turning and folding do not change. For taut sheets of small strain; in
 * a soft sheet it describes the tensions by the nearest linear field, and `misfit` tells how near that is.
 */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { createTriangleState, type Membrane, type TriangleState, triangleState } from '../membrane/membrane.ts';

export interface RingTip {
  /** Place in the unloaded sheet, mm, and unit forward tangent. */
  readonly x: number;
  readonly y: number;
  readonly tx: number;
  readonly ty: number;
}

export interface RingFit {
  /** mN/mm times the root of mm: line tension, so that J = (KI^2 + KII^2)/(E t) in mN. */
  readonly KI: number;
  readonly KII: number;
  /** Even tension along the tear, mN/mm. */
  readonly T: number;
  /** Root of the weighted squares left over, as a share of those fitted; 0 is perfect. */
  readonly misfit: number;
  readonly triangles: number;
}

/** Triangles farther round than this are left out: the faces themselves, and a flap's own tensions. */
export const RING_REACH_deg = 100;
const TERMS = 5;
/** Fewest triangles that a fit is made from: three tensions each, against five terms. */
const FEWEST = 8;

/** Tensions xx, yy, xy of each term at (r, th), 15 numbers: KI, KII, T, and the two that grow as the root of r. */
export function termsAt(r: number, th: number, out: Float64Array): void {
  const [c, s] = [cos(th / 2), sin(th / 2)];
  const [c3, s3] = [cos(1.5 * th), sin(1.5 * th)];
  const root = 1 / Math.sqrt(2 * Math.PI * r);
  const grow = 1.5 * Math.sqrt(r);
  out.set([root * c * (1 - s * s3), root * c * (1 + s * s3), root * c * s * c3], 0);
  out.set([-root * s * (2 + c * c3), root * s * c * c3, root * c * (1 - s * s3)], 3);
  out.set([1, 0, 0], 6);
  out.set([grow * (2.5 * c - 0.5 * c3), grow * (1.5 * c + 0.5 * c3), -0.5 * grow * (s + s3)], 9);
  out.set([-grow * (4.5 * s + 0.5 * s3), 0.5 * grow * (s + s3), -grow * (2.5 * c - 0.5 * c3)], 12);
}

/** Where a triangle's middle lies in the unloaded sheet, seen from a tip: distance, mm, and angle from the tangent, radians. */
export function fromTip(membrane: Membrane, tip: RingTip, t: number, seen: { r: number; th: number }): void {
  const { triangle, reference_mm } = membrane;
  let dx = -tip.x;
  let dy = -tip.y;
  for (let k = 0; k < 3; k++) {
    dx += reference_mm[triangle[t * 3 + k] * 2] / 3;
    dy += reference_mm[triangle[t * 3 + k] * 2 + 1] / 3;
  }
  seen.r = hypot(dx, dy);
  seen.th = atan2(tip.tx * dy - tip.ty * dx, tip.tx * dx + tip.ty * dy);
}

/** Normal equations of the fit, and the weighted square of what is fitted. */
interface Sums {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  square: number;
  triangles: number;
}

/** Biot tensions xx, yy, xy of a triangle in the tip's axes. */
function tensionsInAxes(state: TriangleState, tx: number, ty: number): [number, number, number] {
  const { tension1_mN_per_mm: a, tension2_mN_per_mm: b } = state;
  // first principal axis in the tip's axes
  const c = state.cos * tx + state.sin * ty;
  const s = state.sin * tx - state.cos * ty;
  return [a * c * c + b * s * s, a * s * s + b * c * c, (a - b) * c * s];
}

/** Adds one triangle, weighted by area times r, so that each stands for its own share of K. */
function addTriangle(sums: Sums, terms: Float64Array, tension: readonly number[], weight: number): void {
  const { matrix, right } = sums;
  for (let k = 0; k < 3; k++) {
    // the shear counts twice, as in an energy
    const w = k === 2 ? 2 * weight : weight;
    for (let i = 0; i < TERMS; i++) {
      right[i] += w * terms[i * 3 + k] * tension[k];
      for (let j = 0; j < TERMS; j++) matrix[i * TERMS + j] += w * terms[i * 3 + k] * terms[j * 3 + k];
    }
    sums.square += w * tension[k] * tension[k];
  }
  sums.triangles++;
}

/**
 * Fits the ring from `inner_mm` to `outer_mm` round a tip. A ring of 0.05 to 0.25 of the tear's radius serves for an arc; its inner
 * edge should lie three elements from the tip. @returns null where too few triangles lie in it, or nothing can be told apart
 */
export function ringFit(
  membrane: Membrane,
  x: Float64Array,
  tip: RingTip,
  inner_mm: number,
  outer_mm: number,
): RingFit | null {
  const { area_mm2, triangleCount } = membrane;
  const seen = { r: 0, th: 0 };
  const sums: Sums = {
    matrix: new Float64Array(TERMS * TERMS),
    right: new Float64Array(TERMS),
    square: 0,
    triangles: 0,
  };
  const terms = new Float64Array(3 * TERMS);
  const state = createTriangleState();
  const reach = (RING_REACH_deg * Math.PI) / 180;
  for (let t = 0; t < triangleCount; t++) {
    fromTip(membrane, tip, t, seen);
    const { r, th } = seen;
    if (r < inner_mm || r > outer_mm || Math.abs(th) > reach) continue;
    triangleState(membrane, x, t, state);
    termsAt(r, th, terms);
    addTriangle(sums, terms, tensionsInAxes(state, tip.tx, tip.ty), area_mm2[t] * r);
  }
  return sums.triangles < FEWEST ? null : solveFit(sums);
}

function solveFit({ matrix, right, square, triangles }: Sums): RingFit | null {
  const m = matrix.slice();
  const v = right.slice();
  const size = Math.max(...m);
  for (let i = 0; i < TERMS; i++) {
    // positive definite unless terms cannot be told apart: no exchange of rows is needed
    const pivot = m[i * TERMS + i];
    if (!(pivot > 1e-12 * size)) return null;
    for (let j = i + 1; j < TERMS; j++) {
      const factor = m[j * TERMS + i] / pivot;
      for (let k = i; k < TERMS; k++) m[j * TERMS + k] -= factor * m[i * TERMS + k];
      v[j] -= factor * v[i];
    }
  }
  const a = new Float64Array(TERMS);
  for (let i = TERMS - 1; i >= 0; i--) {
    let sum = v[i];
    for (let k = i + 1; k < TERMS; k++) sum -= m[i * TERMS + k] * a[k];
    a[i] = sum / m[i * TERMS + i];
  }
  let explained = 0;
  for (let i = 0; i < TERMS; i++) explained += a[i] * right[i];
  const misfit = square > 0 ? Math.sqrt(Math.max(0, square - explained) / square) : 0;
  return { KI: a[0], KII: a[1], T: a[2], misfit, triangles };
}

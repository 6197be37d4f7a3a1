/** Slit sheets for the checks of the tip force: strips on a grid, and lines and arcs in a wide disc of the product's mesher. */
import { cos, sin } from '../core/elementary/circular.ts';
import { linearPlaneStress, type Material } from '../membrane/material.ts';
import { createTipPatch, tipForce } from '../tear/tip-force.ts';
import { type DiscSample, discSample, pullRim, tearThrough } from './disc-sample.ts';
import { type Sample, settle, THICKNESS_mm } from './sample.ts';
import { gradedLines, pullEdges, type StripSample, stripSample } from './strip-sample.ts';

/** Edge of the elements at a tip over the slit's length a. */
export const TIP_EDGE = 1 / 50;
/** Patch of the tip force round a straight slit, in tip edges: its outer radius is 0.4 a. */
export const WIDE_PATCH: readonly [number, number] = [1.1, 20];
export const GROWTH = 1.15;
/** A strip with one slit bends, which triangles of even strain resist: its mesh grows more slowly. */
const EDGE_GROWTH = 1.06;

/** E t of the linear sheets, mN/mm, and the far tension, mN/mm: strains of 0.1 %. */
export const S = 1000;
export const N0 = 1;
export const linear = /* @__PURE__ */ linearPlaneStress(S / THICKNESS_mm, 0.5);

/** The product's tip force at a node, mN. `patch` in tip edges; a curved slit needs the product's own, which is small. */
export function forceAt(sample: Sample, node: number, edge_mm: number, patch = WIDE_PATCH): [number, number] {
  const { membrane } = sample.body;
  return tipForce(membrane, createTipPatch(membrane, node, patch[0] * edge_mm, patch[1] * edge_mm), sample.x);
}

export interface StripOptions {
  readonly material?: Material;
  /** How much finer than usual the whole mesh is, 1 or more. */
  readonly finer?: number;
}

/** Strip pulled along y with a slit of half-length 1 across its middle (b half its width) or of length 1 at its left edge. */
export function slitStrip(b: number, at: 'centre' | 'edge', options: StripOptions = {}): StripSample {
  const { material = linear, finer = 1 } = options;
  const growth = (at === 'centre' ? GROWTH : EDGE_GROWTH) ** (1 / finer);
  const edge = TIP_EDGE / finer;
  // one and a half widths to either side
  const long = at === 'centre' ? 3 * b : 1.5 * b;
  const ys = gradedLines(-long, long, [0], edge, growth);
  const xs = at === 'centre' ? gradedLines(-b, b, [-1, 1], edge, growth) : gradedLines(0, b, [1], edge, growth);
  return stripSample(xs, ys, at === 'centre' ? [-1, 1] : [0, 1], material, { tensionField: false });
}

/** Node of the right tip of a slit strip whose slit has its usual length. */
export const rightTip = (strip: StripSample): number => strip.node(strip.column(1), strip.ys.indexOf(0));

/** Brings a slit strip of linear sheet to rest under the line tension N along y. */
export function pullStrip(strip: StripSample, N: number): void {
  // from the stretched state, which keeps a strip with one slit from swinging round
  for (let i = 0; i < strip.x.length; i += 3) {
    strip.x[i] *= 1 - (0.5 * N) / S;
    strip.x[i + 1] *= 1 + N / S;
  }
  pullEdges(strip, N);
  settle(strip, { tolerance_mN: 1e-6 * N });
}

export interface LineOptions {
  readonly material?: Material;
  readonly finer?: number;
}

/** A line with two live ends in a wide disc of linear sheet under a far tension, at rest. */
export function lineInDisc(
  points: number[],
  radius_mm: number,
  edge: number,
  Nx: number,
  Ny: number,
  { material = linear, finer = 1 }: LineOptions = {},
): DiscSample {
  const disc = discSample(
    {
      radius_mm,
      tears: [tearThrough(points, 'live', 'live')],
      tip_mm: edge / finer,
      face_mm: (2 * edge) / finer,
      far_mm: radius_mm / 8 / finer,
      rim_mm: radius_mm / 12 / finer,
      growth: 0.15 / finer,
      tensionField: false,
    },
    material,
  );
  pullRim(disc, Nx, Ny);
  settle(disc, { tolerance_mN: 1e-6 * Math.max(Nx, Ny) });
  return disc;
}

/** Node at the end of the first tear of a disc. */
export function endTip(disc: DiscSample): number {
  const face = disc.mesh.left[0];
  return face[face.length - 1];
}

/** Points of a straight slit of half-length 1 through the middle, at an angle to x. */
export function slantedPoints(slant_deg: number): number[] {
  const be = (slant_deg * Math.PI) / 180;
  const count = Math.round(1 / TIP_EDGE);
  const points: number[] = [];
  for (let k = -count; k <= count; k++) points.push((k / count) * cos(be), (k / count) * sin(be));
  return points;
}

/** Tip edge at an arc of radius 1: a fiftieth of the half-length of the shortest. */
export const ARC_TIP_EDGE = (TIP_EDGE * Math.PI) / 4;

/** Points of an arc of radius 1 and half-angle `half_deg` about +x, from below to above. */
export function arcPoints(half_deg: number, edge = ARC_TIP_EDGE): number[] {
  const half = (half_deg * Math.PI) / 180;
  const count = Math.round((2 * half) / edge);
  const points: number[] = [];
  for (let k = 0; k <= count; k++) {
    const angle = -half + (2 * half * k) / count;
    points.push(cos(angle), sin(angle));
  }
  return points;
}

/** A vector at the upper end of an arc of half-angle `half_deg`: its part along the forward tangent and inward. */
export function alongAndInward(vector: readonly [number, number], half_deg: number): [number, number] {
  const half = (half_deg * Math.PI) / 180;
  const [x, y] = vector;
  return [-x * sin(half) + y * cos(half), -x * cos(half) - y * sin(half)];
}

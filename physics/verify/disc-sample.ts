/** Round samples from the product's mesher: loads and clamps on the rim, holes, slits. */
import { cos, sin } from '../core/elementary/circular.ts';
import { log2 } from '../core/elementary/logarithm.ts';
import type { Material } from '../membrane/material.ts';
import { ENERGY_SLOTS, W1 } from '../membrane/material.ts';
import { buildDiscMesh, type DiscMesh } from '../mesh/disc-mesh.ts';
import type { EndKind, TearLine } from '../mesh/tear-line.ts';
import { createSample, edgeStretch, type Sample, type SampleOptions } from './sample.ts';

export interface DiscSample extends Sample {
  readonly mesh: DiscMesh;
  readonly radius_mm: number;
}

export interface DiscRequest extends SampleOptions {
  readonly radius_mm: number;
  readonly tears: readonly TearLine[];
  readonly grips?: readonly (readonly [number, number])[];
  /** Size of the first ring at live tips; the tear's own vertices are the caller's. */
  readonly tip_mm: number;
  readonly face_mm: number;
  readonly far_mm: number;
  readonly rim_mm: number;
  /** Growth of the wished size per length; 0.15 unless given. */
  readonly growth?: number;
}

export function discSample(request: DiscRequest, material: Material): DiscSample {
  const { tip_mm, face_mm, far_mm, rim_mm, growth = 0.15, radius_mm, tears, grips = [] } = request;
  const levels = Math.max(0, Math.ceil(log2(far_mm / (1.15 * face_mm))));
  const sizes = { tip_mm, face_mm, far_mm, rim_mm, growth, levels };
  const mesh = buildDiscMesh({ radius_mm, tears, grips, sizes });
  return { mesh, radius_mm, ...createSample(mesh.reference_mm, mesh.triangle, material, request) };
}

export function tearThrough(points: number[], startKind: EndKind, endKind: EndKind, id = 0): TearLine {
  return { id, points, startKind, endKind };
}

/** A closed tear round a circle: what it holds hangs free, which makes a hole of it. */
export function circleTear(radius_mm: number, vertices: number, id = 0): TearLine {
  const points: number[] = [];
  for (let k = 0; k < vertices; k++) {
    const angle = (2 * Math.PI * k) / vertices;
    points.push(radius_mm * cos(angle), radius_mm * sin(angle));
  }
  points.push(points[0], points[1]);
  return tearThrough(points, 'joined', 'joined', id);
}

/** Rim nodes with the length of rim that each stands for under an even tension. */
export function eachRimNode(
  sample: DiscSample,
  visit: (node: number, cos: number, sin: number, arc_mm: number) => void,
): void {
  const { rimCount } = sample.mesh;
  const arc_mm = sample.radius_mm * sin((2 * Math.PI) / rimCount);
  for (let k = 0; k < rimCount; k++) {
    const angle = (2 * Math.PI * k) / rimCount;
    visit(k, cos(angle), sin(angle), arc_mm);
  }
}

/** Dead load of a far line tension (Nx along x, Ny along y, mN/mm) on the rim. */
export function pullRim(sample: DiscSample, Nx: number, Ny = Nx): void {
  eachRimNode(sample, (node, cos, sin, arc) => {
    sample.body.load[node * 3] += Nx * arc * cos;
    sample.body.load[node * 3 + 1] += Ny * arc * sin;
  });
}

/** Mean stretch of the outer margin of the first tear (a closed circle) round its way. */
export function marginStretch(sample: DiscSample, tear = 0): number {
  const face = sample.mesh.right[tear];
  let sum = 0;
  for (let s = 0; s < face.length; s += 2) sum += edgeStretch(sample, face[s], face[s + 1]);
  return (2 * sum) / face.length;
}

/** Nominal tension along a free edge that is stretched by l, mN/mm, from the sample's material: no force across it. */
export function freeEdgeTension(sample: Sample, l: number): number {
  const { material, thickness_mm } = sample.body.membrane;
  const out = new Float64Array(ENERGY_SLOTS);
  material.evaluate(l, material.naturalWidth(l), out);
  return out[W1] * thickness_mm;
}

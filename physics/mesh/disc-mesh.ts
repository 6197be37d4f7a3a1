/** The triangle mesh of the reference disc, split along the tears. */
import Constrainautor from '@kninnug/constrainautor';
import Delaunator from 'delaunator';
import { Unmeshable } from '../core/unmeshable.ts';
import { layPoints, type MeshRequest, type PointCloud, type Stem } from './point-cloud.ts';

export interface DiscMesh {
  readonly nodeCount: number;
  /** 2 per node, mm. */
  readonly reference_mm: Float64Array;
  /** 3 per triangle, counter-clockwise. */
  readonly triangle: Int32Array;
  /** 1 per node; copies made by splitting have the stem of their original. */
  readonly stem: readonly Stem[];
  readonly key: readonly number[];
  /** Nodes on the rim in order of angle; a tear that meets the rim splits one, and the first copy stands here. */
  readonly rimCount: number;
  /**
   * For each tear, per segment, the nodes at its two ends on the left and on the right:
   * left[2 s], left[2 s + 1] for segment s.
   */
  readonly left: readonly Int32Array[];
  readonly right: readonly Int32Array[];
  /** Node of each grip. */
  readonly gripNode: readonly number[];
}

/** Twice the area below which a triangle is a flat remainder on the hull and is dropped, mm^2. */
const FLAT_MM2 = 1e-9;

export function buildDiscMesh(request: MeshRequest): DiscMesh {
  const cloud = layPoints(request);
  const triangle = triangulate(cloud);
  return splitAlongTears(cloud, triangle);
}

/** Constrained Delaunay triangulation of the cloud; every tear segment is an edge. */
function triangulate(cloud: PointCloud): Int32Array {
  const place = Float64Array.from(cloud.place);
  const delaunay = new Delaunator(place);
  const constraints = new Constrainautor(delaunay as never);
  try {
    for (const points of cloud.tearPoint)
      for (let k = 0; k + 1 < points.length; k++)
        if (points[k] !== points[k + 1]) constraints.constrainOne(points[k], points[k + 1]);
    constraints.delaunify(true);
  } catch (cause) {
    // the library's word for segments that cross or run through a point
    throw new Unmeshable('the tear segments cannot all be edges of one mesh', { cause });
  }
  const out: number[] = [];
  const { triangles } = delaunay;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const twice =
      (place[b * 2] - place[a * 2]) * (place[c * 2 + 1] - place[a * 2 + 1]) -
      (place[b * 2 + 1] - place[a * 2 + 1]) * (place[c * 2] - place[a * 2]);
    if (twice > FLAT_MM2) out.push(a, b, c);
    else if (twice < -FLAT_MM2) out.push(a, c, b);
  }
  return Int32Array.from(out);
}

/**
 * Gives every node on a tear one copy per group of triangles that hang together across uncut edges round it.
 * This covers tips (one group), faces (two), meetings and branches (more) alike.
 */
function splitAlongTears(cloud: PointCloud, triangle: Int32Array): DiscMesh {
  const count = cloud.stem.length;
  const cut = new Set<number>();
  const onTear = new Uint8Array(count);
  for (const points of cloud.tearPoint)
    for (let k = 0; k + 1 < points.length; k++) {
      cut.add(edgeKey(points[k], points[k + 1], count));
      onTear[points[k]] = 1;
      onTear[points[k + 1]] = 1;
    }
  const place = cloud.place.slice();
  const stem = cloud.stem.slice();
  const key = cloud.key.slice();
  const split = Int32Array.from(triangle);
  for (const [node, fan] of fansOf(triangle, onTear)) {
    const groups = fanGroups(node, fan, triangle, cut, count);
    for (let g = 1; g < groups.length; g++) {
      const copy = stem.length;
      place.push(place[node * 2], place[node * 2 + 1]);
      stem.push(stem[node]);
      key.push(key[node]);
      for (const t of groups[g]) for (let k = 0; k < 3; k++) if (triangle[t * 3 + k] === node) split[t * 3 + k] = copy;
    }
  }
  const { left, right } = facesOf(cloud, triangle, split, onTear);
  return {
    nodeCount: stem.length,
    reference_mm: Float64Array.from(place),
    triangle: split,
    stem,
    key,
    rimCount: cloud.rimCount,
    left,
    right,
    gripNode: cloud.gripPoint,
  };
}

const edgeKey = (a: number, b: number, count: number): number => Math.min(a, b) * count + Math.max(a, b);

function fansOf(triangle: Int32Array, onTear: Uint8Array): Map<number, number[]> {
  const fans = new Map<number, number[]>();
  for (let t = 0; t < triangle.length / 3; t++)
    for (let k = 0; k < 3; k++) {
      const node = triangle[t * 3 + k];
      if (!onTear[node]) continue;
      const fan = fans.get(node);
      if (fan) fan.push(t);
      else fans.set(node, [t]);
    }
  return fans;
}

function fanGroups(node: number, fan: number[], triangle: Int32Array, cut: Set<number>, count: number): number[][] {
  const groups: number[][] = [];
  const left = new Set(fan);
  const others = (t: number) => [0, 1, 2].map((k) => triangle[t * 3 + k]).filter((n) => n !== node);
  for (const seed of fan) {
    if (!left.delete(seed)) continue;
    const group = [seed];
    for (let k = 0; k < group.length; k++)
      for (const other of others(group[k])) {
        if (cut.has(edgeKey(node, other, count))) continue;
        for (const t of left)
          if (others(t).includes(other)) {
            left.delete(t);
            group.push(t);
          }
      }
    groups.push(group);
  }
  return groups;
}

/** Nodes of each tear segment on its left (the triangle that runs along it) and on its right. */
function facesOf(cloud: PointCloud, triangle: Int32Array, split: Int32Array, onTear: Uint8Array) {
  const count = cloud.stem.length;
  const directed = new Map<number, number>();
  for (let t = 0; t < triangle.length / 3; t++)
    for (let k = 0; k < 3; k++) {
      const a = triangle[t * 3 + k];
      const b = triangle[t * 3 + ((k + 1) % 3)];
      if (onTear[a] && onTear[b]) directed.set(a * count + b, t * 3 + k);
    }
  const left: Int32Array[] = [];
  const right: Int32Array[] = [];
  for (const points of cloud.tearPoint) {
    const l = new Int32Array(2 * (points.length - 1));
    const r = new Int32Array(2 * (points.length - 1));
    for (let s = 0; s + 1 < points.length; s++) {
      const along = directed.get(points[s] * count + points[s + 1]);
      const back = directed.get(points[s + 1] * count + points[s]);
      if (along === undefined || back === undefined)
        throw new Unmeshable(`tear segment ${s} is not an inner edge of the mesh`);
      l[2 * s] = split[along];
      l[2 * s + 1] = copyNext(split, along);
      r[2 * s + 1] = split[back];
      r[2 * s] = copyNext(split, back);
    }
    left.push(l);
    right.push(r);
  }
  return { left, right };
}

const copyNext = (split: Int32Array, corner: number): number => split[corner - (corner % 3) + (((corner % 3) + 1) % 3)];

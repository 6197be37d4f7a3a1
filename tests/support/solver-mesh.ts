/** The flat mesh of a sample, as another program can read it: used nodes only, with its outer and inner edges. */
import type { DiscSample } from '../../physics/verify/disc-sample.ts';
import type { Sample } from '../../physics/verify/sample.ts';
import type { StripSample } from '../../physics/verify/strip-sample.ts';

export interface FlatMesh {
  /** x,y per node. */
  readonly place: readonly (readonly [number, number])[];
  /** Three nodes per triangle, counter-clockwise. */
  readonly triangle: readonly (readonly [number, number, number])[];
  /** Edges of one triangle only, in its direction, with a label. */
  readonly edge: readonly (readonly [number, number, number])[];
  /** Number here of a node of the sample, -1 where it is left out. */
  readonly from: Int32Array;
}

/** Decimals of every coordinate that is written: enough for a mesh, few enough to be the same on every machine. */
export const DECIMALS = 10;
export const written = (value: number): string => (Object.is(value, -0) ? 0 : value).toFixed(DECIMALS);

type Label = (ax: number, ay: number, bx: number, by: number) => number;

function flatMesh(sample: Sample, keep: (cx: number, cy: number) => boolean, label: Label): FlatMesh {
  const { triangle, reference_mm, nodeCount } = sample.body.membrane;
  const from = new Int32Array(nodeCount).fill(-1);
  const place: [number, number][] = [];
  const kept: [number, number, number][] = [];
  const at = (node: number): [number, number] => [reference_mm[node * 2], reference_mm[node * 2 + 1]];
  for (let t = 0; t < triangle.length; t += 3) {
    const corners = [triangle[t], triangle[t + 1], triangle[t + 2]];
    const centre = [0, 1].map((axis) => corners.reduce((sum, node) => sum + at(node)[axis] / 3, 0));
    if (!keep(centre[0], centre[1])) continue;
    for (const node of corners) if (from[node] < 0) from[node] = place.push(at(node)) - 1;
    kept.push(corners.map((node) => from[node]) as [number, number, number]);
  }
  return { place, triangle: kept, edge: outerEdges(kept, place, label), from };
}

function outerEdges(
  triangle: FlatMesh['triangle'],
  place: FlatMesh['place'],
  label: Label,
): [number, number, number][] {
  const directed = new Set<number>();
  const sides = triangle.flatMap(([a, b, c]): [number, number][] => [
    [a, b],
    [b, c],
    [c, a],
  ]);
  for (const [a, b] of sides) directed.add(a * place.length + b);
  return sides
    .filter(([a, b]) => !directed.has(b * place.length + a))
    .map(([a, b]) => [a, b, label(...place[a], ...place[b])]);
}

export const RIM = 1;
export const HOLE = 2;

/** The ring between a round hole of radius 1 and the rim. */
export const annulusMesh = (disc: DiscSample): FlatMesh =>
  flatMesh(
    disc,
    (x, y) => Math.hypot(x, y) > 1,
    (ax, ay) => (Math.hypot(ax, ay) > 0.5 * (1 + disc.radius_mm) ? RIM : HOLE),
  );

export const LOWER = 1;
export const UPPER = 2;
export const FREE = 3;

/** A strip; its lower and upper edges are told from the rest, slit faces included. */
export function stripMesh(strip: StripSample): FlatMesh {
  const [bottom, top] = [strip.ys[0], strip.ys[strip.ys.length - 1]];
  return flatMesh(
    strip,
    () => true,
    (_ax, ay, _bx, by) => (ay === bottom && by === bottom ? LOWER : ay === top && by === top ? UPPER : FREE),
  );
}

/** How far the two faces of a slit along y = 0 are drawn apart in a mesh file; less than the first row of elements. */
export const GAPE = 1e-3;

/**
 * The mesh in FreeFem++'s own text form; nodes count from 1. It takes no place twice, so the upper face of a slit along
 * y = 0 is written `GAPE` higher; the deck puts it back.
 */
export function asMsh({ place, triangle, edge }: FlatMesh): string {
  const lines = [`${place.length} ${triangle.length} ${edge.length}`];
  const taken = new Set<string>();
  for (const [x, y] of place) taken.add(`${x},${y}`);
  const twice = place.length > taken.size;
  const onFace = new Set<number>();
  if (twice) for (const [a, b] of edge) if (place[a][1] === 0 && place[b][1] === 0) onFace.add(a).add(b);
  const count = new Map<string, number>();
  for (const [x, y] of place) count.set(`${x},${y}`, (count.get(`${x},${y}`) ?? 0) + 1);
  const upper = upperFace(triangle, place, onFace);
  place.forEach(([x, y], node) => {
    const lifted = upper.has(node) && count.get(`${x},${y}`) === 2;
    lines.push(`${written(x)} ${written(lifted ? y + GAPE : y)} 0`);
  });
  for (const [a, b, c] of triangle) lines.push(`${a + 1} ${b + 1} ${c + 1} 0`);
  for (const [a, b, label] of edge) lines.push(`${a + 1} ${b + 1} ${label}`);
  return `${lines.join('\n')}\n`;
}

/** Nodes of a slit face whose triangles lie above it. */
function upperFace(triangle: FlatMesh['triangle'], place: FlatMesh['place'], onFace: Set<number>): Set<number> {
  const upper = new Set<number>();
  for (const nodes of triangle)
    for (const node of nodes) if (onFace.has(node) && nodes.some((other) => place[other][1] > 0)) upper.add(node);
  return upper;
}

/** Six-node triangles: the corners, then the middles of the sides, which two triangles share where they share both ends. */
export function withMiddles({ place, triangle }: FlatMesh): {
  place: (readonly [number, number])[];
  element: number[][];
} {
  const all = [...place];
  const middle = new Map<string, number>();
  const between = (a: number, b: number): number => {
    const name = a < b ? `${a},${b}` : `${b},${a}`;
    let node = middle.get(name);
    if (node === undefined) {
      node = all.push([0.5 * (place[a][0] + place[b][0]), 0.5 * (place[a][1] + place[b][1])]) - 1;
      middle.set(name, node);
    }
    return node;
  };
  const element = triangle.map(([a, b, c]) => [a, b, c, between(a, b), between(b, c), between(c, a)]);
  return { place: all, element };
}

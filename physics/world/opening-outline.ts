/** The margin of the opening: the boundary of the rim-held piece other than its rim. */
import type { World } from './state.ts';

/** Closed loops of node indices round the holes of the rim-held piece, without repeating the first node. */
export function openingLoops(world: World): number[][] {
  const { mesh, piece } = world;
  const { triangle, nodeCount } = mesh;
  const edges = new Map<number, [number, number]>();
  for (let t = 0; t < piece.length; t++) {
    if (piece[t] !== 0) continue;
    for (let k = 0; k < 3; k++) {
      const a = triangle[t * 3 + k];
      const b = triangle[t * 3 + ((k + 1) % 3)];
      if (!edges.delete(b * nodeCount + a)) edges.set(a * nodeCount + b, [a, b]);
    }
  }
  const next = new Map<number, number>();
  for (const [a, b] of edges.values()) if (!(mesh.stem[a] === 'rim' && mesh.stem[b] === 'rim')) next.set(a, b);
  const loops: number[][] = [];
  while (next.size > 0) {
    const first = next.keys().next().value as number;
    const loop: number[] = [];
    let at: number | undefined = first;
    while (at !== undefined && next.has(at)) {
      loop.push(at);
      const following: number = next.get(at)!;
      next.delete(at);
      at = following;
    }
    if (at === first && loop.length > 2) loops.push(loop);
  }
  return loops;
}

/**
 * A closed loop of places without the ways that go out and come back over the same places: a tear that went on past where another one
 * met it leaves such a slit in the margin, which bounds nothing. Places are equal when `placeOf` gives the same word.
 */
export function withoutSpurs<T>(loop: readonly T[], placeOf: (item: T) => string): T[] {
  const kept: T[] = [];
  for (const item of loop) {
    const place = placeOf(item);
    const before = kept.at(-2);
    if (before !== undefined && placeOf(before) === place) kept.pop();
    else if (kept.length === 0 || placeOf(kept[kept.length - 1]) !== place) kept.push(item);
  }
  // the loop may have begun within a spur
  while (kept.length > 2) {
    const [first, second] = [placeOf(kept[0]), placeOf(kept[1])];
    const [last, beforeLast] = [placeOf(kept[kept.length - 1]), placeOf(kept[kept.length - 2])];
    if (first === last) kept.pop();
    else if (second === last) kept.shift();
    else if (first === beforeLast) kept.pop();
    else break;
  }
  return kept;
}

/** The largest hole's outline in the eye frame, counter-clockwise, mm; null when there is none. */
export function openingOutline(world: World): [number, number][] | null {
  let best: [number, number][] | null = null;
  let largest = 0;
  const { reference_mm } = world.mesh;
  const placeOf = (node: number) => `${reference_mm[node * 2]} ${reference_mm[node * 2 + 1]}`;
  for (const loop of openingLoops(world)) {
    const points = withoutSpurs(loop, placeOf).map((node): [number, number] => [
      world.x[node * 3],
      world.x[node * 3 + 1],
    ]);
    const area = signedArea(points);
    if (Math.abs(area) <= largest) continue;
    largest = Math.abs(area);
    best = area < 0 ? points.reverse() : points;
  }
  return best;
}

export function signedArea(points: readonly (readonly [number, number])[]): number {
  let sum = 0;
  for (let k = 0; k < points.length; k++) {
    const [ax, ay] = points[k];
    const [bx, by] = points[(k + 1) % points.length];
    sum += ax * by - ay * bx;
  }
  return 0.5 * sum;
}

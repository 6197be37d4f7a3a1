/**
 * The mesh of the virtual extensions: round a tip a web of straight spokes, each a line along which the tear could go on. All
 * spokes are split and welded again but for the one that is opened, so that every direction, and the tear as it is, are
 * computed on the same triangles: what differs between them is the opening and not the mesh.
 */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { buildDiscMesh, type DiscMesh } from '../mesh/disc-mesh.ts';
import type { MeshRequest } from '../mesh/point-cloud.ts';
import { type TearLine, type TipRef, tipFrame } from '../mesh/tear-line.ts';

/**
 * Radii of the web over the length of the extension: four elements within it, growing outside. The first is longer than the others,
 * because the tip as it is has thin wedges all round and the new one has not: so both ends of the extension are as well
 * resolved, and what their elements leave of the energy cancels. Straight ahead that gives the known answers to 1 %; with four
 * equal elements 3 to 6 % were missing.
 */
const WITHIN = [0.4, 0.6, 0.8, 1] as const;
const BEYOND = [1.25, 1.6, 2.1, 2.75, 3.6, 4.7, 6.2] as const;
/**
 * Each spoke is longer than the one before by this share. Four nodes of two neighbours lie on one circle, so that their diagonal is a
 * matter of rounding; the spiral turns all diagonals the same way, and no direction is favoured by its mesh (without it 2 %).
 */
const SPIRAL = 1e-6;
/** The web takes in this much to either side of the tangent; the faces close it behind. */
export const WEB_REACH_deg = 150;
/** A spoke ends where it would come nearer to a tear than this share of its length, to the rim or to a grip. */
const CLEAR_SHARE = 0.2;
const CLEAR_OF_GRIP = 1.6;

export interface SpokeMesh {
  /** Split along every spoke. */
  readonly split: DiscMesh;
  /** The tears as they are, with finer vertices just behind the tip. */
  readonly tears: readonly TearLine[];
  /** Angle of each spoke from the tangent, radians. */
  readonly angles: readonly number[];
  /** Index of the first spoke among the faces of `split`. */
  readonly first: number;
}

/** A mesh in which at most one spoke is open. */
export interface WeldedMesh {
  readonly mesh: DiscMesh;
  /** Node in `mesh` of each node of the split mesh. */
  readonly nodeOf: Int32Array;
}

/**
 * Lays the web round a tip. Spokes that meet a tear, the rim or a grip within the extension are left out.
 *
 * @param extension_mm length of the virtual extension, in the unloaded disc
 * @param spacing_deg angle between spokes, a divisor of WEB_REACH_deg
 */
export function buildSpokeMesh(
  request: MeshRequest,
  tip: TipRef,
  extension_mm: number,
  spacing_deg: number,
  span_mm: number,
): SpokeMesh {
  const { x, y, tx, ty } = tipFrame(tip, span_mm);
  const tears = request.tears.map((tear) => (tear === tip.tear ? refined(tip, extension_mm) : tear));
  const angles: number[] = [];
  const spokes: TearLine[] = [];
  const count = Math.round(WEB_REACH_deg / spacing_deg);
  for (let k = -count; k <= count; k++) {
    const angle = (k * spacing_deg * Math.PI) / 180;
    const c = cos(angle) * tx - sin(angle) * ty;
    const s = sin(angle) * tx + cos(angle) * ty;
    const points = [x, y];
    for (const radius of [...WITHIN, ...BEYOND]) {
      const r = radius * extension_mm * (1 + SPIRAL * k);
      const [px, py] = [x + r * c, y + r * s];
      if (!isClear(request, px, py, r)) break;
      points.push(px, py);
    }
    if (points.length / 2 <= WITHIN.length) continue;
    angles.push(angle);
    spokes.push({ id: -1 - angles.length, points, startKind: 'joined', endKind: 'blunt' });
  }
  const split = buildDiscMesh({ ...request, tears: [...tears, ...spokes] });
  return { split, tears, angles, first: tears.length };
}

/** The tip's tear with vertices put into its last stretch as close as the spokes' own, and no rings of its own. */
function refined({ tear, atEnd }: TipRef, extension_mm: number): TearLine {
  const { points } = tear;
  const count = points.length / 2;
  const at = (k: number): [number, number] => {
    const p = 2 * (atEnd ? count - 1 - k : k);
    return [points[p], points[p + 1]];
  };
  const wanted = [...WITHIN, ...BEYOND].map((radius) => radius * extension_mm);
  const line: [number, number][] = [at(0)];
  let passed = 0;
  for (let k = 1; k < count; k++) {
    const [ax, ay] = at(k - 1);
    const [bx, by] = at(k);
    const length = hypot(bx - ax, by - ay);
    let before = passed;
    for (const s of wanted) {
      const next = wanted.find((other) => other > s) ?? s + extension_mm;
      const gap = 0.5 * (next - s);
      if (s <= before + gap || s >= passed + length - gap) continue;
      const u = (s - passed) / length;
      line.push([ax + u * (bx - ax), ay + u * (by - ay)]);
      before = s;
    }
    line.push([bx, by]);
    passed += length;
  }
  if (atEnd) line.reverse();
  const kind = atEnd ? { endKind: 'blunt' as const } : { startKind: 'blunt' as const };
  return { ...tear, points: line.flat(), ...kind };
}

/** Whether a spoke may reach a place at the distance r from the tip. */
function isClear({ tears, grips, radius_mm, sizes }: MeshRequest, x: number, y: number, r: number): boolean {
  if (hypot(x, y) > radius_mm - Math.max(0.5 * sizes.rim_mm, CLEAR_SHARE * r)) return false;
  for (const [gx, gy] of grips) if (hypot(x - gx, y - gy) < CLEAR_OF_GRIP * sizes.face_mm) return false;
  for (const { points } of tears)
    for (let k = 0; k + 3 < points.length; k += 2) {
      const [ax, ay] = [points[k], points[k + 1]];
      const [dx, dy] = [points[k + 2] - ax, points[k + 3] - ay];
      const u = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
      if (hypot(x - ax - u * dx, y - ay - u * dy) < CLEAR_SHARE * r) return false;
    }
  return true;
}

/** Closes every spoke but the first `WITHIN` segments of spoke `open`; null closes all, which is the tear as it is. */
export function weldSpokes({ split, first }: SpokeMesh, open: number | null): WeldedMesh {
  const parent = Int32Array.from({ length: split.nodeCount }, (_, k) => k);
  const root = (node: number): number => {
    let at = node;
    while (parent[at] !== at) at = parent[at] = parent[parent[at]];
    return at;
  };
  // the lower number stays, so that rim nodes keep theirs
  const join = (a: number, b: number): void => {
    const [p, q] = [root(a), root(b)];
    parent[Math.max(p, q)] = Math.min(p, q);
  };
  for (let index = first; index < split.left.length; index++) {
    const [left, right] = [split.left[index], split.right[index]];
    const from = open !== null && index === first + open ? 2 * WITHIN.length : 0;
    for (let k = from; k < left.length; k++) join(left[k], right[k]);
  }
  return compact(split, first, root);
}

function compact(split: DiscMesh, first: number, root: (node: number) => number): WeldedMesh {
  const nodeOf = new Int32Array(split.nodeCount);
  const kept: number[] = [];
  for (let node = 0; node < split.nodeCount; node++) {
    const own = root(node);
    if (own === node) kept.push(node);
    nodeOf[node] = own === node ? kept.length - 1 : nodeOf[own];
  }
  const renamed = (nodes: Int32Array) => nodes.map((node) => nodeOf[node]);
  const mesh: DiscMesh = {
    nodeCount: kept.length,
    reference_mm: Float64Array.from(kept.flatMap((n) => [split.reference_mm[2 * n], split.reference_mm[2 * n + 1]])),
    triangle: renamed(split.triangle),
    stem: kept.map((node) => split.stem[node]),
    key: kept.map((node) => split.key[node]),
    rimCount: split.rimCount,
    left: split.left.slice(0, first).map(renamed),
    right: split.right.slice(0, first).map(renamed),
    gripNode: split.gripNode.map((node) => nodeOf[node]),
  };
  return { mesh, nodeOf };
}

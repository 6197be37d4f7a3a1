/**
 * Where the nodes go: a rim circle, the vertices of the tears, rings round live tips and grips, and nested triangular
 * lattices that are finer near tears. Lattice nodes keep their places for ever, so that a rebuilt mesh shares most nodes
 * with the one before and the state is copied, not interpolated.
 */
import { cos, sin } from '../core/elementary/circular.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { jawsRadius_mm, type MeshSizes, TIP_RINGS } from './sizes.ts';
import { ringedEnds, type TearLine, tipFrame } from './tear-line.ts';

export interface MeshRequest {
  readonly radius_mm: number;
  readonly tears: readonly TearLine[];
  /** Reference places that must be nodes with a small ring of their own (held tissue). */
  readonly grips: readonly (readonly [number, number])[];
  readonly sizes: MeshSizes;
}

/** What a node stems from; nodes of equal stem in two meshes have equal places. */
export type Stem = 'rim' | 'tear' | 'lattice' | 'ring';

export interface PointCloud {
  /** x,y per point, mm. */
  place: number[];
  stem: Stem[];
  /** Number within its stem (rim index, lattice key); -1 for tears and rings. */
  key: number[];
  /** Point of each vertex of each tear. */
  tearPoint: Int32Array[];
  /** Point of each grip. */
  gripPoint: number[];
  rimCount: number;
}

/** Nodes of the ring round a grip. */
const GRIP_RING = 6;
const ROOT3_2 = Math.sqrt(3) / 2;

export function layPoints(request: MeshRequest): PointCloud {
  const cloud: PointCloud = { place: [], stem: [], key: [], tearPoint: [], gripPoint: [], rimCount: 0 };
  layRim(request, cloud);
  layTears(request, cloud);
  const clearance = createClearance(request);
  layRings(request, cloud, clearance);
  layLattice(request, cloud, clearance);
  return cloud;
}

function addPoint(cloud: PointCloud, x: number, y: number, stem: Stem, key: number): number {
  cloud.place.push(x, y);
  cloud.stem.push(stem);
  cloud.key.push(key);
  return cloud.stem.length - 1;
}

function layRim(request: MeshRequest, cloud: PointCloud): void {
  const { radius_mm, sizes } = request;
  cloud.rimCount = Math.max(24, Math.round((2 * Math.PI * radius_mm) / sizes.rim_mm));
  for (let k = 0; k < cloud.rimCount; k++) {
    const angle = (2 * Math.PI * k) / cloud.rimCount;
    addPoint(cloud, radius_mm * cos(angle), radius_mm * sin(angle), 'rim', k);
  }
}

function layTears(request: MeshRequest, cloud: PointCloud): void {
  // vertices shared by joined tears are recognised by equal coordinates
  const known = new Map<string, number>();
  for (let k = 0; k < cloud.rimCount; k++) known.set(`${cloud.place[k * 2]},${cloud.place[k * 2 + 1]}`, k);
  for (const tear of request.tears) {
    const points = new Int32Array(tear.points.length / 2);
    for (let k = 0; k < points.length; k++) {
      const x = tear.points[k * 2];
      const y = tear.points[k * 2 + 1];
      const name = `${x},${y}`;
      let point = known.get(name);
      if (point === undefined) {
        point = addPoint(cloud, x, y, 'tear', -1);
        known.set(name, point);
      }
      points[k] = point;
    }
    cloud.tearPoint.push(points);
  }
}

/** Distance to the nearest tear, known only where it matters: within a band round the tears. */
interface Clearance {
  distance(x: number, y: number): number;
}

const CELL_MM = 0.25;

function createClearance(request: MeshRequest): Clearance {
  const { tears, radius_mm } = request;
  const columns = Math.ceil((2 * radius_mm) / CELL_MM) + 2;
  const cells = new Map<number, number[]>();
  const segments: number[] = [];
  const cellOf = (v: number) => Math.floor((v + radius_mm) / CELL_MM) + 1;
  for (const tear of tears)
    for (let k = 0; k + 3 < tear.points.length; k += 2) {
      const [ax, ay, bx, by] = tear.points.slice(k, k + 4);
      const id = segments.length;
      segments.push(ax, ay, bx, by);
      for (let i = cellOf(Math.min(ax, bx)) - 1; i <= cellOf(Math.max(ax, bx)) + 1; i++)
        for (let j = cellOf(Math.min(ay, by)) - 1; j <= cellOf(Math.max(ay, by)) + 1; j++) {
          const key = j * columns + i;
          const list = cells.get(key);
          if (list) list.push(id);
          else cells.set(key, [id]);
        }
    }
  return {
    distance(x, y) {
      let best = Infinity;
      const list = cells.get(cellOf(y) * columns + cellOf(x));
      if (list) for (const id of list) best = Math.min(best, segmentDistance(segments, id, x, y));
      return best;
    },
  };
}

function segmentDistance(s: number[], id: number, x: number, y: number): number {
  const ax = s[id];
  const ay = s[id + 1];
  const dx = s[id + 2] - ax;
  const dy = s[id + 3] - ay;
  const u = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
  return hypot(x - ax - u * dx, y - ay - u * dy);
}

interface Ring {
  x: number;
  y: number;
  outer: number;
}

function ringsOf(request: MeshRequest): Ring[] {
  const { sizes } = request;
  const rings: Ring[] = [];
  for (const tip of ringedEnds(request.tears)) {
    const { x, y } = tipFrame(tip);
    rings.push({ x, y, outer: TIP_RINGS[TIP_RINGS.length - 1][0] * sizes.tip_mm });
  }
  return rings;
}

function layRings(request: MeshRequest, cloud: PointCloud, clearance: Clearance): void {
  const { sizes, radius_mm } = request;
  const placed: Ring[] = [];
  const free = (x: number, y: number, gap: number): boolean => {
    if (hypot(x, y) > radius_mm - gap * 1.5) return false;
    for (const ring of placed) if (hypot(x - ring.x, y - ring.y) < ring.outer + gap) return false;
    return clearance.distance(x, y) > gap;
  };
  const tips = ringedEnds(request.tears);
  const rings = ringsOf(request);
  rings.forEach((ring, index) => {
    const { tx, ty } = tipFrame(tips[index]);
    TIP_RINGS.forEach(([radius, count], layer) => {
      const r = radius * sizes.tip_mm;
      const gap = 0.55 * (layer === 0 ? r : (radius - TIP_RINGS[layer - 1][0]) * sizes.tip_mm);
      for (let k = 0; k < count; k++) {
        const angle = (2 * Math.PI * (k + (layer === 3 ? 0.5 : 0))) / count;
        const c = cos(angle);
        const s = sin(angle);
        const x = ring.x + r * (c * tx - s * ty);
        const y = ring.y + r * (c * ty + s * tx);
        // the tear's own vertices stand in for ring nodes behind the tip
        if (free(x, y, gap)) addPoint(cloud, x, y, 'ring', -1);
      }
    });
    placed.push(ring);
  });
  const jaws_mm = jawsRadius_mm(sizes);
  for (const [gx, gy] of request.grips) {
    cloud.gripPoint.push(addPoint(cloud, gx, gy, 'ring', -1));
    for (let k = 0; k < GRIP_RING; k++) {
      const angle = (2 * Math.PI * k) / GRIP_RING;
      const x = gx + jaws_mm * cos(angle);
      const y = gy + jaws_mm * sin(angle);
      if (free(x, y, 0.5 * sizes.face_mm)) addPoint(cloud, x, y, 'ring', -1);
    }
  }
}

/** Places the mesh should be fine at, with the size wished there. */
function sources(request: MeshRequest): number[] {
  const { sizes } = request;
  const list: number[] = [];
  for (const tear of request.tears)
    for (let k = 0; k < tear.points.length; k += 2) list.push(tear.points[k], tear.points[k + 1], sizes.face_mm);
  for (const ring of ringsOf(request)) list.push(ring.x, ring.y, sizes.face_mm - sizes.growth * ring.outer);
  for (const [x, y] of request.grips) list.push(x, y, sizes.face_mm);
  return list;
}

/** A lattice level serves where the wished size is below its spacing times this. */
const LEVEL_REACH = 1.25;

function layLattice(request: MeshRequest, cloud: PointCloud, clearance: Clearance): void {
  const { sizes, radius_mm } = request;
  const wished = sources(request);
  const rings = ringsOf(request);
  for (const [x, y] of request.grips) rings.push({ x, y, outer: jawsRadius_mm(sizes) });
  const finest = sizes.far_mm / (1 << sizes.levels);
  const half = Math.ceil(radius_mm / (finest * ROOT3_2)) + 2;
  const width = 4 * half + 1;
  for (let level = 0; level <= sizes.levels; level++) {
    const spacing = sizes.far_mm / (1 << level);
    const stride = 1 << (sizes.levels - level);
    const add = (i: number, j: number): void => {
      const x = (i + 0.5 * j) * spacing;
      const y = j * spacing * ROOT3_2;
      const r = hypot(x, y);
      if (r > radius_mm - 0.45 * Math.min(spacing, sizes.rim_mm)) return;
      for (const ring of rings)
        if (hypot(x - ring.x, y - ring.y) < ring.outer + 0.5 * Math.min(spacing, sizes.face_mm * 1.2)) return;
      if (clearance.distance(x, y) < 0.52 * Math.min(spacing, sizes.face_mm)) return;
      addPoint(cloud, x, y, 'lattice', (j * stride + half) * width + i * stride + 2 * half);
    };
    if (level === 0) everyPoint(radius_mm, spacing, add);
    else markedPoints(wished, sizes, spacing, add);
  }
}

function everyPoint(radius_mm: number, spacing: number, add: (i: number, j: number) => void): void {
  const rows = Math.ceil(radius_mm / (spacing * ROOT3_2));
  for (let j = -rows; j <= rows; j++) {
    const from = Math.floor(-radius_mm / spacing - 0.5 * j);
    const to = Math.ceil(radius_mm / spacing - 0.5 * j);
    for (let i = from; i <= to; i++) add(i, j);
  }
}

/** Lattice points near enough to a source, each once, in a fixed order; those of coarser levels left out. */
function markedPoints(wished: number[], sizes: MeshSizes, spacing: number, add: (i: number, j: number) => void): void {
  const marked = new Set<number>();
  const OFFSET = 1 << 15;
  for (let k = 0; k < wished.length; k += 3) {
    const reach = (LEVEL_REACH * spacing - wished[k + 2]) / sizes.growth;
    if (reach <= 0) continue;
    const cx = wished[k];
    const cy = wished[k + 1];
    const j0 = Math.ceil((cy - reach) / (spacing * ROOT3_2));
    const j1 = Math.floor((cy + reach) / (spacing * ROOT3_2));
    for (let j = j0; j <= j1; j++) {
      const dy = j * spacing * ROOT3_2 - cy;
      const dx = Math.sqrt(Math.max(0, reach * reach - dy * dy));
      const i0 = Math.ceil((cx - dx) / spacing - 0.5 * j);
      const i1 = Math.floor((cx + dx) / spacing - 0.5 * j);
      for (let i = i0; i <= i1; i++) if ((i | j) & 1) marked.add((j + OFFSET) * 2 * OFFSET + i + OFFSET);
    }
  }
  for (const key of marked) add((key % (2 * OFFSET)) - OFFSET, Math.floor(key / (2 * OFFSET)) - OFFSET);
}

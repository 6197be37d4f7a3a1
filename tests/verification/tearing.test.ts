import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import { buildDiscMesh, type DiscMesh } from '../../physics/mesh/disc-mesh.ts';
import { DEFAULT_SIZES } from '../../physics/mesh/sizes.ts';
import { type EndKind, type TearLine, tipFrame } from '../../physics/mesh/tear-line.ts';
import { carry, createTransfer } from '../../physics/mesh/transfer.ts';
import {
  FASTEST_mm_per_s,
  headingOf,
  LARGEST_TURN_deg,
  TEAR_SPEED_mm_per_s,
  tearSpeed_mm_per_s,
} from '../../physics/tear/law.ts';
import { joinAt, meetingOf } from '../../physics/tear/meeting.ts';

const RADIUS_mm = 4.2;
const seeds = fc.integer({ min: 1, max: 2 ** 31 - 1 });
const H = DEFAULT_SIZES.tip_mm;

const tear = (points: number[], startKind: EndKind = 'live', endKind: EndKind = 'live', id = 0): TearLine => ({
  id,
  points,
  startKind,
  endKind,
});

/** A wandering line at the tip's spacing; up to 45 vertices it stays inside the disc, whatever way it goes. */
function wander(random: () => number, length: number): TearLine {
  const points: number[] = [1.4 * (random() - 0.5), 1.4 * (random() - 0.5)];
  let heading = 2 * Math.PI * random();
  const bend = 0.12 * (random() - 0.5);
  for (let k = 0; k < length; k++) {
    heading += bend + 0.2 * (random() - 0.5);
    points.push(points[2 * k] + H * Math.cos(heading), points[2 * k + 1] + H * Math.sin(heading));
  }
  return tear(points, random() < 0.5 ? 'live' : 'blunt', 'live');
}

const meshOf = (tears: readonly TearLine[], grips: readonly (readonly [number, number])[] = []): DiscMesh =>
  buildDiscMesh({ radius_mm: RADIUS_mm, tears, grips, sizes: DEFAULT_SIZES });

function areas(mesh: DiscMesh): number[] {
  const { reference_mm: p, triangle } = mesh;
  const out: number[] = [];
  for (let t = 0; t < triangle.length; t += 3) {
    const [a, b, c] = [triangle[t] * 2, triangle[t + 1] * 2, triangle[t + 2] * 2];
    out.push(0.5 * ((p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[b + 1] - p[a + 1]) * (p[c] - p[a])));
  }
  return out;
}

const polygonArea = (mesh: DiscMesh): number =>
  0.5 * mesh.rimCount * RADIUS_mm ** 2 * Math.sin((2 * Math.PI) / mesh.rimCount);
const copies = (mesh: DiscMesh): number => {
  const places = new Set<string>();
  for (let node = 0; node < mesh.nodeCount; node++)
    places.add(`${mesh.reference_mm[node * 2]},${mesh.reference_mm[node * 2 + 1]}`);
  return mesh.nodeCount - places.size;
};

/** Pieces of a mesh that hang together by shared nodes. */
function pieces(mesh: DiscMesh): number {
  const parent = Array.from({ length: mesh.nodeCount }, (_, k) => k);
  const root = (node: number): number => {
    let at = node;
    while (parent[at] !== at) at = parent[at] = parent[parent[at]];
    return at;
  };
  for (let t = 0; t < mesh.triangle.length; t += 3)
    for (const k of [1, 2]) parent[root(mesh.triangle[t + k])] = root(mesh.triangle[t]);
  return new Set(parent.map((_, node) => root(node))).size;
}

const closedCircle = (radius: number, n: number): TearLine => {
  const points: number[] = [];
  for (let k = 0; k < n; k++)
    points.push(radius * Math.cos((2 * Math.PI * k) / n), radius * Math.sin((2 * Math.PI * k) / n));
  return tear([...points, points[0], points[1]], 'joined', 'joined');
};

describe('the mesh round random tears', () => {
  it('keeps the area of the disc and has no flat or turned triangle', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 3, max: 45 }), (seed, length) => {
        const random = createRandom(seed).uniform;
        const line = wander(random, length);
        const grip: [number, number] = [1.5 * (random() - 0.5), 1.5 * (random() - 0.5)];
        const mesh = meshOf([line], random() < 0.5 ? [grip] : []);
        const each = areas(mesh);
        expect(Math.min(...each)).toBeGreaterThan(0);
        const sum = each.reduce((total, area) => total + area, 0);
        expect(Math.abs(sum / polygonArea(mesh) - 1)).toBeLessThan(1e-9);
      }),
      { numRuns: 25 },
    );
  });

  it('splits every vertex between the two ends of a tear, and not the ends', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 3, max: 45 }), (seed, length) => {
        const line = wander(createRandom(seed).uniform, length);
        const mesh = meshOf([line]);
        expect(copies(mesh)).toBe(line.points.length / 2 - 2);
        expect(pieces(mesh)).toBe(1);
        const [left, right] = [mesh.left[0], mesh.right[0]];
        expect(left[0]).toBe(right[0]);
        expect(left[left.length - 1]).toBe(right[right.length - 1]);
        for (let k = 1; k < left.length - 1; k++) expect(left[k]).not.toBe(right[k]);
      }),
      { numRuns: 15 },
    );
  });

  it('frees the disc when a tear closes, and splits every vertex of it', () => {
    const mesh = meshOf([closedCircle(1.5, 80)]);
    expect(pieces(mesh)).toBe(2);
    expect(copies(mesh)).toBe(80);
  });

  it('cuts the sheet in two along a line from rim to rim, and gives a meeting of three lines three copies', () => {
    const n = meshOf([]).rimCount;
    const rim = (k: number): [number, number] => [
      RADIUS_mm * Math.cos((2 * Math.PI * k) / n),
      RADIUS_mm * Math.sin((2 * Math.PI * k) / n),
    ];
    const spoke = (k: number, id: number): TearLine => {
      const [x, y] = rim(k);
      const points = [x, y];
      for (let s = 1; s < 40; s++) points.push(x * (1 - s / 40), y * (1 - s / 40));
      return tear([...points, 0, 0], 'joined', 'joined', id);
    };
    const third = Math.round(n / 3);
    const two = meshOf([spoke(0, 0), spoke(third, 1)]);
    expect(pieces(two)).toBe(2);
    const three = meshOf([spoke(0, 0), spoke(third, 1), spoke(2 * third, 2)]);
    expect(pieces(three)).toBe(3);
    const atMiddle = (mesh: DiscMesh) =>
      [...Array(mesh.nodeCount).keys()].filter(
        (node) => mesh.reference_mm[node * 2] === 0 && mesh.reference_mm[node * 2 + 1] === 0,
      ).length;
    expect([atMiddle(two), atMiddle(three)]).toEqual([2, 3]);
  });
});

describe('carrying a state from mesh to mesh', () => {
  const extended = (line: TearLine, random: () => number): TearLine => {
    const { x, y, tx, ty } = tipFrame({ tear: line, atEnd: true });
    const turn = 0.3 * (random() - 0.5);
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return { ...line, points: [...line.points, x + H * (c * tx - s * ty), y + H * (s * tx + c * ty)] };
  };

  it('is exact for a field that is linear in place, and leaves shared nodes to the bit', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 6, max: 45 }), (seed, length) => {
        const random = createRandom(seed).uniform;
        const line = wander(random, length);
        const next = extended(line, random);
        const [old, fresh] = [meshOf([line]), meshOf([next])];
        const [a, b, c] = [random(), random(), random()];
        const linear = (mesh: DiscMesh) =>
          Float64Array.from(
            { length: mesh.nodeCount },
            (_, node) => a + b * mesh.reference_mm[node * 2] + c * mesh.reference_mm[node * 2 + 1],
          );
        const transfer = createTransfer(old, [line], fresh, [next]);
        const carried = carry(transfer, linear(old), 1);
        const wanted = linear(fresh);
        for (let node = 0; node < fresh.nodeCount; node++) {
          // nodes of a new face are looked up a hair inside their own side
          const near = fresh.stem[node] === 'tear' ? 1e-4 * DEFAULT_SIZES.face_mm * 2 : 1e-12;
          expect(Math.abs(carried[node] - wanted[node])).toBeLessThan(near);
          if (transfer.weight[node * 3] === 1) expect(carried[node]).toBe(linear(old)[transfer.from[node * 3]]);
        }
        const shared = [...fresh.stem.keys()].filter((node) => transfer.weight[node * 3] === 1).length;
        expect(shared / fresh.nodeCount).toBeGreaterThan(0.5);
      }),
      { numRuns: 10 },
    );
  });

  it('keeps the two faces of a tear apart', () => {
    const line = tear(Array.from({ length: 60 }, (_, k) => (k % 2 === 0 ? -0.9 + 0.03 * k : 0.2)));
    const next = { ...line, points: [...line.points, line.points[58] + H, 0.2] };
    const [old, fresh] = [meshOf([line]), meshOf([next])];
    const side = new Float64Array(old.nodeCount);
    for (const node of old.left[0]) side[node] = 1;
    for (const node of old.right[0]) side[node] = -1;
    const ends = [old.left[0][0], old.left[0][old.left[0].length - 1]];
    for (const node of ends) side[node] = 0;
    const carried = carry(createTransfer(old, [line], fresh, [next]), side, 1);
    const last = line.points.length / 2 - 1;
    for (let s = 1; s < last; s++) {
      expect(carried[fresh.left[0][2 * s]]).toBe(1);
      expect(carried[fresh.right[0][2 * s]]).toBe(-1);
    }
  });
});

describe('meeting', () => {
  const line = tear([0, 0, 1, 0, 2, 0, 3, 0], 'live', 'live', 1);
  const other = tear([1.5, -2, 1.5, -1], 'live', 'live', 2);
  const tip = { tear: other, atEnd: true };

  it('is found where the advance crosses a tear, or comes within reach of it, and not beyond', () => {
    const crossing = meetingOf([line, other], tip, 1.5, -0.05, 1.6, 0.05, 0.06, 0.5);
    expect(crossing).toMatchObject({ segment: 1 });
    expect([crossing!.x, crossing!.y]).toEqual([expect.closeTo(1.55, 12), expect.closeTo(0, 12)]);
    expect(meetingOf([line, other], tip, 1.5, -0.15, 1.5, -0.05, 0.06, 0.5)).toMatchObject({ x: 1.5, y: 0 });
    expect(meetingOf([line, other], tip, 1.5, -0.15, 1.5, -0.07, 0.06, 0.5)).toBeNull();
  });

  it("does not count the tip's own line just behind it, but its start", () => {
    const straight = tear([0, 0, 0.1, 0, 0.2, 0, 0.3, 0]);
    const own = { tear: straight, atEnd: true };
    expect(meetingOf([straight], own, 0.3, 0, 0.36, 0, 0.06, 0.5)).toBeNull();
    const round = closedCircle(1, 40);
    round.points.splice(-4);
    round.startKind = round.endKind = 'live';
    const [x0, y0] = round.points.slice(-2);
    const met = meetingOf([round], { tear: round, atEnd: true }, x0, y0, 1, -0.05, 0.06, 0.5);
    expect(met).toMatchObject({ segment: 0 });
  });

  it('uses a vertex that is near, and puts one in where there is none', () => {
    const target = tear([0, 0, 1, 0, 2, 0]);
    expect(joinAt({ tear: target, segment: 0, x: 0.98, y: 0 }, 0.03)).toEqual([1, 0]);
    expect(target.points).toEqual([0, 0, 1, 0, 2, 0]);
    expect(joinAt({ tear: target, segment: 1, x: 1.5, y: 0 }, 0.03)).toEqual([1.5, 0]);
    expect(target.points).toEqual([0, 0, 1, 0, 1.5, 0, 2, 0]);
  });
});

describe('the law of motion', () => {
  it('leaves a tip at rest up to the tear resistance, and whatever is not a number', () => {
    for (const ratio of [0, 0.5, 1, Number.NaN, -3]) expect(tearSpeed_mm_per_s(ratio)).toBe(0);
  });

  it('goes faster with the excess, up to a limit', () => {
    expect(tearSpeed_mm_per_s(2)).toBeCloseTo(TEAR_SPEED_mm_per_s, 12);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (a, b) => {
          const [slow, fast] = [tearSpeed_mm_per_s(Math.min(a, b)), tearSpeed_mm_per_s(Math.max(a, b))];
          expect(slow).toBeLessThanOrEqual(fast);
          expect(fast).toBeLessThanOrEqual(FASTEST_mm_per_s);
        },
      ),
    );
  });

  it('heads along the force, turned by no more than the limit, always as a unit vector', () => {
    const angle = fc.double({ min: -180, max: 180, noNaN: true });
    fc.assert(
      fc.property(angle, angle, (along, turn) => {
        const unit = (deg: number): [number, number] => [
          Math.cos((deg * Math.PI) / 180),
          Math.sin((deg * Math.PI) / 180),
        ];
        const tangent = unit(along);
        const [fx, fy] = unit(along + turn);
        const [hx, hy] = headingOf(tangent, [3 * fx, 3 * fy]);
        expect(Math.hypot(hx, hy)).toBeCloseTo(1, 12);
        const turned =
          (Math.atan2(tangent[0] * hy - tangent[1] * hx, tangent[0] * hx + tangent[1] * hy) * 180) / Math.PI;
        const wanted = Math.max(-LARGEST_TURN_deg, Math.min(LARGEST_TURN_deg, turn));
        // straight back may be taken either way round
        if (Math.abs(Math.abs(turn) - 180) > 1e-6) expect(turned).toBeCloseTo(wanted, 8);
        else expect(Math.abs(turned)).toBeCloseTo(LARGEST_TURN_deg, 8);
      }),
    );
  });
});

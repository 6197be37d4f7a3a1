import { describe, expect, it } from 'vitest';
import { createWorld, stageGeometry, viewWorld, type WorldView } from '../../physics/index.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import { arrowVector_mm, targetRing } from '../../src-renderer/stage/aims.ts';
import { BlendedSheet } from '../../src-renderer/stage/blended-sheet.ts';
import { LONGEST_SIDE_mm } from '../../src-renderer/stage/iris-layer.ts';
import { LabelRoom } from '../../src-renderer/stage/label-room.ts';
import { frameFor, MAGNIFICATIONS, steppedMagnification, toMm, toPx } from '../../src-renderer/stage/microscope.ts';
import { rimSideOnly } from '../../src-renderer/stage/rim-side.ts';
import { fillNormals } from '../../src-renderer/stage/sheet-normals.ts';
import { orderSheet, UNDER_IRIS_mm } from '../../src-renderer/stage/sheet-order.ts';
import { fillTension, TensionRoom } from '../../src-renderer/stage/sheet-tension.ts';
import { tensionColour } from '../../src-renderer/stage/teaching-look.ts';
import { drawnDoor } from '../support/view-fixture.ts';

const scenario = offeredScenarios().scenarios[0]!;
const command = { x_mm: 0, y_mm: 0, lift_mm: 0, jaws: 1, instrument: 'forceps', incision: 0 } as const;

function drawnAfter(steps: number): WorldView {
  const eye = drawnDoor.createWorld(scenario, 1);
  for (let i = 0; i < steps; i++) drawnDoor.stepWorld(eye, command);
  return drawnDoor.viewWorld(eye);
}

describe('the microscope', () => {
  it('maps pixels to the eye and back, y upward', () => {
    const frame = frameFor(800, 600, 11, 1.6);
    expect(toPx(frame, [0, 0])).toEqual([400, 300]);
    expect(toPx(frame, [0, 1])[1]).toBeLessThan(300);
    const [x, y] = toMm(frame, toPx(frame, [1.25, -2.5]));
    expect(x).toBeCloseTo(1.25, 12);
    expect(y).toBeCloseTo(-2.5, 12);
  });

  it('shows the whole limbus at the smallest magnification, in any shape of stage', () => {
    for (const [width, height] of [
      [1280, 500],
      [400, 900],
    ] as const) {
      expect(frameFor(width, height, 11, 1).pxPerMm * 11).toBeLessThan(Math.min(width, height));
    }
  });

  it('steps through its magnifications and stays at the ends', () => {
    expect(steppedMagnification(1, 1)).toBe(MAGNIFICATIONS[1]);
    expect(steppedMagnification(1, -1)).toBe(1);
    expect(steppedMagnification(MAGNIFICATIONS.at(-1)!, 1)).toBe(MAGNIFICATIONS.at(-1));
  });
});

describe('the sheet from the bottom up', () => {
  const flat = [0, 0, 0, 1, 0, 0, 0, 1, 0];
  const raised = [0, 0, 1, 1, 0, 1, 0, 1, 1];
  const pupil = { centre_mm: [0, 0] as const, radius_mm: 3.3 };
  const order = (position: number[], triangle: number[], piece = [0, 0, 0]) => {
    const sorted = new Uint32Array(triangle.length);
    const isHigh = new Uint8Array(position.length / 3);
    const { lowCount, seenCount } = orderSheet(
      Float32Array.from(position),
      Uint32Array.from(triangle),
      Uint8Array.from(piece),
      pupil,
      sorted,
      isHigh,
    );
    return { sorted: [...sorted], lowCount, seenCount, isHigh: [...isHigh] };
  };

  it('paints raised tissue after what lies flat', () => {
    const { sorted, lowCount, isHigh } = order([...raised, ...flat], [0, 1, 2, 3, 4, 5]);
    expect(sorted).toEqual([3, 4, 5, 0, 1, 2]);
    expect(lowCount).toBe(1);
    expect(isHigh).toEqual([1, 1, 1, 0, 0, 0]);
  });

  it('paints tissue that lies upper side down over what it lies on', () => {
    const { sorted } = order([...flat, ...flat], [0, 2, 1, 3, 4, 5]);
    expect(sorted).toEqual([3, 4, 5, 0, 2, 1]);
  });

  it('leaves out what lies flat under the iris, but nothing that is raised over it', () => {
    const far = (corners: number[]) => corners.map((value, i) => (i % 3 === 0 ? value + 5 : value));
    expect(order([...far(flat), ...flat], [0, 1, 2, 3, 4, 5])).toMatchObject({
      sorted: [3, 4, 5, 0, 1, 2],
      lowCount: 1,
      seenCount: 1,
    });
    expect(order(far(raised), [0, 1, 2]).seenCount).toBe(1);
  });

  it('keeps every triangle of a torn, folded sheet exactly once', () => {
    const view = drawnAfter(140);
    const sorted = new Uint32Array(view.triangle.length);
    const isHigh = new Uint8Array(view.position_mm.length / 3);
    orderSheet(view.position_mm, view.triangle, view.piece, pupil, sorted, isHigh);
    const keys = (indices: Uint32Array) =>
      Array.from({ length: indices.length / 3 }, (_, t) => indices.slice(3 * t, 3 * t + 3).join()).sort();
    expect(keys(sorted)).toEqual(keys(view.triangle));
    expect(isHigh.some((high) => high === 1)).toBe(true);
  });

  it.each(['small-pupil', 'infant-thick-fluid', 'twenty-years'])(
    'lets no capsule of %s show beyond the iris that covers it',
    (id) => {
      const { scenarios } = offeredScenarios();
      const eye = scenarios.find((one) => one.id === id)!;
      const { pupilCentre_mm: centre_mm, pupilDiameter_mm } = stageGeometry(eye);
      const radius_mm = pupilDiameter_mm / 2 + UNDER_IRIS_mm;
      const view = viewWorld(createWorld(eye, 1));
      const sorted = new Uint32Array(view.triangle.length);
      const isHigh = new Uint8Array(view.position_mm.length / 3);
      const { seenCount } = orderSheet(
        view.position_mm,
        view.triangle,
        view.piece,
        { centre_mm, radius_mm },
        sorted,
        isHigh,
      );
      const reach = Math.max(
        ...Array.from(sorted.subarray(0, 3 * seenCount), (node) =>
          Math.hypot(view.position_mm[3 * node]! - centre_mm[0], view.position_mm[3 * node + 1]! - centre_mm[1]),
        ),
      );
      expect(reach).toBeGreaterThan(radius_mm);
      expect(reach).toBeLessThan(radius_mm + LONGEST_SIDE_mm);
    },
  );

  it('gives unit normals, up for a flat sheet', () => {
    const normal = new Float32Array(9);
    fillNormals(Float32Array.from(flat), Uint32Array.from([0, 1, 2]), normal);
    expect([...normal]).toEqual([0, 0, 1, 0, 0, 1, 0, 0, 1]);
  });

  it('shows the finished opening without the disc and without its margin', () => {
    const view = drawnAfter(600);
    const shown = rimSideOnly(view);
    expect(view.piece.some((piece) => piece === 1)).toBe(true);
    expect(shown.piece.every((piece) => piece === 0)).toBe(true);
    expect(shown.triangle.length).toBe(3 * view.piece.filter((piece) => piece === 0).length);
    expect(view.margins).toHaveLength(2);
    expect(shown.margins).toHaveLength(1);
  });
});

describe('drawing between views', () => {
  it('lies between the last two views of equal topology and never beyond the newer', () => {
    const sheet = new BlendedSheet();
    const before = drawnAfter(1);
    const now = { ...before, position_mm: before.position_mm.map((value) => value + 1) };
    sheet.receive(before, 1000);
    sheet.receive(now, 1020);
    expect(sheet.positionsAt(1030)[5]).toBeCloseTo(before.position_mm[5]! + 0.5, 5);
    expect(sheet.positionsAt(5000)[5]).toBeCloseTo(before.position_mm[5]! + 1, 5);
  });

  it('never blends views of different topology', () => {
    const sheet = new BlendedSheet();
    const [before, now] = [drawnAfter(1), drawnAfter(30)];
    sheet.receive(before, 1000);
    sheet.receive(now, 1016);
    expect(before.topology).not.toBe(now.topology);
    expect(sheet.positionsAt(1017)).toBe(now.position_mm);
  });
});

describe('aims', () => {
  const geometry = drawnDoor.stageGeometry(scenario);

  it('show the line while tearing and the target afterwards, with the tolerance in proportion', () => {
    const line = targetRing(geometry, [{ metric: 'equivalentDiameter_mm', atLeast: 4.3, atMost: 5.3 }], false);
    expect(line.diameter_mm).toBe(scenario.target.lineDiameter_mm);
    expect(line.largest_mm / line.diameter_mm).toBeCloseTo(5.3 / scenario.target.diameter_mm, 12);
    expect(targetRing(geometry, [], true)).toMatchObject({
      diameter_mm: scenario.target.diameter_mm,
      smallest_mm: scenario.target.diameter_mm,
    });
  });

  it('draw arrows against the tear resistance, finite and of limited length', () => {
    expect(arrowVector_mm([0.5, 0], 1)[0]).toBeCloseTo(0.5 * arrowVector_mm([1, 0], 1)[0], 12);
    expect(Math.hypot(...arrowVector_mm([1e9, 1e9], 1))).toBeLessThan(3);
    expect(arrowVector_mm([Number.NaN, 1], 1)).toEqual([0, 0]);
    expect(arrowVector_mm([1, 1], 0)).toEqual([0, 0]);
  });
});

describe('names at the heads of arrows', () => {
  it('stay clear of the border, in both directions, and off each other', () => {
    const room = new LabelRoom();
    room.clear([4, 4]);
    const height = 0.4;
    // the nine letters of the widest name came out 3.34 heights wide
    const half = (3.34 * height) / 2;
    const first = room.place([-3.9, 0], [-1, 0], height, 9);
    const second = room.place([-3.9, 0], [-1, 0], height, 9);
    const up = room.place([0, 3.9], [0, 1], height, 9);
    expect(first[0] - half).toBeGreaterThan(-4);
    expect(up[1] + height / 2).toBeLessThan(4);
    expect(Math.abs(first[1] - second[1])).toBeGreaterThan(0.85 * height);
  });
});

describe('the tension map', () => {
  // two triangles of the same size, side by side
  const view = {
    reference_mm: Float32Array.from([0, 0, 1, 0, 0, 1, 1, 1]),
    triangle: Uint32Array.from([0, 1, 2, 1, 3, 2]),
    tension_mN_per_mm: Float32Array.from([0, 4]),
  } as unknown as WorldView;
  const painted = (lowCount: number, seenCount: number, full: number) => {
    const out = new Uint8Array(16);
    fillTension(view, { sorted: view.triangle, lowCount, seenCount }, full, out);
    return [0, 1, 2, 3].map((node) => [...out.subarray(4 * node, 4 * node + 4)]);
  };

  it('gives a node the mean tension of its triangles, brighter and denser where it is taut', () => {
    const [slack, half, , taut] = painted(2, 2, 4);
    const bytes = (share: number) => tensionColour(share).map((part) => Math.floor(255 * part));
    expect(slack?.slice(0, 3)).toEqual(bytes(0));
    expect(half?.slice(0, 3)).toEqual(bytes(0.5));
    expect(taut?.slice(0, 3)).toEqual(bytes(1));
    expect(taut![3]).toBeGreaterThan(slack![3]!);
  });

  it('leaves out nodes of lifted tissue alone, and fades at the nodes of both', () => {
    const [low, both, , high] = painted(1, 2, 4);
    expect(low![3]).toBeGreaterThan(0);
    expect(both![3]).toBeGreaterThan(0);
    expect(high).toEqual([0, 0, 0, 0]);
  });

  it('is the same where the room for its sums was used for a larger sheet before', () => {
    const eye = drawnAfter(140);
    const room = new TensionRoom();
    fillTension(
      eye,
      { sorted: eye.triangle, lowCount: 1, seenCount: 1 },
      4,
      new Uint8Array((4 * eye.position_mm.length) / 3),
      room,
    );
    const [fresh, used] = [new Uint8Array(16), new Uint8Array(16)];
    const order = { sorted: view.triangle, lowCount: 2, seenCount: 2 };
    fillTension(view, order, 4, fresh);
    fillTension(view, order, 4, used, room);
    expect([...used]).toEqual([...fresh]);
    expect(used.some((byte) => byte > 0)).toBe(true);
  });
});

import { describe, expect, it } from 'vitest';
import type { TipView, Vec2, WorldView } from '../../physics/index.ts';
import { outlineOf, shapeAt } from '../../src-renderer/places/lecture/twin/drawn-shapes.ts';
import { LabelRoom } from '../../src-renderer/stage/label-room.ts';
import { principalStrokes } from '../../src-renderer/stage/principal-strokes.ts';
import { safeCone } from '../../src-renderer/stage/safe-cone.ts';
import { tensionColour } from '../../src-renderer/stage/teaching-look.ts';
import { type LivingEye, tipOnCircle, wrapped } from '../../src-renderer/worker/twin-circle.ts';
import { TwinSeries } from '../../src-renderer/worker/twin-series.ts';

const RAD = Math.PI / 180;
const unit = (degrees: number): Vec2 => [Math.cos(degrees * RAD), Math.sin(degrees * RAD)];
const dot = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];

describe('safe pulls', () => {
  /** What the rule says of one direction of pull, straight from the sum. */
  const holds = (sheet: Vec2, p: number, at_deg: number, along_deg: number, outward_deg: number): boolean => {
    const pull = unit(at_deg);
    const sum: Vec2 = [sheet[0] + p * pull[0], sheet[1] + p * pull[1]];
    return dot(sum, unit(outward_deg)) <= 0 && dot(sum, unit(along_deg)) > 0;
  };

  it('are the directions in which sheet and pull together do not point outward, and no others', () => {
    let seed = 7;
    const random = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    let fans = 0;
    for (let k = 0; k < 300; k++) {
      const along_deg = 360 * random();
      const way = random() < 0.5 ? 1 : -1;
      const outward_deg = along_deg - 90 * way;
      const size = 2 * random();
      const sheet: Vec2 = [size * (random() - 0.5) * 2, size * (random() - 0.5) * 2];
      const p = 0.1 + 1.5 * random();
      const cone = safeCone(sheet, [p, 0], { along_deg, outward_deg }, 1);
      for (let at = 0.5; at < 360; at += 1) {
        const inside =
          cone !== null &&
          cone !== 'too-weak' &&
          [-720, -360, 0, 360, 720].some((turn) => at + turn > cone.from_deg && at + turn < cone.to_deg);
        const edge =
          cone !== null &&
          cone !== 'too-weak' &&
          [cone.from_deg, cone.to_deg].some((end) => Math.abs(wrapped(at - end)) < 0.6);
        const fromAlong = wrapped(way * (at - along_deg));
        const pastBack =
          dot(sheet, unit(outward_deg)) < 0 &&
          fromAlong < Math.asin(Math.max(-1, dot(sheet, unit(outward_deg)) / p)) / RAD;
        if (!edge && !pastBack) expect(inside).toBe(holds(sheet, p, at, along_deg, outward_deg));
      }
      if (cone !== null && cone !== 'too-weak') fans += 1;
    }
    expect(fans).toBeGreaterThan(150);
  });

  it('lean as far to the centre as the sheet points outward', () => {
    // along +x, the centre below: a sheet of half the pull's size straight outward needs 30 degrees
    const cone = safeCone([0, 0.5], [1, 0], { along_deg: 0, outward_deg: 90 }, 1);
    expect(cone).toEqual({ from_deg: expect.closeTo(-90, 6), to_deg: expect.closeTo(-30, 6) });
  });

  it('do not exist for a pull weaker than what the sheet has outward, and are not shown without a pull', () => {
    expect(safeCone([0, 1.2], [1, 0], { along_deg: 0, outward_deg: 90 }, 1)).toBe('too-weak');
    expect(safeCone([0, 0.5], [0.01, 0], { along_deg: 0, outward_deg: 90 }, 1)).toBeNull();
    expect(safeCone([Number.NaN, 0], [1, 0], { along_deg: 0, outward_deg: 90 }, 1)).toBeNull();
  });
});

const LIVING: LivingEye = { stretch: 1.25, lensCentre_mm: [0, 0], targetCentre_mm: [0, 0] };

/** A tip on a circle of the unloaded disc; the eye is that disc turned, and the tear heads outward by so much. */
function viewAt(angle_deg: number, { turn_deg = 0, error_deg = 0, way = 1, radius = 1.6, step = 0 } = {}): WorldView {
  const behind = (back: number): Vec2 => {
    const [x, y] = unit(angle_deg - way * back);
    return [radius * x, radius * y];
  };
  const reference = [0, 10, 20, 30, 40].map(behind);
  const turned = reference.map(([x, y]): Vec2 => {
    const [c, s] = unit(turn_deg);
    return [c * x - s * y, s * x + c * y];
  });
  const tip: TipView = {
    id: 3,
    live: true,
    position_mm: turned[0] as Vec2,
    reference_mm: reference[0] as Vec2,
    tangent_deg: angle_deg + turn_deg + 90 * way,
    heading_deg: angle_deg + turn_deg + 90 * way - way * error_deg,
    drivingForce_mN: 1,
    drivingRatio: 0.8,
    resultant_mN: [1, 0],
    sheet_mN: [0.5, 0],
    pull_mN: [0.5, 0],
    shear_mN: 0,
    stretch_mN: 0,
    modeShares: [1, 0, 0],
  };
  return {
    step,
    time_s: step / 60,
    tips: [tip],
    position_mm: Float32Array.from(turned.flatMap(([x, y]) => [x, y, 0])),
    reference_mm: Float32Array.from(reference.flat()),
    margins: [Uint32Array.from([4, 3, 2, 1, 0])],
    tearPath_mm: [Float32Array.from([...turned].reverse().flat())],
    instrument: { gripForce_mN: 4 },
    chamber: { netPressure_mmHg: 2 },
  } as unknown as WorldView;
}

const tipOf = (view: WorldView) => view.tips[0] as TipView;

describe('a tip on its circle', () => {
  it('is judged where tissue lay before any cut, however the eye has turned', () => {
    for (const turn_deg of [0, 25, -70]) {
      for (const way of [1, -1]) {
        const view = viewAt(130, { turn_deg, error_deg: 12, way });
        const circle = tipOnCircle(view, tipOf(view), LIVING);
        expect(circle?.radius_mm).toBeCloseTo(1.25 * 1.6, 6);
        expect(circle?.angle_deg).toBeCloseTo(130, 4);
        expect(circle?.way).toBe(way);
        expect(circle?.headingError_deg).toBeCloseTo(12, 3);
        expect(wrapped((circle?.outward_deg ?? 0) - 130 - turn_deg)).toBeCloseTo(0, 3);
      }
    }
  });
});

describe('the series of an eye', () => {
  it('counts the arc on past a whole turn, the way the tear goes', () => {
    for (const way of [1, -1]) {
      const series = new TwinSeries(LIVING);
      const arcs = Array.from(
        { length: 50 },
        (_, step) => series.next(viewAt(90 + way * step * 9, { way, step })).arcTorn_deg,
      );
      expect(arcs[0]).toBe(0);
      expect(arcs.at(-1)).toBeCloseTo(49 * 9, 3);
    }
  });

  it('has no number where there is none', () => {
    const view = viewAt(0);
    const broken = { ...tipOf(view), drivingRatio: Number.NaN, heading_deg: Number.NaN };
    const point = new TwinSeries(LIVING).next({ ...view, tips: [broken] });
    expect(point.drivingRatio).toBeNull();
    expect(point.headingError_deg).toBeNull();
    expect(new TwinSeries(LIVING).next({ ...view, tips: [] })).toMatchObject({ arcTorn_deg: null, tipRadius_mm: null });
  });
});

describe('what is drawn for a room', () => {
  it('strokes lie along the larger stretch', () => {
    const view = {
      triangle: Uint32Array.from([0, 1, 2]),
      reference_mm: Float32Array.from([0, 0, 1, 0, 0, 1]),
      // stretched by 1.5 along 30 degrees, by 1.1 across
      position_mm: Float32Array.from(
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ].flatMap(([x = 0, y = 0]) => {
          const [e, f] = [unit(30), unit(120)];
          const [a, b] = [1.5 * dot([x, y], e), 1.1 * dot([x, y], f)];
          return [a * e[0] + b * f[0], a * e[1] + b * f[1], 0];
        }),
      ),
      tension_mN_per_mm: Float32Array.from([0.5]),
    } as unknown as WorldView;
    const [stroke] = principalStrokes(view, new Uint8Array(3), 1);
    expect(Math.abs(dot(stroke?.direction ?? [0, 0], unit(30)))).toBeCloseTo(1, 5);
    expect(principalStrokes(view, new Uint8Array(3), 100)).toEqual([]);
    expect(principalStrokes(view, Uint8Array.from([1, 0, 0]), 1)).toEqual([]);
  });

  it('colours get brighter with tension and bear anything', () => {
    const brightness = (share: number) => dot([0.3, 0.6], tensionColour(share).slice(0, 2) as unknown as Vec2);
    const shares = [0, 0.25, 0.5, 0.75, 1].map(brightness);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(tensionColour(Number.NaN)).toEqual(tensionColour(0));
    expect(tensionColour(7)).toEqual(tensionColour(1));
  });

  it('names of arrows that point the same way do not lie over each other', () => {
    const room = new LabelRoom();
    const places = ['Pull', 'Sheet', 'Resultant'].map((name) => room.place([1, 1], [1, 0], 0.3, name.length));
    const gaps = places.flatMap((a, i) => places.slice(i + 1).map((b) => Math.abs(a[1] - b[1])));
    expect(Math.min(...gaps)).toBeGreaterThan(0.25);
  });

  it('names of arrows at the edge of what is shown are not cut off', () => {
    const room = new LabelRoom();
    room.clear([2, 2]);
    const [x, y] = room.place([-1.9, 1.95], [-1, 0.2], 0.3, 9);
    expect(x - (9 * 0.36 * 0.3) / 2).toBeGreaterThanOrEqual(-2);
    expect(y + 0.15).toBeLessThanOrEqual(2);
  });

  it('drawings keep their place and are found by the eraser', () => {
    const size = { width_px: 1000, height_px: 500 };
    const arrow = { id: 1, kind: 'arrow', from: [0.1, 0.5], to: [0.5, 0.5] } as const;
    const line = {
      id: 2,
      kind: 'pen',
      points: [
        [0.2, 0.1],
        [0.4, 0.1],
      ],
    } as const;
    expect(outlineOf(arrow, size)).toMatch(/^M.*500\.0 250\.0.*Z$/);
    expect(outlineOf(line, size)).toMatch(/^M.*Z$/);
    expect(outlineOf({ ...arrow, to: [0.101, 0.5] }, size)).toBe('');
    expect(shapeAt([arrow, line], [0.3, 0.51], size)?.id).toBe(1);
    expect(shapeAt([arrow, line], [0.3, 0.11], size)?.id).toBe(2);
    expect(shapeAt([arrow, line], [0.8, 0.8], size)).toBeNull();
  });
});

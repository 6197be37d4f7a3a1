import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CIRCULARITY_SMOOTHING_mm,
  measureOpening,
  type OpeningReference,
} from '../../physics/opening/measure-opening.ts';
import type { OpeningMetrics } from '../../physics/opening/metrics.ts';
import { rayCrossings } from '../../physics/opening/outline.ts';

type Point = readonly [number, number];
const reference: OpeningReference = {
  targetCentre_mm: [0, 0],
  targetDiameter_mm: 5,
  opticCentre_mm: [0, 0],
  opticDiameter_mm: 6,
};

function metrics(points: readonly Point[], changes: Partial<OpeningReference> = {}): OpeningMetrics {
  const result = measureOpening(points, { ...reference, ...changes });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

function ellipse(a: number, b: number, centre: Point = [0, 0], tilt_deg = 0, count = 720): Point[] {
  const tilt = (tilt_deg * Math.PI) / 180;
  return Array.from({ length: count }, (_, i) => {
    const t = (2 * Math.PI * i) / count;
    const [x, y] = [a * Math.cos(t), b * Math.sin(t)];
    return [
      centre[0] + x * Math.cos(tilt) - y * Math.sin(tilt),
      centre[1] + x * Math.sin(tilt) + y * Math.cos(tilt),
    ] as const;
  });
}
const circle = (radius: number, centre?: Point, count?: number) => ellipse(radius, radius, centre, 0, count);

/** A circle whose margin is pulled out to a point at an angle: a slit of `width` at its base. */
function nickedCircle(radius: number, length: number, width: number, angles_deg: readonly number[]): Point[] {
  const half = width / 2 / radius;
  const points = circle(radius, [0, 0], 1440).flatMap(([x, y]) => {
    const angle = Math.atan2(y, x);
    const off = (a_deg: number) =>
      Math.abs(Math.atan2(Math.sin(angle - (a_deg * Math.PI) / 180), Math.cos(angle - (a_deg * Math.PI) / 180)));
    return angles_deg.some((a) => off(a) < half) ? [] : [{ angle, point: [x, y] as Point }];
  });
  for (const a_deg of angles_deg) {
    const a = Math.atan2(Math.sin((a_deg * Math.PI) / 180), Math.cos((a_deg * Math.PI) / 180));
    for (const [at, r] of [
      [a - half, radius],
      [a, radius + length],
      [a + half, radius],
    ] as const) {
      points.push({ angle: at, point: [r * Math.cos(at), r * Math.sin(at)] });
    }
  }
  return points.sort((p, q) => p.angle - q.angle).map(({ point }) => point);
}

/**
 * What a Gaussian of width 1 along the outline takes off a right corner: the smoothed tangent is (1 - F, F) with F the
 * normal distribution, so the length lost is the integral of 1 - |(1 - F, F)| and the area that of (s F + f)(1 - F).
 */
function roundedCorner() {
  const step = 1e-3;
  let distribution = 0;
  let [length, area] = [0, 0];
  for (let s = -8; s < 8; s += step) {
    const density = Math.exp(-0.5 * s * s) / Math.sqrt(2 * Math.PI);
    distribution += density * step;
    length += (1 - Math.hypot(1 - distribution, distribution)) * step;
    area += (s * distribution + density) * (1 - distribution) * step;
  }
  return { length, area };
}

describe('closed forms', () => {
  it('a circle is round, centred and on target', () => {
    const m = metrics(circle(2.5));
    expect(m.equivalentDiameter_mm).toBeCloseTo(5, 3);
    expect(m.area_mm2).toBeCloseTo(Math.PI * 6.25, 2);
    expect(m.perimeter_mm).toBeCloseTo(5 * Math.PI, 3);
    expect(m.largestDiameter_mm).toBeCloseTo(5, 3);
    expect(m.smallestDiameter_mm).toBeCloseTo(5, 3);
    expect(m.axisRatio).toBeCloseTo(1, 4);
    expect(m.circularity).toBeCloseTo(1, 4);
    expect(m.centroidDistance_mm).toBeCloseTo(0, 9);
    expect(m.rmsDeviation_mm).toBeLessThan(1e-4);
    expect(m.peakDeviation_mm).toBeLessThan(1e-4);
    expect(m.opticOverlapSmallest_mm).toBeCloseTo(0.5, 6);
    expect(m.opticUncovered_clock_h).toEqual([]);
    expect(m.radialNicks).toBe(0);
    // Chords of 0.3 mm on a radius of 2.5 mm turn by 2 asin(0.06), to the spacing of the resampled outline.
    expect(m.largestKink_deg).toBeCloseTo((2 * Math.asin(0.06) * 180) / Math.PI, 0);
  });

  it('an ellipse has its axes, its area and the perimeter of Ramanujan', () => {
    const [a, b] = [2.8, 2.1];
    const m = metrics(ellipse(a, b, [0, 0], 30));
    const h = ((a - b) / (a + b)) ** 2;
    const perimeter = Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    expect(m.perimeter_mm).toBeCloseTo(perimeter, 3);
    expect(m.area_mm2).toBeCloseTo(Math.PI * a * b, 2);
    expect(m.largestDiameter_mm).toBeCloseTo(2 * a, 3);
    expect(m.largestDiameterAxis_deg).toBeCloseTo(30, 0);
    expect(m.smallestDiameter_mm).toBeCloseTo(2 * b, 3);
    expect(m.smallestDiameterAxis_deg).toBeCloseTo(120, 0);
    expect(m.circularity).toBeCloseTo((4 * Math.PI * Math.PI * a * b) / perimeter ** 2, 3);
    expect(m.peakDeviation_mm).toBeCloseTo(0.4, 3);
  });

  it('a square has sharp corners, diagonals and a circularity of pi/4, raised by the rounding of its corners', () => {
    const m = metrics([
      [-2, -2],
      [2, -2],
      [2, 2],
      [-2, 2],
    ]);
    expect(m.area_mm2).toBe(16);
    expect(m.perimeter_mm).toBe(16);
    expect(m.largestDiameter_mm).toBeCloseTo(4 * Math.SQRT2, 6);
    expect(m.largestDiameterAxis_deg % 90).toBe(45);
    expect(m.smallestDiameter_mm).toBeCloseTo(4, 6);
    expect(m.largestKink_deg).toBeCloseTo(90, 6);
    const lost = roundedCorner();
    const width = CIRCULARITY_SMOOTHING_mm;
    const rounded = (4 * Math.PI * (16 - 4 * lost.area * width ** 2)) / (16 - 4 * lost.length * width) ** 2;
    expect(rounded).toBeGreaterThan(Math.PI / 4);
    expect(m.circularity).toBeCloseTo(rounded, 3);
    expect(m.radialNicks).toBe(0);
  });

  it('an offset circle is as far off and in the direction as it was moved', () => {
    const m = metrics(circle(2.5, [0.3, 0.4]));
    expect(m.centroidDistance_mm).toBeCloseTo(0.5, 6);
    expect(m.centroidDirection_clock_h).toBeCloseTo(3 - (Math.atan2(0.4, 0.3) * 6) / Math.PI, 6);
    expect(m.peakDeviation_mm).toBeCloseTo(0.5, 4);
    // r(t) about the centre: d cos t + sqrt(R^2 - d^2 sin^2 t) with d = 0.5.
    const mean = Array.from({ length: 3600 }, (_, i) => {
      const t = (i * Math.PI) / 1800;
      return (0.5 * Math.cos(t) + Math.sqrt(6.25 - (0.5 * Math.sin(t)) ** 2) - 2.5) ** 2;
    }).reduce((sum, square) => sum + square / 3600, 0);
    expect(m.rmsDeviation_mm).toBeCloseTo(Math.sqrt(mean), 4);
    expect(m.opticOverlapSmallest_mm).toBeCloseTo(0, 4);
  });

  it('an optic out of cover is told by clock hours, over 12 too', () => {
    // Moved up by 0.8: uncovered where 0.8 cos(t) + sqrt(6.25 - 0.64 sin^2 t) > 3, t from 12 o'clock.
    const m = metrics(circle(2.5, [0, 0.8]));
    expect(m.opticOverlapSmallest_mm).toBeCloseTo(-0.3, 4);
    const limit_h = (Math.acos((9 + 0.64 - 6.25) / (2 * 3 * 0.8)) * 6) / Math.PI;
    expect(m.opticUncovered_clock_h).toHaveLength(1);
    const [from, to] = m.opticUncovered_clock_h[0];
    expect(Math.abs(from - (12 - limit_h))).toBeLessThanOrEqual(0.1);
    expect(Math.abs(to - limit_h)).toBeLessThanOrEqual(0.1);
    expect(metrics(circle(3.2)).opticUncovered_clock_h).toEqual([[0, 12]]);
    const right = metrics(circle(2.5, [0.8, 0])).opticUncovered_clock_h;
    expect(right).toHaveLength(1);
    expect((right[0][0] + right[0][1]) / 2).toBeCloseTo(3, 1);
  });
});

describe('faults of the margin', () => {
  it('nicks are counted and measured, tags and waves are not', () => {
    const two = metrics(nickedCircle(2.5, 0.5, 0.1, [40, 200]));
    expect(two.radialNicks).toBe(2);
    // The chord over the base lies up to 0.018 mm inside the circle.
    expect(Math.abs(two.longestNick_mm - 0.5)).toBeLessThan(0.03);
    expect(two.largestKink_deg).toBeGreaterThan(120);
    expect(metrics(nickedCircle(2.5, 0.08, 0.05, [40])).radialNicks).toBe(0);
    expect(metrics(nickedCircle(2.5, -0.5, 0.1, [40])).radialNicks).toBe(0);
    const waves = circle(2.5).map(([x, y]) => {
      const swell = 1 + 0.06 * Math.cos(7 * Math.atan2(y, x));
      return [x * swell, y * swell] as const;
    });
    expect(metrics(waves).radialNicks).toBe(0);
  });

  it('a nick across the first point of the outline counts once', () => {
    expect(metrics(nickedCircle(2.5, 0.5, 0.1, [180])).radialNicks).toBe(1);
    expect(metrics(nickedCircle(2.5, 0.5, 0.1, [0])).radialNicks).toBe(1);
  });

  it('steps of the size of the mesh do not make a circle less round, though they lengthen its perimeter', () => {
    const steps = circle(2.5, [0, 0], 260).map(([x, y], i) => {
      const factor = 1 + (i % 2 === 0 ? 0.006 : -0.006);
      return [x * factor, y * factor] as const;
    });
    const m = metrics(steps);
    expect((4 * Math.PI * m.area_mm2) / m.perimeter_mm ** 2).toBeLessThan(0.85);
    expect(m.circularity).toBeGreaterThan(0.995);
    expect(m.largestKink_deg).toBeLessThan(25);
    expect(m.radialNicks).toBe(0);
  });
});

describe('rays', () => {
  const diamond: Point[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];

  it('through a point of the outline meet it once, from inside and from outside', () => {
    expect(rayCrossings(diamond, [0, 0], 0)).toEqual([1]);
    expect(rayCrossings(diamond, [0, 0], Math.PI / 4)[0]).toBeCloseTo(Math.SQRT1_2, 12);
    expect(rayCrossings(diamond, [-2, 0], 0).sort()).toEqual([1, 3]);
    expect(rayCrossings(diamond, [-2, 0], Math.PI)).toEqual([]);
  });

  it('a target centre outside the opening counts as off by at least its radius', () => {
    const m = metrics(circle(1, [4, 0]));
    expect(m.peakDeviation_mm).toBeCloseTo(2.5, 6);
    expect(m.rmsDeviation_mm).toBeGreaterThan(2);
  });
});

describe('the way an outline is written', () => {
  it('direction, starting point and a repeated last point do not matter', () => {
    const points = ellipse(2.8, 2.2, [0.2, -0.1], 20, 300);
    const plain = metrics(points);
    const turned = [...points.slice(100), ...points.slice(0, 100)].reverse();
    for (const other of [metrics([...points, points[0]]), metrics(turned)]) {
      for (const key of [
        'area_mm2',
        'perimeter_mm',
        'circularity',
        'rmsDeviation_mm',
        'smallestDiameter_mm',
      ] as const) {
        expect(other[key]).toBeCloseTo(plain[key], 4);
      }
    }
  });

  it.each([
    [
      'two points',
      [
        [0, 0],
        [1, 1],
      ],
    ],
    [
      'one point often',
      [
        [1, 1],
        [1, 1],
        [1, 1],
        [1, 1],
      ],
    ],
    [
      'a line',
      [
        [0, 0],
        [1, 1],
        [2, 2],
      ],
    ],
    [
      'a figure of eight',
      [
        [0, 0],
        [2, 2],
        [2, 0],
        [0, 2],
      ],
    ],
    [
      'a NaN',
      [
        [0, 0],
        [Number.NaN, 1],
        [1, 0],
      ],
    ],
    [
      'an infinite coordinate',
      [
        [0, 0],
        [1, Number.POSITIVE_INFINITY],
        [1, 0],
      ],
    ],
    [
      'pixels',
      [
        [0, 0],
        [640, 0],
        [640, 480],
      ],
    ],
  ] as [string, Point[]][])('%s is refused', (_, points) => {
    const result = measureOpening(points, reference);
    expect(result.ok).toBe(false);
  });

  it('a target without size is refused', () => {
    expect(measureOpening(circle(2), { ...reference, targetDiameter_mm: Number.NaN }).ok).toBe(false);
  });

  it('whatever is measured is finite', () => {
    const coordinate = fc.oneof(
      fc.double({ min: -5, max: 5, noNaN: true }),
      fc.double(),
      fc.integer({ min: -3, max: 3 }),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { maxLength: 12 }), (points) => {
        const result = measureOpening(points, reference);
        if (!result.ok) {
          expect(result.problems.length).toBeGreaterThan(0);
          return;
        }
        const { opticUncovered_clock_h: _ranges, ...numbers } = result.value;
        for (const [key, value] of Object.entries(numbers)) expect([key, Number.isFinite(value)]).toEqual([key, true]);
      }),
      { numRuns: 300 },
    );
  });
});

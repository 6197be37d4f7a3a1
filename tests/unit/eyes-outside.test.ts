import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureOpening, parseOutline, type Vec2 } from '../../physics/index.ts';
import {
  measureFile,
  measurePhoto,
  outlineCsv,
  USUAL_TARGET,
} from '../../src-renderer/places/logbook/outside/measure-outside.ts';
import {
  centreOf,
  noMarks,
  type PhotoMarks,
  scaleOf,
  withMarginPoint,
  withMark,
  withoutMark,
} from '../../src-renderer/places/logbook/outside/photo-marks.ts';
import {
  fitted,
  panned,
  resized,
  toFrame,
  toPhoto,
  zoomed,
} from '../../src-renderer/places/logbook/outside/photo-view.ts';

const circle = (centre: Vec2, radius: number, count: number): Vec2[] =>
  Array.from({ length: count }, (_, k): Vec2 => {
    const angle = (2 * Math.PI * k) / count;
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];
  });

/** 40 pixels a mm: a cornea of 11.7 mm, an opening of 5 mm half a millimetre right of its middle and 0.25 mm above. */
const MARKS: PhotoMarks = {
  ...noMarks,
  ends_px: [
    [166, 300],
    [634, 300],
  ],
  margin_px: circle([420, 290], 100, 90),
};

describe('a photograph with a known length', () => {
  it('gives the diameter and the decentration in mm, upward being up', () => {
    const measured = measurePhoto(MARKS, USUAL_TARGET);
    if (!measured.ok) throw new Error(JSON.stringify(measured.problems));
    const { opening } = measured.value;
    expect(opening.equivalentDiameter_mm).toBeCloseTo(5, 2);
    expect(opening.centroidDistance_mm).toBeCloseTo(Math.hypot(0.5, 0.25), 3);
    expect(opening.centroidDirection_clock_h).toBeCloseTo(3 - (Math.atan2(0.25, 0.5) * 6) / Math.PI, 2);
  });

  it('scales every length by the known one, and is judged about another centre when that is set', () => {
    const half = measurePhoto({ ...MARKS, known_mm: 5.85 }, USUAL_TARGET);
    expect(half.ok && half.value.opening.equivalentDiameter_mm).toBeCloseTo(2.5, 2);
    const centred = measurePhoto({ ...MARKS, centre_px: [420, 290] }, USUAL_TARGET);
    expect(centred.ok && centred.value.opening.centroidDistance_mm).toBeCloseTo(0, 6);
    expect(centreOf(MARKS)).toEqual([400, 300]);
  });

  it.each([
    ['no scale', { ...MARKS, ends_px: [] }, 'known length'],
    ['a length that is text', { ...MARKS, known_mm: 'eleven' }, 'known length'],
    ['a length no eye has', { ...MARKS, known_mm: 400 }, 'known length'],
    [
      'ends that are one place',
      {
        ...MARKS,
        ends_px: [
          [5, 5],
          [6, 5],
        ] as Vec2[],
      },
      'known length',
    ],
    ['two points', { ...MARKS, margin_px: MARKS.margin_px.slice(0, 2) }, 'margin'],
    [
      'a margin that crosses itself',
      {
        ...MARKS,
        margin_px: [
          [300, 200],
          [500, 400],
          [500, 200],
          [300, 400],
        ] as Vec2[],
      },
      '',
    ],
    ['a target that is none', MARKS, 'target diameter'],
  ])('%s gives problems and no measures', (what, marks, path) => {
    const measured = measurePhoto(
      marks,
      what === 'a target that is none' ? { ...USUAL_TARGET, target_mm: '' } : USUAL_TARGET,
    );
    expect(measured.ok).toBe(false);
    expect(!measured.ok && measured.problems.some((one) => one.path === path)).toBe(true);
  });

  it('puts a point into the edge it is clicked on, else at the end', () => {
    const marks: PhotoMarks = {
      ...noMarks,
      margin_px: [
        [0, 0],
        [100, 0],
        [100, 100],
      ],
    };
    expect(withMarginPoint(marks, [50, 3], 7).margin_px[1]).toEqual([50, 3]);
    expect(withMarginPoint(marks, [50, 30], 7).margin_px[3]).toEqual([50, 30]);
    expect(withoutMark(marks, { of: 'margin', index: 1 }).margin_px).toEqual([
      [0, 0],
      [100, 100],
    ]);
    expect(withMark(marks, { of: 'margin', index: 1 }, [9, 9]).margin_px[1]).toEqual([9, 9]);
    expect(marks.margin_px.length).toBe(3);
    expect(scaleOf(marks).ok).toBe(false);
  });

  it('keeps the place under the pointer while it zooms, and the photograph in sight while it moves', () => {
    const [photo, frame] = [
      { width: 800, height: 600 },
      { width: 500, height: 500 },
    ];
    const view = fitted(photo, frame);
    const at: Vec2 = [200, 260];
    const near = zoomed(view, 2, at, photo, frame);
    const [x, y] = toFrame(near, toPhoto(view, at));
    expect([x, y]).toEqual([expect.closeTo(200, 6), expect.closeTo(260, 6)]);
    const gone = panned(near, 1e6, -1e6, photo, frame);
    const [mx, my] = toPhoto(gone, [250, 250]);
    expect([mx, my]).toEqual([expect.closeTo(0, 6), expect.closeTo(600, 6)]);
  });

  it('shows all after a change of size if all was in sight, else the same place as near as before', () => {
    const [photo, frame, larger] = [
      { width: 800, height: 600 },
      { width: 500, height: 500 },
      { width: 700, height: 620 },
    ];
    expect(resized(fitted(photo, frame), photo, frame, larger)).toEqual(fitted(photo, larger));
    const near = zoomed(fitted(photo, frame), 4, [300, 200], photo, frame);
    const after = resized(near, photo, frame, larger);
    expect(after.zoom).toBe(near.zoom);
    const [was, is] = [toPhoto(near, [250, 250]), toPhoto(after, [350, 310])];
    expect(is).toEqual([expect.closeTo(was[0], 6), expect.closeTo(was[1], 6)]);
  });
});

describe('an outline of a file', () => {
  it('gives what the command line gives, about the centre that is set, and is read back as it was written', () => {
    const points = circle([1, -1], 2.5, 120);
    const measured = measureFile(points, { ...USUAL_TARGET, x_mm: 1, y_mm: -1 }, 'a.csv');
    const direct = measureOpening(points, {
      targetCentre_mm: [1, -1],
      targetDiameter_mm: 5,
      opticCentre_mm: [1, -1],
      opticDiameter_mm: 6,
    });
    if (!measured.ok || !direct.ok) throw new Error('not measured');
    expect(measured.value.opening.equivalentDiameter_mm).toBeCloseTo(direct.value.equivalentDiameter_mm, 9);
    expect(measured.value.opening.opticOverlapSmallest_mm).toBeCloseTo(direct.value.opticOverlapSmallest_mm, 9);
    const again = parseOutline(outlineCsv(measured.value.outline_mm), 'b.csv');
    expect(again.ok && again.value[7]).toEqual(measured.value.outline_mm[7]!.map((value) => expect.closeTo(value, 3)));
  });

  it('any text gives points or problems, never a fault', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.json(), fc.string({ unit: fc.constantFrom(...'0123456789,;.-e\n [') })),
        (text) => {
          const parsed = parseOutline(text, 'any');
          if (!parsed.ok) expect(parsed.problems.length).toBeGreaterThan(0);
          else measureFile(parsed.value, USUAL_TARGET, 'any');
        },
      ),
      { numRuns: 2000, seed: 9 },
    );
    expect(parseOutline('1'.repeat(2_000_001), 'long').ok).toBe(false);
  });
});

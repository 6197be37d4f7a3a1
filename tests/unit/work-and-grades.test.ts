import { describe, expect, it } from 'vitest';
import { gradeAttempt } from '../../physics/opening/grade-attempt.ts';
import { measureOpening } from '../../physics/opening/measure-opening.ts';
import { createWorkRecorder, type WorkSample } from '../../physics/world/work-recorder.ts';

const quiet: WorkSample = {
  time_s: 0,
  dt_s: 0.5,
  asked_mm: [0, 0, 0],
  gripping: false,
  force_mN: [0, 0, 0],
  sideLoad_mN: 0,
  torn: [],
  drivingRatio: 0,
  gripToTip_mm: null,
  fluidLost_share: 0,
  events: [],
};

function record(...changes: Partial<WorkSample>[]) {
  const recorder = createWorkRecorder();
  changes.forEach((change, index) => {
    recorder.record({ ...quiet, time_s: 0.5 * (index + 1), ...change });
  });
  return recorder.result();
}

describe('metrics of the work', () => {
  it('are all zero before anything was done', () => {
    for (const value of Object.values(createWorkRecorder().result())) expect(value).toBe(0);
  });

  it('force counts only while the forceps hold, RMS over time', () => {
    const work = record(
      { force_mN: [50, 0, 0] },
      { gripping: true, force_mN: [3, 4, 0], gripToTip_mm: 1 },
      { gripping: true, force_mN: [0, 0, 12], dt_s: 1.5, gripToTip_mm: 2, sideLoad_mN: 7 },
      { gripping: true, sideLoad_mN: 3 },
    );
    expect(work.peakForce_mN).toBe(12);
    expect(work.rmsForce_mN).toBeCloseTo(Math.sqrt((25 * 0.5 + 144 * 1.5) / 2.5), 12);
    expect(work.gripToTipMean_mm).toBeCloseTo((0.5 * 1 + 1.5 * 2) / 2, 12);
    expect(work.peakSideLoad_mN).toBe(7);
  });

  it('length, arc, shares and path add up', () => {
    const work = record(
      { asked_mm: [1, 0, 0], events: [{ kind: 'grasp' }] },
      { asked_mm: [1, 3, 4], torn: [{ length_mm: 3, arc_deg: 40, shear_mN: 5, stretch_mN: -2 }] },
      {
        asked_mm: [1, 3, 4],
        torn: [{ length_mm: 1, arc_deg: 20, shear_mN: 1, stretch_mN: -2 }],
        events: [{ kind: 'grasp' }, { kind: 'refill' }],
      },
      {
        asked_mm: [1, 3, 4],
        torn: [{ length_mm: 1, arc_deg: 0, shear_mN: 0, stretch_mN: 0 }],
        events: [{ kind: 'near-run-out' }, { kind: 'rescued' }],
      },
    );
    expect(work).toMatchObject({
      time_s: 2,
      grasps: 2,
      arcPerGrasp_deg: 30,
      tornLength_mm: 5,
      handPath_mm: 5,
      handPathOverTorn: 1,
    });
    expect(work).toMatchObject({ shearShare: 0.75, stretchShare: 0.25, refills: 1, nearRunOuts: 1, rescues: 1 });
  });

  it('tension without tearing is time above half the resistance in which nothing tears', () => {
    const tear = [{ length_mm: 0.1, arc_deg: 2, shear_mN: 1, stretch_mN: 0 }];
    const work = record(
      { drivingRatio: 0.4 },
      { drivingRatio: 0.9 },
      { drivingRatio: 0.6 },
      { drivingRatio: 1.2, torn: tear },
    );
    expect(work.tensionWithoutTear_s).toBe(1);
  });
});

describe('grading', () => {
  const circle = Array.from(
    { length: 360 },
    (_, i) => [2.5 * Math.cos((i * Math.PI) / 180), 2.5 * Math.sin((i * Math.PI) / 180)] as const,
  );
  const measured = measureOpening(circle, {
    targetCentre_mm: [0, 0],
    targetDiameter_mm: 5,
    opticCentre_mm: [0, 0],
    opticDiameter_mm: 6,
  });
  if (!measured.ok) throw new Error('a circle can be measured');
  const opening = { ...measured.value, equivalentDiameter_mm: 5.304 };
  const work = { ...createWorkRecorder().result(), rmsForce_mN: 25 };

  it('says what was measured, what was asked and whether it was kept', () => {
    const items = gradeAttempt(
      [
        { metric: 'equivalentDiameter_mm', atLeast: 4.3, atMost: 5.3 },
        { metric: 'circularity', atLeast: 0.85 },
        { metric: 'rmsForce_mN', atMost: 25 },
        { metric: 'radialNicks', atMost: 0 },
      ],
      opening,
      work,
    );
    expect(items.map((item) => item.met)).toEqual([false, true, true, true]);
    expect(items.map((item) => item.reason)).toEqual([
      'Equivalent diameter is 5.304 mm; missed: it should be between 4.300 and 5.300 mm.',
      'Circularity is 1.00; asked for, and kept: at least 0.85.',
      'RMS force while holding tissue is 25.0 mN; asked for, and kept: at most 25.0 mN.',
      'Number of radial nicks is 0; asked for, and kept: at most 0.',
    ]);
    expect(items[0]).toMatchObject({ metric: 'equivalentDiameter_mm', value: 5.304, atLeast: 4.3, atMost: 5.3 });
  });

  it('an opening that is not complete misses every tolerance on the opening, but not those on the work', () => {
    const items = gradeAttempt(
      [
        { metric: 'circularity', atLeast: 0 },
        { metric: 'rmsForce_mN', atMost: 30 },
      ],
      null,
      work,
    );
    expect(items.map((item) => [item.value, item.met])).toEqual([
      [null, false],
      [25, true],
    ]);
    expect(items[0].reason).toBe('The opening is not complete, so its circularity was not measured.');
  });

  it('a metric without a name here is never met', () => {
    expect(gradeAttempt([{ metric: 'beauty', atLeast: 0 }], opening, work)[0].met).toBe(false);
  });
});

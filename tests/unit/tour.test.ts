import { describe, expect, it } from 'vitest';
import type { TipView, WorldEvent, WorldEventKind, WorldView } from '../../physics/index.ts';
import {
  beginTour,
  followed,
  hintOf,
  onward,
  stepOf,
  TOUR_STEPS,
  type TourProgress,
  type TourSight,
  type TourStep,
} from '../../src-renderer/app/tour/tour-steps.ts';

/** A tip that goes round counter-clockwise, at an angle of the unloaded disc. */
const tipAt = (angle_deg: number, over: Partial<TipView> = {}): TipView => {
  const angle = (angle_deg * Math.PI) / 180;
  const place = [2 * Math.cos(angle), 2 * Math.sin(angle)] as const;
  return {
    id: 1,
    live: true,
    position_mm: place,
    reference_mm: place,
    tangent_deg: angle_deg + 90,
    heading_deg: angle_deg + 90,
    drivingForce_mN: 5,
    drivingRatio: 0.5,
    resultant_mN: [0, 0],
    sheet_mN: null,
    pull_mN: null,
    shear_mN: 0,
    stretch_mN: 0,
    modeShares: [0, 0, 0],
    ...over,
  };
};

interface Seen {
  readonly tip?: TipView;
  readonly grip?: readonly [number, number];
  readonly holds?: boolean;
  readonly kind?: 'forceps' | 'cannula';
  readonly did?: readonly WorldEventKind[];
}

const events = (kinds: readonly WorldEventKind[]): WorldEvent[] =>
  kinds.map((kind, step) => ({ kind, step, time_s: step / 60, clock_h: null }));

function sight(
  { tip = tipAt(0), grip = [2, -0.5], holds = false, kind = 'forceps', did = [] }: Seen,
  over: Partial<TourSight> = {},
): TourSight {
  const instrument = { kind, tip_mm: [...grip, 0], gripping: holds };
  return {
    attempt: 1,
    view: { phase: 'working', tips: [tip], instrument } as unknown as WorldView,
    events: events(did),
    paused: false,
    result: null,
    instrument: kind,
    start: 'flap',
    centre_mm: [0, 0],
    ...over,
  };
}

const at = (step: TourStep, from = 0): TourProgress => ({ ...beginTour(1, from), at: TOUR_STEPS.indexOf(step) });
const stepAfter = (progress: TourProgress, ...seen: readonly TourSight[]): TourStep | null =>
  stepOf(seen.reduce(followed, progress));
const reason = (progress: TourProgress, seen: TourSight) => hintOf(progress, seen)?.kind ?? null;

describe('a step of the tour is over only when the world shows it', () => {
  it('grasping: tissue is held by the forceps, not when the jaws closed on nothing', () => {
    const missed = sight({ did: ['grasp-missed'] });
    expect(stepAfter(at('grasp'), missed)).toBe('grasp');
    expect(reason(at('grasp'), missed)).toBe('missed');
    expect(stepAfter(at('grasp'), sight({ holds: true, did: ['grasp'] }))).toBe('layOver');
  });

  it('laying over: the grip lies ahead of the tip along the tear, and still holds', () => {
    expect(reason(at('layOver'), sight({ holds: true }))).toBe('behind');
    expect(stepAfter(at('layOver'), sight({ holds: true }))).toBe('layOver');
    expect(stepAfter(at('layOver'), sight({ holds: true, grip: [2, 0.1] }))).toBe('layOver');
    expect(stepAfter(at('layOver'), sight({ grip: [2, 0.5] }))).toBe('layOver');
    expect(stepAfter(at('layOver'), sight({ holds: true, grip: [2, 0.5] }))).toBe('pull');
  });

  it('pulling: the tip has torn twenty degrees on, not been drawn there', () => {
    const held = (angle_deg: number, over: Partial<TipView> = {}) =>
      sight({ holds: true, tip: tipAt(angle_deg, over) });
    // drawn along with the sheet: the tip is seen elsewhere, its place in the unloaded disc is the same
    const drawn = held(0, { position_mm: [0, 2] });
    expect(stepAfter(at('pull'), held(0), drawn)).toBe('pull');
    expect(stepAfter(at('pull'), held(0), held(12), held(19))).toBe('pull');
    expect(stepAfter(at('pull'), held(0), held(12), held(20.5))).toBe('again');
    // across the half circle, where the angle leaps
    expect(stepAfter(at('pull'), held(170), held(180), held(191))).toBe('again');
    // another tip than the one that was followed counts from where it is
    expect(stepAfter(at('pull'), held(0), held(60, { id: 2 }))).toBe('pull');
  });

  it('grasping again: let go first, then taken near the tip', () => {
    const still = sight({ holds: true, did: ['grasp'] });
    expect(stepAfter(at('again', 1), still)).toBe('again');
    expect(reason(at('again', 1), still)).toBe('stillHeld');
    expect(reason(at('again', 1), sight({ did: ['grasp', 'release'] }))).toBe('nowGrasp');
    const far = sight({ holds: true, grip: [0, 0], did: ['grasp', 'release', 'grasp'] });
    expect(stepAfter(at('again', 1), far)).toBe('again');
    expect(hintOf(at('again', 1), far)).toEqual({ kind: 'far', distance_mm: 2 });
    expect(stepAfter(at('again', 1), sight({ holds: true, did: ['grasp', 'release', 'grasp'] }))).toBe('refill');
  });

  it('refilling: the chamber became full, or the opening was finished', () => {
    const cannula = sight({ kind: 'cannula' });
    expect(reason(at('refill'), sight({}))).toBe('takeCannula');
    expect(reason(at('refill'), cannula)).toBe('inject');
    expect(stepAfter(at('refill'), cannula)).toBe('refill');
    expect(stepAfter(at('refill', 1), sight({ did: ['refill'] }))).toBe('refill');
    expect(stepAfter(at('refill'), sight({ kind: 'cannula', did: ['refill'] }))).toBeNull();
    const complete = { ended: 'complete' } as TourSight['result'];
    expect(stepAfter(at('refill'), sight({}, { result: complete }))).toBeNull();
  });
});

describe('the tour', () => {
  it('begins again with a new attempt, and says when an attempt is over or stands still', () => {
    expect(stepAfter(at('pull'), sight({ holds: true }, { attempt: 2 }))).toBe('grasp');
    const out = { ended: 'run-out' } as TourSight['result'];
    expect(reason(at('pull'), sight({ holds: true }, { result: out }))).toBe('ended');
    expect(reason(at('pull'), sight({ holds: true }, { paused: true }))).toBe('paused');
  });

  it('does not go on in an eye without a prepared flap', () => {
    const needle = sight({ holds: true }, { start: 'needle' });
    expect(stepAfter(at('grasp'), needle)).toBe('grasp');
    expect(reason(at('grasp'), needle)).toBe('otherEye');
  });

  it('says why the tear does not go, or goes the wrong way', () => {
    const pulled = (over: Partial<TipView>) => sight({ holds: true, tip: tipAt(0, over) });
    expect(reason(at('pull'), pulled({ drivingRatio: 0.9 }))).toBe('weak');
    expect(reason(at('pull'), pulled({ drivingRatio: 1.1 }))).toBeNull();
    // the centre lies to the left of this tear: turned right is outward
    expect(hintOf(at('pull'), pulled({ drivingRatio: 1.1, heading_deg: 60 }))).toMatchObject({ kind: 'outward' });
    expect(reason(at('pull'), pulled({ drivingRatio: 1.1, heading_deg: 120 }))).toBeNull();
    expect(reason(at('pull'), sight({ did: ['grasp', 'slipped'] }))).toBe('slipped');
    expect(reason(at('pull'), sight({ did: ['grasp', 'release'] }))).toBe('dropped');
    expect(reason(at('grasp'), sight({ kind: 'cannula' }))).toBe('takeForceps');
  });

  it('can be skipped step by step to its end and no farther', () => {
    let progress = beginTour(1);
    for (const step of TOUR_STEPS) {
      expect(stepOf(progress)).toBe(step);
      progress = onward(progress, []);
    }
    expect(stepOf(progress)).toBeNull();
    expect(stepOf(onward(progress, []))).toBeNull();
  });
});

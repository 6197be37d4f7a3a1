import { describe, expect, test } from 'vitest';
import {
  type CostlyMoment,
  checkHand,
  checkScenario,
  costlyMoments,
  createMomentRecorder,
  createWorld,
  handPlayer,
  type MomentSample,
  STEP_S,
  stepWorld,
  type TornEnd,
  viewWorld,
  type WorldEvent,
  type WorldEventKind,
} from '../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';

/** Steps of 0.1 s; what is not said is quiet. */
const series = (...parts: readonly Partial<MomentSample>[]): MomentSample[] =>
  parts.map((part, k) => ({
    time_s: (k + 1) / 10,
    torn: [],
    shear_mN: 0,
    stretch_mN: 0,
    drivingRatio: 0,
    gripping: false,
    force_mN: 0,
    sideLoad_mN: 0,
    lostByLoad_share: 0,
    ...part,
  }));
const times = (count: number, part: Partial<MomentSample>) => Array.from({ length: count }, () => part);
const event = (kind: WorldEventKind, time_s: number, clock_h: number | null = 3): WorldEvent => ({
  step: Math.round(time_s * 60),
  time_s,
  kind,
  clock_h,
});
const tore = (before: number, after: number, clock_h = 3, end = 1): TornEnd => ({
  end,
  length_mm: 0.1,
  offLineBefore_mm: before,
  offLineAfter_mm: after,
  clock_h,
});
const only = (moments: readonly CostlyMoment[]): CostlyMoment => {
  expect(moments).toHaveLength(1);
  return moments[0];
};

describe('costly moments', () => {
  test('a quiet attempt has none, and neither has one without a step', () => {
    expect(costlyMoments(series(...times(50, {})), [])).toEqual([]);
    expect(costlyMoments([], [])).toEqual([]);
  });

  test('tearing away from the line costs the gain in distance, on either side, with what the pull did', () => {
    const out = only(
      costlyMoments(
        series(
          { torn: [tore(0.05, 0.15)], shear_mN: 9, stretch_mN: 2 },
          { torn: [tore(0.15, 0.3)], shear_mN: 9, stretch_mN: 2 },
        ),
        [],
      ),
    );
    expect(out).toMatchObject({ kind: 'off-line', from_s: 0.1, to_s: 0.2, unit: 'mm off the line', clock_h: 3 });
    expect(out.cost).toBeCloseTo(0.25, 12);
    expect(out.sentence).toBe(
      'The tear went 0.25 mm farther outside the line at 3 o’clock, with a pull mostly along the tear.',
    );
    const inside = series({ torn: [tore(-0.1, -0.4)], shear_mN: 1, stretch_mN: -4 });
    expect(only(costlyMoments(inside, [])).sentence).toContain('inside the line');
    expect(only(costlyMoments(inside, [])).sentence).toContain('mostly across the tear');
    const free = series({ torn: [tore(0.1, 0.4)] });
    expect(only(costlyMoments(free, [])).sentence).toContain('with nothing held');
  });

  test('tearing toward the line costs nothing, and a crossing costs only what lies farther beyond', () => {
    expect(costlyMoments(series({ torn: [tore(0.4, 0.1)] }, { torn: [tore(-0.3, -0.1, 5)] }), [])).toEqual([]);
    const crossing = costlyMoments(series({ torn: [tore(-0.1, 0.1)] }, { torn: [tore(0.1, 0.3)] }), []);
    expect(only(crossing).cost).toBeCloseTo(0.2, 12);
  });

  test('a rest of the tear, more than a clock hour, or another tip begins a new stretch', () => {
    const rest = series({ torn: [tore(0, 0.1)] }, ...times(3, {}), { torn: [tore(0.1, 0.2)] });
    expect(costlyMoments(rest, [])).toHaveLength(2);
    const far = series({ torn: [tore(0, 0.1, 12)] }, { torn: [tore(0.1, 0.2, 1.5)] });
    expect(costlyMoments(far, [])).toHaveLength(2);
    const noon = series({ torn: [tore(0, 0.1, 11.8)] }, { torn: [tore(0.1, 0.2, 0.4)] });
    expect(only(costlyMoments(noon, [])).cost).toBeCloseTo(0.2, 12);
    const two = series({ torn: [tore(0, 0.1, 3, 1), tore(0, 0.1, 9, 2)] });
    expect(costlyMoments(two, []).map(({ clock_h }) => clock_h)).toEqual([3, 9]);
  });

  test('tissue held tense without tearing costs the time', () => {
    const tense = { gripping: true, drivingRatio: 0.6 };
    const held = only(costlyMoments(series({}, ...times(30, tense), {}), []));
    expect(held).toMatchObject({ kind: 'held', unit: 's' });
    expect(held.from_s).toBeCloseTo(0.1, 12);
    expect(held.cost).toBeCloseTo(3, 9);
    expect(costlyMoments(series(...times(30, { ...tense, drivingRatio: 0.5 })), [])).toEqual([]);
    expect(costlyMoments(series(...times(30, { ...tense, gripping: false })), [])).toEqual([]);
    expect(costlyMoments(series(...times(5, tense)), [])).toEqual([]);
  });

  test('force costs what the peak of a grasp lies above 18 mN, once per grasp', () => {
    const pull = (force_mN: number) => ({ gripping: true, force_mN });
    const moments = costlyMoments(series(pull(20), pull(30), pull(25), {}, pull(19), {}, pull(18)), []);
    expect(moments.map(({ kind, cost, from_s }) => [kind, cost, from_s])).toEqual([
      ['force', 12, 0.2],
      ['force', 1, 0.5],
    ]);
    expect(moments[0].sentence).toContain('30 mN');
  });

  test('a side load costs the fluid that it let out', () => {
    const press = { sideLoad_mN: 20, lostByLoad_share: 0.004 };
    const pressed = only(costlyMoments(series(...times(3, press), {}, ...times(2, press)), []));
    expect(pressed.kind).toBe('side-load');
    expect(pressed.cost).toBeCloseTo(2, 9);
    expect(costlyMoments(series(press), [])).toEqual([]);
  });

  test('a lost grip costs the time until tissue is held again, tries on the way included', () => {
    const events = [event('slipped', 1), event('grasp-missed', 2), event('grasp', 3.5), event('grasp-missed', 4)];
    const [first, second] = costlyMoments(series(...times(50, {})), events);
    expect(first).toMatchObject({ kind: 'lost-grip', cost: 2.5, unit: 's' });
    expect(first.sentence).toBe('The tissue slipped out of the jaws at 3 o’clock; tissue was held again 2.5 s later.');
    expect(second.sentence).toContain('the attempt ended 1.0 s later');
  });

  test('a near run-out costs the time until it was rescued', () => {
    const events = [event('near-run-out', 1), event('run-out-inevitable', 1.5), event('rescued', 3)];
    const near = only(costlyMoments(series(...times(50, {})), events));
    expect(near).toMatchObject({ kind: 'near-run-out', cost: 2, clock_h: 3 });
    expect(near.sentence).toContain('rescued');
  });

  test('a run-out comes first whatever else happened, and tells what led into it', () => {
    const torn = (before: number, after: number) => ({ torn: [tore(before, after)] });
    const wait = { gripping: true, drivingRatio: 0.9 };
    const samples = series(...times(400, wait), torn(0.1, 0.5), torn(0.5, 1.2));
    const events = [event('near-run-out', 40), event('run-out-inevitable', 40.05), event('run-out', 40.2)];
    const moments = costlyMoments(samples, events);
    expect(moments.map(({ kind }) => kind)).toEqual(['run-out', 'held']);
    expect(moments[0].cost).toBe(1.2);
    expect(moments[0].sentence).toContain('From 40.0 s on, letting go would have run.');
  });

  test('at most five, ranked by cost over yardstick', () => {
    const pulls = [19, 36, 27, 45, 22, 24, 20].flatMap((force_mN) => [{ gripping: true, force_mN }, {}]);
    const moments = costlyMoments(series(...pulls), []);
    expect(moments.map(({ weight }) => weight)).toEqual([3, 2, 1, 6 / 9, 4 / 9]);
    expect(costlyMoments(series(...pulls), [], 2)).toHaveLength(2);
  });
});

describe('the recorder', () => {
  test('what it records of a real tear adds up to what the world says', () => {
    const file = <T extends { id: string }>(list: readonly T[], id: string) => list.find((one) => one.id === id)!;
    const scenario = checkScenario(file(SHIPPED_SCENARIOS, 'infant-thin-fluid').data, 'scenario');
    const hand = checkHand(file(SHIPPED_HANDS, 'tangent-pull').data, 'hand');
    if (!scenario.ok || !hand.ok) throw new Error('a shipped file is not sound');
    const world = createWorld(scenario.value);
    const next = handPlayer(world, hand.value);
    const recorder = createMomentRecorder(world);
    let events = 0;
    for (let view = viewWorld(world); view.step < 330; ) {
      const command = next(view);
      if (command === null) break;
      stepWorld(world, command);
      recorder.record();
      view = viewWorld(world);
      events += view.events.length;
    }
    const { samples } = recorder;
    expect(samples).toHaveLength(world.step);
    expect(samples.at(-1)?.time_s).toBeCloseTo(world.step * STEP_S, 12);
    // Reading takes no event away from the page.
    expect(events).toBe(world.events.length);
    const torn = samples.flatMap((sample) => sample.torn);
    const length_mm = torn.reduce((sum, one) => sum + one.length_mm, 0);
    expect(world.torn_mm).toBeGreaterThan(0.5);
    // The chord over a step of several elements is at most a little shorter than the way along them.
    expect(length_mm).toBeLessThanOrEqual(world.torn_mm + 1e-9);
    expect(length_mm).toBeGreaterThan(0.98 * world.torn_mm);
    expect(new Set(torn.map(({ end }) => end)).size).toBe(1);
    torn.slice(1).forEach((one, k) => {
      expect(one.offLineBefore_mm).toBeCloseTo(torn[k].offLineAfter_mm, 9);
    });
    const lost = samples.reduce((sum, sample) => sum + sample.lostByLoad_share, 0);
    expect(lost).toBeGreaterThan(0);
    expect(lost).toBeLessThan(world.chamber.fluidLost_share);
    const work = world.recorder.result();
    expect(Math.max(...samples.map((sample) => sample.force_mN))).toBeCloseTo(work.peakForce_mN, 9);
    expect(Math.max(...samples.map((sample) => sample.sideLoad_mN))).toBeCloseTo(work.peakSideLoad_mN, 9);
  });
});

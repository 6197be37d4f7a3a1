import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { checkHand, createWorld, handPlayer, polarDrivingForce, stepWorld, viewWorld } from '../../physics/index.ts';
import { SHIPPED_HANDS } from '../../scenarios/shipped.ts';
import { shippedScenario } from '../../src-renderer/places/lecture/boards/board-setup.ts';
import type { TwinState } from '../../src-renderer/places/lecture/contract.ts';
import { followPolar, takePolar, usePolar } from '../../src-renderer/places/lecture/twin/polar-store.ts';
import { PolarMoments, polarAt } from '../../src-renderer/worker/polar-moments.ts';
import type { PolarAnswer } from '../../src-renderer/worker/twin-messages.ts';

/** The flap is held at the one; by the other the tear has gone on. */
const LOOKED_AT = 70;
const GOES_ON = 110;

describe('a moment kept for trying directions', () => {
  const moments = new PolarMoments();
  let then: ReturnType<typeof polarDrivingForce> = null;
  let tipId = -1;
  beforeAll(() => {
    const scenario = shippedScenario('infant-pressure-behind');
    const hand = checkHand(SHIPPED_HANDS.find(({ id }) => id === 'infant-behind-holding')!.data, 'hand');
    if (scenario === null || !hand.ok) throw new Error('a shipped file is not sound');
    const world = createWorld(scenario);
    const ask = handPlayer(world, hand.value);
    moments.keep(world);
    for (let step = 1; step <= LOOKED_AT + GOES_ON; step++) {
      stepWorld(world, ask(viewWorld(world))!);
      moments.keep(world);
      if (step !== LOOKED_AT) continue;
      expect(world.grip).not.toBeNull();
      tipId = world.tips[0]!.id;
      then = polarDrivingForce(world, tipId);
    }
    expect(world.topology).toBeGreaterThan(moments.at(LOOKED_AT)!.topology);
  }, 120_000);

  it('gives the curve that the whole world gave at that step, to the last digit, after the tear has gone on', () => {
    expect(then).not.toBeNull();
    expect(then!.direction_deg.length).toBeGreaterThan(8);
    const kept = moments.at(LOOKED_AT)!;
    expect(kept.step).toBe(LOOKED_AT);
    expect(polarAt(kept, tipId)).toEqual(then);
  });

  it('stays as the last one where an eye has ended, and there is none before the first', () => {
    expect(moments.at(10_000)?.step).toBe(LOOKED_AT + GOES_ON);
    expect(moments.at(-1)).toBeNull();
  });
});

it('keeps every second moment beyond its bound, and always the latest', () => {
  const scenario = shippedScenario('infant-pressure-behind');
  const world = createWorld(scenario!);
  const moments = new PolarMoments(8);
  for (let step = 0; step <= 21; step++) {
    world.step = step;
    moments.keep(world);
  }
  expect([3, 8, 15, 21].map((step) => moments.at(step)?.step)).toEqual([0, 8, 12, 21]);
});

describe('the curve beside the eyes', () => {
  const answer: PolarAnswer = { tips: 1, curves: [], fault: null };
  let run = 100;
  const asked: (number | null)[] = [];
  const eyes = {
    get run() {
      return run;
    },
    askPolar: (step: number | null) => void asked.push(step),
  };
  const twin = (step: number, playing: boolean): TwinState =>
    ({ left: { view: {} }, right: null, step, playing, held: false }) as unknown as TwinState;

  beforeEach(() => {
    vi.useFakeTimers();
    run += 1;
    asked.length = 0;
    followPolar(twin(0, true), false, eyes);
  });
  afterEach(() => void vi.useRealTimers());

  it('is asked for once the motion has rested, shown when it comes, and not asked for again', () => {
    followPolar(twin(30, true), true, eyes);
    vi.runAllTimers();
    expect(usePolar.getState().left).toBe('moving');
    expect(asked.filter((step) => step !== null)).toEqual([]);
    followPolar(twin(30, false), true, eyes);
    followPolar(twin(30, false), true, eyes);
    expect(usePolar.getState().left).toBe('computing');
    vi.runAllTimers();
    expect(asked.filter((step) => step !== null)).toEqual([30]);
    takePolar('left', run, 30, answer);
    takePolar('right', run, 30, answer);
    expect(usePolar.getState().left).toBe(answer);
    followPolar(twin(31, false), true, eyes);
    followPolar(twin(30, false), true, eyes);
    vi.runAllTimers();
    expect(usePolar.getState().left).toBe(answer);
    expect(asked.filter((step) => step !== null)).toEqual([30]);
  });

  it('is taken back when the moment moves, and what comes late is not shown for another moment', () => {
    followPolar(twin(40, false), true, eyes);
    vi.runAllTimers();
    followPolar(twin(41, false), true, eyes);
    expect(asked).toEqual([40, null]);
    takePolar('left', run, 40, answer);
    expect(usePolar.getState().left).toBe('computing');
    run += 1;
    followPolar(twin(41, false), true, eyes);
    takePolar('left', run - 1, 41, answer);
    expect(usePolar.getState().left).toBe('computing');
  });
});

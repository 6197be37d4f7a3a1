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

const started = () => {
  const scenario = shippedScenario('infant-pressure-behind');
  const hand = checkHand(SHIPPED_HANDS.find(({ id }) => id === 'infant-behind-holding')!.data, 'hand');
  if (scenario === null || !hand.ok) throw new Error('a shipped file is not sound');
  const world = createWorld(scenario);
  return { world, ask: handPlayer(world, hand.value), begin: () => createWorld(scenario) };
};

/** The moment of a step, and how many calls it took. */
function reached(moments: PolarMoments, step: number) {
  for (let calls = 1; calls < 5000; calls++) {
    const moment = moments.reach(step);
    if (moment !== null) return { moment, calls };
  }
  throw new Error('never there');
}

describe('a moment for trying directions', () => {
  const { world, ask, begin } = started();
  const moments = new PolarMoments({ begin, step: stepWorld });
  const few = new PolarMoments({ begin, step: stepWorld }, 8);
  let then: ReturnType<typeof polarDrivingForce> = null;
  let later: Float64Array;
  let tipId = -1;
  beforeAll(() => {
    for (let step = 1; step <= LOOKED_AT + GOES_ON; step++) {
      const command = ask(viewWorld(world))!;
      stepWorld(world, command);
      moments.took(command, world);
      few.took(command, world);
      if (step === LOOKED_AT + GOES_ON - 1) later = world.x.slice();
      if (step !== LOOKED_AT) continue;
      expect(world.grip).not.toBeNull();
      tipId = world.tips[0]!.id;
      then = polarDrivingForce(world, tipId);
    }
  }, 120_000);

  it('is not kept while nobody asks', () => {
    expect(moments.size).toBe(0);
  });

  it('gives the curve that the whole world gave at that step, to the last digit, computed again or kept', () => {
    expect(then).not.toBeNull();
    expect(then!.direction_deg.length).toBeGreaterThan(8);
    const { moment, calls } = reached(moments, LOOKED_AT);
    expect(moment.step).toBe(LOOKED_AT);
    expect(calls).toBeGreaterThan(1);
    expect(world.topology).toBeGreaterThan(moment.topology);
    expect(polarAt(moment, tipId)).toEqual(then);
    // going on changes nothing of it, and now it is kept
    reached(moments, LOOKED_AT + 40);
    expect(reached(moments, LOOKED_AT).calls).toBe(1);
    expect(polarAt(reached(moments, LOOKED_AT).moment, tipId)).toEqual(then);
  }, 120_000);

  it('is the very same wherever one scrubs beyond the bound, which holds', () => {
    expect(reached(few, LOOKED_AT + GOES_ON - 1).moment.x).toEqual(later);
    const { moment } = reached(few, LOOKED_AT);
    expect(few.size).toBeLessThanOrEqual(8);
    expect(moment.step).toBe(LOOKED_AT);
    expect(polarAt(moment, tipId)).toEqual(then);
  }, 120_000);

  it('is that of the beginning before the first step, and the last one beyond the last', () => {
    expect(reached(moments, -1).moment.step).toBe(0);
    expect(reached(moments, 10_000).moment.step).toBe(LOOKED_AT + GOES_ON);
  }, 120_000);
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

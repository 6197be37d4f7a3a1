import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Vec2 } from '../../physics/index.ts';
import {
  HAND_NUMBERS,
  HAND_RANGES,
  handWays,
  keepHands,
  keptHands,
  USUAL_HANDS,
  useHands,
  usePadNews,
} from '../../src-renderer/stores/hands-store.ts';
import { SteeringKeys } from '../../src-renderer/tools/arrows.ts';
import { firstIncision } from '../../src-renderer/tools/first-incision.ts';
import { commandOf, type HandEvent, type HandState, handAfter, restingHand } from '../../src-renderer/tools/hand.ts';
import { FREE, tipOf } from '../../src-renderer/tools/held-way.ts';
import type { KeyAction } from '../../src-renderer/tools/keys.ts';
import { listenToPad } from '../../src-renderer/tools/listen-to-pad.ts';
import { padAfter, RESTING_PAD, stickShare } from '../../src-renderer/tools/pad-hand.ts';
import { lean_deg, type PenSample, penAfter, penGone, RESTING_PEN } from '../../src-renderer/tools/pen-hand.ts';
import { lag_ms, STEADYING, type Steadied, steadiedAfter } from '../../src-renderer/tools/steady.ts';
import { NO_TOUCH, type TouchDeed, touchAfter } from '../../src-renderer/tools/touch-hand.ts';
import { FakePads, listeningStage, type StageElement } from '../support/devices.ts';

const kinds = (events: readonly HandEvent[]) => events.map(({ kind }) => kind);

describe('a pen', () => {
  const ways = { sensitivity: 1, closes: 0.4, tilt_mm_per_deg: 0.02 };
  const sample = (over: Partial<PenSample> = {}): PenSample => ({
    at_mm: [1, 0],
    pressure: 0,
    tiltX_deg: 40,
    tiltY_deg: 0,
    barrel: false,
    ...over,
  });
  const after = (samples: readonly Partial<PenSample>[]) =>
    samples.reduce<readonly [typeof RESTING_PEN, readonly HandEvent[]]>(
      ([pen, before], over) => {
        const [next, events] = penAfter(pen, sample(over), ways);
        return [next, [...before, ...events]];
      },
      [RESTING_PEN, []],
    );

  it('moves above the stage and lightly on it without closing the jaws', () => {
    const [pen, events] = after([{}, { pressure: 0.2 }, { pressure: 0.39 }]);
    expect(pen.closed).toBe(false);
    expect(kinds(events)).not.toContain('press');
    expect(events).toContainEqual({ kind: 'point', at_mm: [1, 0] });
  });

  it('closes at one pressure and opens at half of it, so that a trembling pressure holds on', () => {
    const [pen, events] = after([0.45, 0.35, 0.25, 0.38, 0.22].map((pressure) => ({ pressure })));
    expect(pen.closed).toBe(true);
    expect(kinds(events).filter((kind) => kind === 'press' || kind === 'release')).toEqual(['press']);
    expect(kinds(penAfter(pen, sample({ pressure: 0.19 }), ways)[1])).toContain('release');
  });

  it('that feels no pressure closes on the stage, with the usual setting', () => {
    const usual = { ...ways, closes: USUAL_HANDS.penCloses };
    expect(penAfter(RESTING_PEN, sample({ pressure: 0.5 }), usual)[0].closed).toBe(true);
  });

  it('raises what is held when it is stood up, and nothing while the jaws are open', () => {
    expect(kinds(after([{}, { tiltX_deg: 0 }])[1])).not.toContain('lean');
    const lifts = after([{ pressure: 0.6 }, { pressure: 0.6, tiltX_deg: 38 }, { pressure: 0.6, tiltX_deg: 17 }])[1];
    // 3 degrees are no wish; 23 degrees of standing up are 20 beyond that
    expect(lifts.filter(({ kind }) => kind === 'lean')).toEqual([
      { kind: 'lean', lift_mm: expect.closeTo(0, 9) },
      { kind: 'lean', lift_mm: expect.closeTo(20 * 0.02, 9) },
    ]);
  });

  it('leans the same whichever way, and says a number even where it lies flat', () => {
    expect(lean_deg({ tiltX_deg: 0, tiltY_deg: -30 })).toBeCloseTo(30, 9);
    expect(lean_deg({ tiltX_deg: 90, tiltY_deg: 90 })).toBeLessThan(90);
    expect(lean_deg({ tiltX_deg: Number.NaN, tiltY_deg: 0 })).toBe(0);
  });

  it('lays the flap over once per press of its button', () => {
    const events = after([{ barrel: true }, { barrel: true }, { barrel: false }, { barrel: true }])[1];
    expect(kinds(events).filter((kind) => kind === 'fold')).toHaveLength(2);
  });

  it('lets go when the system takes it away', () => {
    expect(kinds(penGone(after([{ pressure: 0.6 }])[0])[1])).toContain('release');
    expect(kinds(penGone(RESTING_PEN)[1])).not.toContain('release');
  });
});

describe('fingers', () => {
  const ways = {
    sensitivity: 1,
    gap_px: 60,
    leftHanded: false,
    rest_s: 0.3,
    toMm: ([x, y]: Vec2): Vec2 => [x / 50, -y / 50],
  };
  const down = (id: number, time_s: number, at_px: Vec2 = [100, 100]): TouchDeed => ({
    kind: 'down',
    id,
    time_s,
    at_px,
  });
  const move = (id: number, time_s: number, at_px: Vec2): TouchDeed => ({ kind: 'move', id, time_s, at_px });
  const up = (id: number, time_s: number): TouchDeed => ({ kind: 'up', id, time_s });
  const rest = (time_s: number): TouchDeed => ({ kind: 'pass', time_s });
  const after = (deeds: readonly TouchDeed[], over: Partial<typeof ways> = {}) =>
    deeds.reduce<readonly [typeof NO_TOUCH, readonly HandEvent[]]>(
      ([hand, before], deed) => {
        const [next, events] = touchAfter(hand, deed, { ...ways, ...over });
        return [next, [...before, ...events]];
      },
      [NO_TOUCH, []],
    );

  it('have the tip stand a gap away, up and away from the hand', () => {
    const right = after([down(1, 0)])[1][0];
    const left = after([down(1, 0)], { leftHanded: true })[1][0];
    if (right?.kind !== 'point' || left?.kind !== 'point') throw new Error('no place');
    const [dx, dy] = [right.at_mm[0] * 50 - 100, -right.at_mm[1] * 50 - 100];
    expect(Math.hypot(dx, dy)).toBeCloseTo(60, 9);
    expect([dx < 0, dy < 0]).toEqual([true, true]);
    expect(left.at_mm[0] * 50 - 100).toBeCloseTo(-dx, 9);
  });

  it('close the jaws by resting, however long they moved before', () => {
    const moving = [down(1, 0), ...[1, 2, 3, 4, 5].map((k) => move(1, 0.1 * k, [100 + 10 * k, 100]))];
    expect(kinds(after([...moving, rest(0.75)])[1])).not.toContain('press');
    expect(kinds(after([...moving, rest(0.75), rest(0.85)])[1]).filter((kind) => kind === 'press')).toHaveLength(1);
    expect(kinds(after([down(1, 0)], { rest_s: 0 })[1])).toEqual(['point', 'press']);
  });

  const holding = [down(1, 0), rest(0.4)];

  it('raise and lower with the second one, counted from where it landed', () => {
    const events = after([
      ...holding,
      down(2, 1),
      move(2, 1.1, [100, 95]),
      move(2, 1.2, [100, 70]),
      move(2, 1.3, [100, 90]),
    ])[1];
    expect(events.filter(({ kind }) => kind === 'raise')).toEqual([
      { kind: 'raise', by_mm: expect.closeTo(0.3, 9) },
      { kind: 'raise', by_mm: expect.closeTo(-0.2, 9) },
    ]);
  });

  it('lay the flap over with a tap of the second one, not with a long or a moving touch', () => {
    const folds = (deeds: readonly TouchDeed[]) => kinds(after([...holding, down(2, 1), ...deeds])[1]).includes('fold');
    expect(folds([up(2, 1.2)])).toBe(true);
    expect(folds([up(2, 1.5)])).toBe(false);
    expect(folds([move(2, 1.1, [100, 70]), up(2, 1.2)])).toBe(false);
    expect(folds([{ kind: 'taken-away', id: 2, time_s: 1.1 }])).toBe(false);
  });

  it('leave a third touch out', () => {
    const two = [...holding, down(2, 1)];
    const third = [down(3, 1.1), move(3, 1.2, [300, 300]), up(3, 1.25)];
    expect(after([...two, ...third])).toEqual(after(two));
  });

  it('let go when the first one is lifted or taken away; the second does not take over', () => {
    const ends: readonly TouchDeed[] = [up(1, 2), { kind: 'taken-away', id: 1, time_s: 2 }];
    for (const end of ends) {
      const [hand, events] = after([...holding, down(2, 1), end]);
      expect(kinds(events).at(-1)).toBe('release');
      expect(touchAfter(hand, move(2, 2.1, [10, 10]), ways)).toEqual([NO_TOUCH, []]);
    }
  });
});

describe('the stage', () => {
  let done: HandEvent[];
  let stage: StageElement;
  beforeEach(() => {
    useHands.setState(USUAL_HANDS);
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
    done = [];
    stage = listeningStage({ act: (event) => void done.push(event) });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('notices a resting finger without a further event, and lets go when the system takes the finger away', () => {
    stage.pointer('pointerdown', 'touch', [400, 400]);
    expect(kinds(done)).toEqual(['point']);
    vi.advanceTimersByTime(400);
    expect(kinds(done)).toEqual(['point', 'press']);
    stage.pointer('pointercancel', 'touch', [400, 400]);
    expect(kinds(done)).toEqual(['point', 'press', 'release']);
    expect(vi.getTimerCount()).toBe(0);
  });

  it('takes a touch beside a pen for a palm', () => {
    stage.pointer('pointermove', 'pen', [300, 300], { pressure: 0, tiltX: 0, tiltY: 0 });
    const before = done.length;
    vi.advanceTimersByTime(300);
    stage.pointer('pointerdown', 'touch', [500, 500]);
    vi.advanceTimersByTime(600);
    expect(done).toHaveLength(before);
    stage.pointer('pointerdown', 'touch', [500, 500]);
    expect(done.length).toBeGreaterThan(before);
  });

  it('lets a pen go that is cancelled, and a mouse', () => {
    stage.pointer('pointerdown', 'pen', [300, 300], { pressure: 0.7, tiltX: 0, tiltY: 0 });
    stage.pointer('pointercancel', 'pen', [300, 300], { pressure: 0.7 });
    expect(kinds(done)).toContain('release');
    done.length = 0;
    stage.pointer('pointerdown', 'mouse', [300, 300]);
    stage.pointer('pointercancel', 'mouse', [300, 300]);
    expect(kinds(done)).toEqual(['point', 'press', 'release']);
  });

  it('has a held tip go a share of the way of the mouse, from where it was taken', () => {
    useHands.setState({ mouse: 0.5 });
    stage.pointer('pointerdown', 'mouse', [400, 400]);
    stage.pointer('pointermove', 'mouse', [400 + stage.frame.pxPerMm, 400]);
    const [at, moved] = done.flatMap((event) => (event.kind === 'point' ? [event.at_mm] : []));
    expect((moved?.[0] ?? 0) - (at?.[0] ?? 0)).toBeCloseTo(0.5, 9);
    expect(tipOf(FREE, [3, 4], 0.5)).toEqual([3, 4]);
  });
});

describe('a gamepad', () => {
  const ways = { speed_mm_per_s: 2, leftHanded: false };
  const looked = (change: (pads: FakePads) => void, over: Partial<typeof ways> = {}) => {
    const pads = new FakePads();
    change(pads);
    return padAfter(RESTING_PAD, pads, 0.1, { ...ways, ...over });
  };

  it('rests in a round dead zone and is slow near it', () => {
    expect(stickShare([0.1, 0.1])).toEqual([0, 0]);
    expect(Math.hypot(...stickShare([0.12, 0.12]))).toBeGreaterThan(0);
    expect(stickShare([1, 0])[0]).toBeCloseTo(1, 9);
    expect(stickShare([0.5, 0])[0]).toBeLessThan(0.25);
    expect(Math.hypot(...stickShare([1, 1]))).toBeCloseTo(1, 9);
  });

  it('moves with one stick, away from the surgeon when it is pushed away, and lifts with the other', () => {
    const [, events] = looked(({ axes }) => {
      axes[1] = -1;
      axes[3] = -1;
    });
    expect(events).toContainEqual({ kind: 'move', by_mm: [0, expect.closeTo(0.2, 9)] });
    expect(events.find(({ kind }) => kind === 'raise')).toMatchObject({ by_mm: expect.closeTo(0.08, 9) });
  });

  it('closes the jaws by its trigger, which must come back some way to open them', () => {
    let pad = RESTING_PAD;
    const seen: string[] = [];
    for (const value of [0.3, 0.59, 0.7, 0.5, 0.65, 0.45, 0.3]) {
      const pads = new FakePads();
      pads.hold(7, value);
      const [next, events] = padAfter(pad, pads, 0.016, ways);
      pad = next;
      seen.push(...kinds(events).filter((kind) => kind !== 'squeeze'));
    }
    expect(seen).toEqual(['press', 'release']);
  });

  it('changes sides for a left hand', () => {
    const both = ({ axes, hold }: FakePads) => {
      axes[0] = 1;
      hold.call(pads, 6, 1);
    };
    const pads = new FakePads();
    both(pads);
    expect(kinds(padAfter(RESTING_PAD, pads, 0.1, { ...ways, leftHanded: true })[1])).toEqual(['press']);
    expect(kinds(padAfter(RESTING_PAD, pads, 0.1, ways)[1])).toEqual(['move']);
  });

  it('does what a button says once per press, and stands a broken axis', () => {
    const [pad, , actions] = looked((pads) => pads.hold(9, 1));
    expect(actions).toEqual([{ kind: 'pause' }]);
    const pads = new FakePads();
    pads.hold(9, 1);
    pads.axes[0] = Number.NaN;
    const [, events, again] = padAfter(pad, pads, 0.1, ways);
    expect(again).toEqual([]);
    expect(events).toEqual([]);
  });

  it('is looked at only while it is there; pulled out it lets go, time is stopped, and a line says so', () => {
    const pads = new FakePads();
    pads.plugged = false;
    const done: HandEvent[] = [];
    const actions: KeyAction[] = [];
    const lost = vi.fn();
    const stop = listenToPad(
      { act: (event) => void done.push(event), perform: (action) => void actions.push(action), lost },
      pads.around,
    );
    expect(pads.looking).toBe(false);
    pads.plugged = true;
    pads.events.dispatchEvent(new Event('gamepadconnected'));
    expect(pads.looking).toBe(true);
    pads.hold(7, 1);
    pads.hold(0, 1);
    pads.frame(1 / 60);
    expect(kinds(done)).toEqual(['press']);
    expect(actions).toEqual([{ kind: 'fold' }]);
    pads.pull();
    expect(kinds(done)).toEqual(['press', 'release']);
    expect(lost).toHaveBeenCalledOnce();
    expect(usePadNews.getState().news).toBe('unplugged');
    pads.frame(1 / 60);
    expect(pads.looking).toBe(false);
    stop();
  });
});

describe('the steadied hand', () => {
  const dt_s = 1 / 60;
  const run = (at: (time_s: number) => Vec2, time_s: number): readonly Steadied[] => {
    const all: Steadied[] = [];
    for (let k = 0; k * dt_s < time_s; k++) all.push(steadiedAfter(all.at(-1) ?? null, at(k * dt_s), dt_s, STEADYING));
    return all;
  };

  it('keeps less than a third of a tremor of 10 Hz', () => {
    const shaken = run((time_s) => [0.05 * Math.sin(20 * Math.PI * time_s), 0], 4).slice(120);
    expect(Math.max(...shaken.map(({ at_mm }) => Math.abs(at_mm[0])))).toBeLessThan(0.05 / 3);
  });

  it('lags a constant pull by what is said', () => {
    const speed_mm_per_s = 2;
    const last = run((time_s) => [0, speed_mm_per_s * time_s], 4).at(-1);
    const behind_mm = (last?.raw_mm[1] ?? 0) - (last?.at_mm[1] ?? 0);
    expect((1000 * behind_mm) / speed_mm_per_s).toBeCloseTo(lag_ms(speed_mm_per_s, STEADYING), 1);
    expect(lag_ms(0, STEADYING)).toBeCloseTo(1000 / (2 * Math.PI * 1.5), 9);
  });

  it('is off unless asked for, and in a trial whatever is asked for', () => {
    expect(USUAL_HANDS.steadied).toBe(false);
    useHands.setState({ ...USUAL_HANDS, steadied: true });
    expect(handWays('bench').steadying).toBe(STEADYING);
    expect(handWays('lecture').steadying).toBe(STEADYING);
    expect(handWays('trial').steadying).toBeNull();
    useHands.setState(USUAL_HANDS);
  });

  it('comes to rest where the hand is, and begins and ends without a leap', () => {
    const seen = { instrument: { tip_mm: [0, 0, 0.5] as const, gripping: false }, tips: [] };
    const pass = (steadied: boolean): HandEvent => ({
      kind: 'pass',
      dt_s,
      ways: { steadying: steadied ? STEADYING : null, keys_mm_per_s: 1 },
    });
    let hand: HandState = handAfter(restingHand([1, 1]), pass(true), seen);
    expect(commandOf(hand, seen)).toMatchObject({ x_mm: 1, y_mm: 1 });
    hand = handAfter(hand, { kind: 'point', at_mm: [2, 1] }, seen);
    hand = handAfter(hand, pass(true), seen);
    expect(commandOf(hand, seen).x_mm).toBeLessThan(1.9);
    for (let k = 0; k < 240; k++) hand = handAfter(hand, pass(true), seen);
    expect(commandOf(hand, seen).x_mm).toBeCloseTo(2, 3);
    expect(handAfter(hand, pass(false), seen).steady).toBeNull();
  });
});

describe('settings of hands', () => {
  it('are taken from what was kept only where they are whole', () => {
    const kept = { 'hands.mouse': 0.5, 'hands.pen': 99, 'hands.leftHanded': true, 'hands.steadied': 'yes', other: 1 };
    expect(keptHands(kept)).toEqual({ mouse: 0.5, leftHanded: true });
    expect(keptHands({ 'hands.touch': Number.NaN })).toEqual({});
  });

  it('are brought back at the start and kept when they change, and only what changed', async () => {
    const savePreference = vi.fn(() => Promise.resolve());
    const loadPreferences = () => Promise.resolve({ 'hands.keysSpeedmmpers': 2, 'hands.steadied': true });
    vi.stubGlobal('window', { rimwardHost: { loadPreferences, savePreference } });
    try {
      useHands.setState(USUAL_HANDS);
      await keepHands();
      expect(useHands.getState()).toMatchObject({ keysSpeed_mm_per_s: 2, steadied: true });
      useHands.getState().set({ leftHanded: true });
      expect(savePreference.mock.calls).toEqual([['hands.leftHanded', true]]);
    } finally {
      vi.unstubAllGlobals();
      useHands.setState(USUAL_HANDS);
    }
  });

  it('have usual values within their ends', () => {
    for (const key of HAND_NUMBERS) {
      const { usual, least, most } = HAND_RANGES[key];
      expect(usual, key).toBeGreaterThanOrEqual(least);
      expect(usual, key).toBeLessThanOrEqual(most);
    }
  });
});

describe('the left hand', () => {
  const clock = (...hours: readonly number[]) => hours.map((clock_h) => ({ clock_h }));

  it('enters on its own side where there is an incision, the right hand where it was', () => {
    expect(firstIncision(clock(5, 8.5), 0, true)).toBe(1);
    expect(firstIncision(clock(9, 8), 0, true)).toBe(0);
    expect(firstIncision(clock(3, 5), 1, true)).toBe(1);
    expect(firstIncision(clock(5, 8.5), 0, false)).toBe(0);
    expect(firstIncision(clock(5), 3, false)).toBe(0);
  });

  it('steers with letters too, and none sticks when Shift changes them', () => {
    const keys = new SteeringKeys();
    expect(keys.press('W', false)).toBe(false);
    expect(keys.press('W', true)).toBe(true);
    expect(keys.press('ArrowRight', true)).toBe(true);
    expect(keys.direction).toEqual([1, 1]);
    expect(keys.lift('w')).toBe(true);
    expect(keys.direction).toEqual([1, 0]);
    keys.press('s', true);
    expect(keys.lift('S')).toBe(true);
    expect(keys.direction).toEqual([1, 0]);
    expect(keys.liftAll()).toBe(true);
    expect(keys.direction).toEqual([0, 0]);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SteeringKeys } from '../../src-renderer/tools/arrows.ts';
import { FOLD_s, foldAt, nearestTip, planFold } from '../../src-renderer/tools/fold-path.ts';
import {
  askedTip,
  commandOf,
  type HandEvent,
  type HandState,
  handAfter,
  rested,
  restingHand,
  type Seen,
  takenOver,
} from '../../src-renderer/tools/hand.ts';
import { actionOf } from '../../src-renderer/tools/keys.ts';

const tip = { position_mm: [2, 0] as const, tangent_deg: 90, live: true };
const seen = (over: Partial<Seen['instrument']> = {}): Seen => ({
  instrument: { tip_mm: [0, 0, 0.5], gripping: false, ...over },
  tips: [tip],
});
const after = (hand: HandState, events: readonly HandEvent[], view: Seen = seen()): HandState =>
  events.reduce((state, event) => handAfter(state, event, view), hand);
const pass = (dt_s: number): HandEvent => ({ kind: 'pass', dt_s });
const holding = (at: readonly [number, number] = [1, 0]) =>
  after(restingHand(at), [{ kind: 'press' }, pass(0.01)], seen({ tip_mm: [at[0], at[1], 0] }));

describe('the hand', () => {
  it('hovers with open jaws clear of the tissue and follows the pointer', () => {
    const hand = after(restingHand([0, 0]), [{ kind: 'point', at_mm: [1.5, -0.5] }]);
    expect(commandOf(hand, seen())).toMatchObject({ x_mm: 1.5, y_mm: -0.5, jaws: 0 });
    expect(commandOf(hand, seen()).lift_mm).toBeGreaterThan(0);
  });

  it('goes down with open jaws first and closes them only where the tip has arrived', () => {
    const pressed = after(restingHand([1, 0]), [{ kind: 'press' }, pass(0.05)], seen({ tip_mm: [1, 0, 0.5] }));
    expect(commandOf(pressed, seen())).toMatchObject({ jaws: 0, lift_mm: 0 });
    const down = handAfter(pressed, pass(0.02), seen({ tip_mm: [1, 0, 0.05] }));
    expect(commandOf(down, seen()).jaws).toBe(1);
  });

  it('closes on nothing after a while rather than waiting for a place it cannot reach', () => {
    const far = seen({ tip_mm: [4, 0, 0.5] });
    let hand = after(restingHand([1, 0]), [{ kind: 'press' }], far);
    for (let i = 0; i < 45; i++) hand = handAfter(hand, pass(1 / 60), far);
    expect(hand.doing).toBe('holding');
  });

  it('lifts a little once tissue is held and stays on the tissue until then', () => {
    expect(commandOf(holding(), seen()).lift_mm).toBe(0);
    expect(commandOf(holding(), seen({ gripping: true })).lift_mm).toBeGreaterThan(0.1);
  });

  it('opens on release, on another instrument and on another incision', () => {
    const events: HandEvent[] = [
      { kind: 'release' },
      { kind: 'take', instrument: 'needle' },
      { kind: 'enter-through', incision: 1 },
    ];
    for (const event of events) expect(commandOf(handAfter(holding(), event, seen()), seen()).jaws).toBe(0);
  });

  it('injects with the cannula at once, without going down', () => {
    const hand = after(restingHand([0, 0], 'cannula'), [{ kind: 'press' }]);
    expect(commandOf(hand, seen())).toMatchObject({ jaws: 1, instrument: 'cannula' });
    expect(commandOf(hand, seen()).lift_mm).toBeGreaterThan(0);
  });

  it('moves with the arrow keys at one speed in every direction', () => {
    const straight = after(restingHand([0, 0]), [{ kind: 'steer', direction: [1, 0], slowly: false }, pass(0.5)]);
    const slanted = after(restingHand([0, 0]), [{ kind: 'steer', direction: [1, 1], slowly: false }, pass(0.5)]);
    expect(Math.hypot(...slanted.pointer_mm)).toBeCloseTo(straight.pointer_mm[0], 9);
    expect(straight.pointer_mm[0]).toBeGreaterThan(0.3);
  });

  it('asks only for finite values within reach, whatever happens', () => {
    const anyNumber = fc.oneof(fc.double(), fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, 1e300));
    const anyEvent: fc.Arbitrary<HandEvent> = fc.oneof(
      fc.record({ kind: fc.constant('point' as const), at_mm: fc.tuple(anyNumber, anyNumber) }),
      fc.constantFrom<HandEvent>({ kind: 'press' }, { kind: 'release' }, { kind: 'fold' }, { kind: 'toggle' }),
      fc.record({ kind: fc.constant('raise' as const), by_mm: fc.double({ min: -9, max: 9, noNaN: true }) }),
      fc.record({ kind: fc.constant('pass' as const), dt_s: fc.double({ min: 0, max: 0.1, noNaN: true }) }),
    );
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 40 }), fc.boolean(), (events, gripping) => {
        const view = seen({ gripping, tip_mm: [1, 1, 0] });
        const command = commandOf(after(restingHand([0, 0]), events, view), view);
        expect(Math.hypot(command.x_mm, command.y_mm)).toBeLessThanOrEqual(40);
        expect(command.lift_mm).toBeGreaterThanOrEqual(0);
        expect(command.lift_mm).toBeLessThanOrEqual(3 + 1.2);
      }),
    );
  });
});

describe('folding the flap', () => {
  const gripping = seen({ gripping: true });

  it('mirrors the grip across the line through the tip square to the tear', () => {
    const path = planFold([1.6, -0.8], tip, 0.3);
    expect(path.to_mm[0]).toBeCloseTo(1.6, 12);
    expect(path.to_mm[1]).toBeCloseTo(0.8, 12);
  });

  it('starts where the hand is, arches over, and lays the flap down', () => {
    const path = planFold([1.6, -0.8], tip, 0.3);
    expect(foldAt(path, 0)).toEqual({ at_mm: [1.6, -0.8], lift_mm: 0.3 });
    expect(foldAt(path, FOLD_s / 2).lift_mm).toBeGreaterThan(0.5);
    expect(foldAt(path, 9).at_mm).toEqual(path.to_mm);
    expect(foldAt(path, 9).lift_mm).toBeLessThan(0.2);
  });

  it('is done by the hand only while the forceps hold tissue', () => {
    expect(handAfter(holding(), { kind: 'fold' }, seen()).doing).toBe('holding');
    expect(handAfter(restingHand([1, 0]), { kind: 'fold' }, gripping).doing).toBe('hovering');
    expect(handAfter(holding(), { kind: 'fold' }, gripping).doing).toBe('folding');
  });

  it('keeps the jaws closed all the way, then goes on from there without a leap when the pointer moves', () => {
    let hand = handAfter(holding([1.6, -0.8]), { kind: 'fold' }, gripping);
    for (let i = 0; i < 60; i++) {
      const before = askedTip(hand);
      hand = handAfter(hand, pass(1 / 60), gripping);
      expect(commandOf(hand, gripping).jaws).toBe(1);
      expect(Math.hypot(askedTip(hand)[0] - before[0], askedTip(hand)[1] - before[1])).toBeLessThan(0.1);
    }
    expect(hand.doing).toBe('holding');
    expect(askedTip(hand)[1]).toBeCloseTo(0.8, 6);
    const moved = handAfter(hand, { kind: 'point', at_mm: [1.7, -0.8] }, gripping);
    expect(askedTip(moved)[0] - askedTip(hand)[0]).toBeCloseTo(0.1, 9);
    const freed = handAfter(moved, { kind: 'release' }, gripping);
    expect(askedTip(freed)).toEqual([1.7, -0.8]);
  });

  it('goes by the nearest live tip', () => {
    const other = { position_mm: [-2, 0] as const, tangent_deg: 270, live: true };
    expect(nearestTip([-1.5, 0.2], [tip, other])).toBe(other);
    expect(nearestTip([-1.5, 0.2], [tip, { ...other, live: false }])).toBe(tip);
    expect(nearestTip([0, 0], [])).toBeNull();
  });
});

describe('the keys of the bench', () => {
  const press = (key: string, over = {}) => actionOf({ key, ctrlKey: false, metaKey: false, altKey: false, ...over });

  it('leave keys with Ctrl, Cmd and Alt to the window, but for undo', () => {
    expect(press('r', { ctrlKey: true })).toBeNull();
    expect(press('1', { metaKey: true })).toBeNull();
    expect(press('f', { altKey: true })).toBeNull();
    expect(press('z', { ctrlKey: true })).toEqual({ kind: 'bring-back' });
  });

  it('work in upper and lower case', () => {
    expect(press('R')).toEqual({ kind: 'start-over' });
    expect(press('F')).toEqual({ kind: 'fold' });
  });

  it('steer by the sum of the arrows held down', () => {
    const keys = new SteeringKeys();
    expect(['ArrowLeft', 'ArrowUp', 'x'].map((key) => keys.press(key, false))).toEqual([true, true, false]);
    expect(keys.direction).toEqual([-1, 1]);
    keys.lift('ArrowUp');
    keys.press('ArrowRight', false);
    expect(keys.direction).toEqual([0, 0]);
  });
});

describe('a hand that goes on from another', () => {
  const last = { x_mm: 1, y_mm: 2, lift_mm: 0.3, jaws: 1, instrument: 'forceps', incision: 0 } as const;
  const seen = { instrument: { tip_mm: [1, 2, 0.3] as const, gripping: true }, tips: [] };

  it('holds what was held, where it was held, wherever the pointer is', () => {
    const taken = takenOver(last);
    expect(commandOf(taken, seen)).toEqual(last);
    const pointed = handAfter(taken, { kind: 'point', at_mm: [-3, -3] }, seen);
    expect(commandOf(pointed, seen)).toMatchObject({ x_mm: 1, y_mm: 2, jaws: 1 });
    const moved = handAfter(pointed, { kind: 'point', at_mm: [-2.5, -3] }, seen);
    expect(commandOf(moved, seen).x_mm).toBeCloseTo(1.5, 9);
    expect(commandOf(moved, seen).y_mm).toBeCloseTo(2, 9);
  });

  it('after a rest does not leap to the pointer while it holds, and goes to it while it hovers', () => {
    const holding = rested(takenOver(last));
    const pointed = handAfter(holding, { kind: 'point', at_mm: [4, 0] }, seen);
    expect(commandOf(pointed, seen)).toMatchObject({ x_mm: 1, y_mm: 2 });
    const hovering = rested(takenOver({ ...last, jaws: 0 }));
    expect(commandOf(handAfter(hovering, { kind: 'point', at_mm: [4, 0] }, seen), seen)).toMatchObject({
      x_mm: 4,
      y_mm: 0,
    });
  });
});

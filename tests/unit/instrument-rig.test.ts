import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { InstrumentPose, InstrumentSite } from '../../physics/instrument/contract.ts';
import { reachOf } from '../../physics/instrument/reach.ts';
import { createInstrumentRig } from '../../physics/instrument/rig.ts';
import { advanceShaft, createShaft, pushShaft, shaftPoint, turnShaft } from '../../physics/instrument/shaft.ts';
import * as value from '../../physics/instrument/shaft-values.ts';
import { type HandCommand, STEP_S, type Vec2 } from '../../physics/world/contract.ts';

const RADIUS = 5.7;
const atClock = (hour: number): Vec2 => [
  RADIUS * Math.sin((hour * Math.PI) / 6),
  RADIUS * Math.cos((hour * Math.PI) / 6),
];
const site: InstrumentSite = {
  limbusDiameter_mm: 2 * RADIUS,
  pupilDiameter_mm: 7,
  pupilCentre_mm: [0, 0],
  incisions: [
    { position_mm: atClock(6), width_mm: 2.4 },
    { position_mm: atClock(9), width_mm: 1.2 },
  ],
};
const ask = (x_mm: number, y_mm: number, more: Partial<HandCommand> = {}): HandCommand => ({
  x_mm,
  y_mm,
  lift_mm: 0.5,
  jaws: 0,
  instrument: 'forceps',
  incision: 0,
  ...more,
});
type Force = readonly [number, number, number];
const NONE: Force = [0, 0, 0];

function hold(rig: ReturnType<typeof createInstrumentRig>, command: HandCommand, force: Force, seconds: number) {
  let pose = rig.pose();
  for (let step = 0; step < seconds / STEP_S; step++) pose = rig.step(command, force, STEP_S);
  return pose;
}
const numbers = (pose: InstrumentPose) => [...pose.tip_mm, pose.shaft_deg, pose.sideLoad_mN];

describe('units of the rigid body', () => {
  const size = { length_mm: 40, width_mm: 0.6, mass_kg: 0.01 };
  const dt = 1 / 960;

  it('a free body under a constant force moves as F t^2 / 2m', () => {
    const shaft = createShaft([0, 0], 0, size, []);
    for (let k = 0; k < 960; k++) {
      pushShaft(shaft, [shaft.body.position.x, shaft.body.position.y], [3, -2]);
      advanceShaft(shaft, dt);
    }
    // 3 mN on 10 g for 1 s: 150 mm. The integrator is ahead of that by one part in the number of steps.
    const [x, y] = shaftPoint(shaft, 0);
    expect(Math.abs(x / 150 - 1)).toBeLessThan(1.1 / 960);
    expect(Math.abs(y / -100 - 1)).toBeLessThan(1.1 / 960);
    expect(shaft.body.angle).toBe(0);
  });

  it('a free bar under a constant couple turns as M t^2 / 2I, I = m L^2 / 12', () => {
    const shaft = createShaft([0, 0], 0.3, size, []);
    for (let k = 0; k < 480; k++) {
      turnShaft(shaft, 5);
      advanceShaft(shaft, dt);
    }
    const expected = (5 * 0.5 ** 2) / 2 / ((0.01 * 40 ** 2) / 12);
    expect(Math.abs((shaft.body.angle - 0.3) / expected - 1)).toBeLessThan(1.1 / 480);
  });
});

describe('reach', () => {
  it('a place in front of the incision is reached as asked', () => {
    const reach = reachOf([1, 2], atClock(6), 5.4);
    expect(reach.tip_mm[0]).toBeCloseTo(1, 12);
    expect(reach.tip_mm[1]).toBeCloseTo(2, 12);
    expect(reach.missed_mm).toBeCloseTo(0, 12);
    expect(reach.shaft_rad).toBeCloseTo(Math.atan2(7.7, 1), 12);
  });

  it('whatever is asked, the tip stays within 60 degrees, in front of the incision and inside the wall', () => {
    const coordinate = fc.double({ min: -1e308, max: 1e308, noNaN: true });
    const near = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(fc.oneof(coordinate, near), fc.oneof(coordinate, near), (x, y) => {
        const reach = reachOf([x, y], atClock(6), 5.4);
        expect(Math.abs(reach.shaft_rad - Math.PI / 2)).toBeLessThanOrEqual(Math.PI / 3 + 1e-12);
        expect(reach.inside_mm).toBeGreaterThanOrEqual(0.5);
        const inside = Math.hypot(...reach.tip_mm) <= 5.4 + 1e-9;
        expect(inside || reach.inside_mm === 0.5).toBe(true);
        for (const number of [...reach.tip_mm, reach.missed_mm, reach.turnPress_mm, reach.wallPress_mm]) {
          expect(Number.isFinite(number)).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('the shaft in its incision', () => {
  it('enters at the asked place and rests there without side load', () => {
    const pose = hold(createInstrumentRig(site), ask(1.5, 2), NONE, 1);
    expect(pose.tip_mm[0]).toBeCloseTo(1.5, 6);
    expect(pose.tip_mm[1]).toBeCloseTo(2, 6);
    expect(pose.tip_mm[2]).toBeCloseTo(0.5, 6);
    expect(pose.sideLoad_mN).toBeLessThan(1e-3);
    expect(pose.reachLimited).toBe(false);
    expect(pose.shaft_deg).toBeCloseTo((Math.atan2(2 + RADIUS, 1.5) * 180) / Math.PI, 6);
  });

  it('a side force at the tip deflects it by what hand and incision give way', () => {
    const F = 10;
    const inside = 2 + RADIUS;
    const outside = value.SHAFT_LENGTH_mm - inside;
    const rig = createInstrumentRig(site);
    const before = hold(rig, ask(0, 2), NONE, 1);
    const after = hold(rig, ask(0, 2), [F, 0, 0], 2);
    // A lever on two springs: at the incision F L/outside, at the handle F inside/outside the other way.
    const atIncision = (F * value.SHAFT_LENGTH_mm) / outside;
    const atHandle = (F * inside) / outside;
    const incisionGives = atIncision / value.INCISION_STIFFNESS_mN_per_mm;
    const handleGives = atHandle / value.HAND_STIFFNESS_mN_per_mm;
    const tip = incisionGives + ((incisionGives + handleGives) * inside) / outside;
    expect(after.tip_mm[0] - before.tip_mm[0]).toBeCloseTo(tip, 3);
    expect(after.sideLoad_mN).toBeCloseTo(atIncision, 1);
  });

  it('a force along the shaft is held by the hand alone', () => {
    const rig = createInstrumentRig(site);
    hold(rig, ask(0, 2), NONE, 1);
    const pose = hold(rig, ask(0, 2), [0, 12, 0], 2);
    expect(pose.tip_mm[1] - 2).toBeCloseTo(12 / value.HAND_STIFFNESS_mN_per_mm, 3);
    expect(pose.sideLoad_mN).toBeLessThan(1e-3);
  });

  it.each([
    [2, 0],
    [0, 2],
    [-1.2, 1.6],
  ])('follows a slow hand (%d, %d mm/s) within 0.05 mm', (vx, vy) => {
    const rig = createInstrumentRig(site);
    let worst = 0;
    for (let step = 0; step <= 60; step++) {
      const t = step * STEP_S;
      const [x, y] = [-1 + vx * t, -1 + vy * t];
      const pose = rig.step(ask(x, y), NONE, STEP_S);
      worst = Math.max(worst, Math.hypot(pose.tip_mm[0] - x, pose.tip_mm[1] - y));
    }
    expect(worst).toBeLessThan(0.05);
  });

  it('a hand that asks beyond the turn of the incision presses on its side and is told so', () => {
    const rig = createInstrumentRig(site);
    hold(rig, ask(3, -3.9), NONE, 1);
    const pose = hold(rig, ask(4.5, -5.2), NONE, 1);
    expect(pose.reachLimited).toBe(true);
    expect(pose.sideLoad_mN).toBeGreaterThan(10);
    expect(Math.abs(pose.shaft_deg - 90)).toBeLessThan(61);
  });

  it('the far wall stops a tip that is pushed at it', () => {
    const rig = createInstrumentRig(site);
    hold(rig, ask(0, 3), NONE, 0.5);
    const pose = hold(rig, ask(0, 15), NONE, 2);
    expect(pose.reachLimited).toBe(true);
    // Stands at the wall of 5.4 mm, give or take the library's slop and the shaft's half width.
    expect(pose.tip_mm[1]).toBeGreaterThan(5.3);
    expect(pose.tip_mm[1]).toBeLessThan(5.5);
  });

  it('a tip that is pulled at does not leave through its incision', () => {
    const rig = createInstrumentRig(site);
    hold(rig, ask(0, -4.6), NONE, 0.5);
    const pose = hold(rig, ask(0, -4.6), [0, -200, 0], 2);
    // The hand alone would let it go 200/120 = 1.67 mm, out of the eye.
    expect(pose.tip_mm[1]).toBeGreaterThan(-(5.4 + 200 / value.WALL_STIFFNESS_mN_per_mm));
  });

  it('the iris margin pushes a low tip back and lets a high one pass', () => {
    const low = hold(createInstrumentRig(site), ask(4.2, 1, { lift_mm: 0.2 }), NONE, 2);
    const high = hold(createInstrumentRig(site), ask(4.2, 1, { lift_mm: 2 }), NONE, 2);
    expect(high.tip_mm[0]).toBeCloseTo(4.2, 3);
    expect(low.tip_mm[0]).toBeLessThan(high.tip_mm[0] - 0.02);
    expect(low.sideLoad_mN).toBeGreaterThan(1);
  });

  it('lift goes to where it is asked, gives way under load and stays within 0 to 3 mm', () => {
    const rig = createInstrumentRig(site);
    expect(hold(rig, ask(0, 0, { lift_mm: 2 }), NONE, 1).tip_mm[2]).toBeCloseTo(2, 6);
    const loaded = hold(rig, ask(0, 0, { lift_mm: 2 }), [0, 0, -6], 1).tip_mm[2];
    expect(loaded).toBeCloseTo(2 - 6 / value.LIFT_STIFFNESS_mN_per_mm, 6);
    expect(hold(rig, ask(0, 0, { lift_mm: 99 }), [0, 0, 500], 1).tip_mm[2]).toBe(3);
    expect(hold(rig, ask(0, 0, { lift_mm: -99 }), [0, 0, -500], 1).tip_mm[2]).toBe(0);
  });

  it('another incision or instrument enters anew at the nearest reach', () => {
    const rig = createInstrumentRig(site);
    hold(rig, ask(1, 1), [30, 0, 0], 1);
    const pose = rig.step(ask(1, 1, { incision: 1 }), NONE, STEP_S);
    expect(pose.tip_mm[0]).toBeCloseTo(1, 3);
    expect(pose.shaft_deg).toBeCloseTo((Math.atan2(1, 1 + RADIUS) * 180) / Math.PI, 2);
    expect(rig.step(ask(1, 1, { incision: 77, instrument: 'needle' }), NONE, STEP_S).tip_mm[0]).toBeCloseTo(1, 3);
  });

  it('stays calm against a membrane stiffer than the hand, whose force arrives a step late', () => {
    const rig = createInstrumentRig(site);
    let force: Force = NONE;
    let pose = rig.pose();
    for (let step = 0; step < 240; step++) {
      pose = rig.step(ask(1, 1), force, STEP_S);
      force = [-200 * (pose.tip_mm[0] - 0.9), -200 * (pose.tip_mm[1] - 0.9), 0];
    }
    const settled = pose;
    for (let step = 0; step < 10; step++) {
      pose = rig.step(ask(1, 1), force, STEP_S);
      force = [-200 * (pose.tip_mm[0] - 0.9), -200 * (pose.tip_mm[1] - 0.9), 0];
    }
    expect(Math.hypot(pose.tip_mm[0] - settled.tip_mm[0], pose.tip_mm[1] - settled.tip_mm[1])).toBeLessThan(1e-6);
  });
});

describe('any hand', () => {
  const coordinate = fc.oneof(
    fc.double({ min: -40, max: 40, noNaN: true }),
    fc.double({ min: -1e300, max: 1e300, noNaN: true }),
  );
  const command = fc.record({
    x_mm: coordinate,
    y_mm: coordinate,
    lift_mm: coordinate,
    jaws: fc.constant(1),
    instrument: fc.constantFrom('forceps' as const, 'needle' as const, 'cannula' as const),
    incision: fc.integer({ min: -1, max: 3 }),
  });
  const steps = fc.array(
    fc.tuple(command, fc.tuple(coordinate, coordinate, coordinate), fc.integer({ min: 1, max: 8 })),
    {
      minLength: 1,
      maxLength: 12,
    },
  );

  it('leaves the tip finite and in the eye, and two rigs agree to the bit', () => {
    fc.assert(
      fc.property(steps, (moves) => {
        const [first, second] = [createInstrumentRig(site), createInstrumentRig(site)];
        for (const [asked, force, times] of moves) {
          for (let k = 0; k < times; k++) {
            const pose = first.step(asked, force, STEP_S);
            for (const number of numbers(pose)) expect(Number.isFinite(number)).toBe(true);
            expect(Math.hypot(pose.tip_mm[0], pose.tip_mm[1])).toBeLessThan(RADIUS + 1);
            expect(numbers(second.step(asked, force, STEP_S))).toEqual(numbers(pose));
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('that jumps across the eye every step, or sweeps at 1 m/s, comes back to rest where it is asked', () => {
    const rig = createInstrumentRig(site);
    for (let k = 0; k < 120; k++) rig.step(ask(k % 2 === 0 ? -20 : 20, k % 3 === 0 ? 20 : -20), NONE, STEP_S);
    for (let k = 0; k < 60; k++) rig.step(ask(-20 + ((k * 1000 * STEP_S) % 40), 1), NONE, STEP_S);
    const pose = hold(rig, ask(1, 1), NONE, 2);
    expect(pose.tip_mm[0]).toBeCloseTo(1, 3);
    expect(pose.tip_mm[1]).toBeCloseTo(1, 3);
  });
});

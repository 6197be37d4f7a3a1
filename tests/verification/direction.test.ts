import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linearPlaneStress } from '../../physics/membrane/material.ts';
import { hoopIntensity, hoopKink } from '../../physics/tear/hoop-kink.ts';
import { ringFit, termsAt } from '../../physics/tear/ring-fit.ts';
import { discSample } from '../../physics/verify/disc-sample.ts';
import { kinkAngle_deg } from '../../physics/verify/reference/slits.ts';
import { THICKNESS_mm } from '../../physics/verify/sample.ts';
import { expectAngleWithin, expectWithin } from '../support/compare.ts';

const intensity = fc.double({ min: -5, max: 5, noNaN: true });

describe('the hoop rule', () => {
  it('finds no direction of larger hoop tension than its own', () => {
    fc.assert(
      fc.property(intensity, intensity, (KI, KII) => {
        const { turn_deg, intensity: most } = hoopKink(KI, KII);
        expect(Math.abs(turn_deg)).toBeLessThanOrEqual(180);
        for (let th = -179; th <= 179; th++)
          expect(hoopIntensity(KI, KII, (th * Math.PI) / 180)).toBeLessThanOrEqual(most + 1e-9);
      }),
      { numRuns: 200 },
    );
  });

  it('agrees with the closed form written another way, and turns the other way under the other shear', () => {
    for (const [KI, KII] of [
      [1, 0.3],
      [2, -5],
      [0, 1],
      [1, 1e-9],
    ]) {
      expectAngleWithin('turn', hoopKink(KI, KII).turn_deg, kinkAngle_deg({ KI, KII }), 1e-6);
      expect(hoopKink(KI, -KII).turn_deg).toBe(-hoopKink(KI, KII).turn_deg);
    }
  });

  it('does not turn without shear, and gives nothing for what is not a number or pressed shut', () => {
    expect(hoopKink(3, 0)).toEqual({ turn_deg: 0, intensity: 3 });
    expect(hoopKink(-3, 0)).toEqual({ turn_deg: 0, intensity: 0 });
    for (const [KI, KII] of [
      [Number.NaN, 1],
      [1, Number.POSITIVE_INFINITY],
    ])
      expect(hoopKink(KI, KII)).toEqual({ turn_deg: 0, intensity: 0 });
  });
});

describe('the terms of the ring fit', () => {
  const at = (x: number, y: number): Float64Array => {
    const out = new Float64Array(15);
    termsAt(Math.hypot(x, y), Math.atan2(y, x), out);
    return out;
  };

  it('are in balance, compatible, and leave the faces free', () => {
    const h = 1e-4;
    for (const [x, y] of [
      [0.3, 0.4],
      [-0.2, 0.5],
      [0.4, -0.1],
    ]) {
      const [right, left, up, down, here] = [at(x + h, y), at(x - h, y), at(x, y + h), at(x, y - h), at(x, y)];
      for (let term = 0; term < 5; term++) {
        const [xx, yy, xy] = [3 * term, 3 * term + 1, 3 * term + 2];
        const slope = (a: Float64Array, b: Float64Array, k: number) => (a[k] - b[k]) / (2 * h);
        expect(Math.abs(slope(right, left, xx) + slope(up, down, xy))).toBeLessThan(1e-5);
        expect(Math.abs(slope(right, left, xy) + slope(up, down, yy))).toBeLessThan(1e-5);
        const sum = (v: Float64Array) => v[xx] + v[yy];
        expect(Math.abs(sum(right) + sum(left) + sum(up) + sum(down) - 4 * sum(here)) / h ** 2).toBeLessThan(1e-3);
      }
    }
    for (const face of [Math.PI, -Math.PI]) {
      const out = new Float64Array(15);
      termsAt(0.5, face, out);
      for (let term = 0; term < 5; term++)
        for (const k of [1, 2]) expect(Math.abs(out[3 * term + k])).toBeLessThan(1e-12);
    }
  });
});

describe('the ring fit', () => {
  const E_t = 1000;
  const sheet = () =>
    discSample(
      { radius_mm: 1, tears: [], tip_mm: 0.05, face_mm: 0.1, far_mm: 0.1, rim_mm: 0.1, tensionField: false },
      linearPlaneStress(E_t / THICKNESS_mm, 0.5),
    );
  const tilt = 0.4;
  const tip = { x: 0.1, y: -0.2, tx: Math.cos(tilt), ty: Math.sin(tilt) };

  it('finds nothing but the even tension in a sheet pulled along the tear, however that lies in space', () => {
    const { body, x } = sheet();
    const [pull, turn] = [0.01, 1.1];
    const { reference_mm } = body.membrane;
    for (let node = 0; node < reference_mm.length / 2; node++) {
      const [X, Y] = [reference_mm[node * 2], reference_mm[node * 2 + 1]];
      const along = (X * tip.tx + Y * tip.ty) * (1 + pull);
      const across = (Y * tip.tx - X * tip.ty) * (1 - 0.5 * pull);
      x.set([along * Math.cos(turn), across, along * Math.sin(turn)], node * 3);
    }
    const fit = ringFit(body.membrane, x, tip, 0.1, 0.6)!;
    expect(Math.max(Math.abs(fit.KI), Math.abs(fit.KII), fit.misfit)).toBeLessThan(1e-7 * E_t * pull);
    expectWithin('T', fit.T, E_t * pull, { relative: 1e-9 });
  });

  it('says so where the ring holds too little', () => {
    const { body, x } = sheet();
    expect(ringFit(body.membrane, x, tip, 0.1, 0.11)).toBeNull();
    expect(ringFit(body.membrane, x, { ...tip, x: 30 }, 0.1, 0.6)).toBeNull();
  });
});

import { describe, it } from 'vitest';
import * as flaps from '../../../physics/verify/reference/flaps.ts';
import * as sheets from '../../../physics/verify/reference/sheets.ts';
import * as slits from '../../../physics/verify/reference/slits.ts';
import { expectAngleWithin, expectVectorWithin, expectWithin } from '../../support/compare.ts';

/** Half a unit in the last place printed beside the problem. */
const printed = (decimals: number) => ({ absolute: 0.51 * 10 ** -decimals });

describe('reference answers for sheets reproduce their printed numbers', () => {
  it('materials', () => {
    expectWithin('neo-Hookean uniaxial 1.5', sheets.neoHookeanUniaxial(1.5), 1.05556, printed(5));
    expectWithin('neo-Hookean equibiaxial 1.2', sheets.neoHookeanEquibiaxial(1.2), 0.798122, printed(6));
    expectWithin('neo-Hookean pure shear 1.2', sheets.neoHookeanPureShear(1.2), 0.621296, printed(6));
    expectWithin('Mooney uniaxial 1.5', sheets.mooneyUniaxial(0.4, 0.1, 1.5), 0.985185, printed(6));
    expectWithin('Mooney equibiaxial 1.5', sheets.mooneyEquibiaxial(0.4, 0.1, 1.5), 1.710391, printed(6));
    expectWithin('Fung uniaxial 1.1', sheets.fungUniaxial(10, 0.5, 1.1), 0.940923, printed(6));
    expectWithin('Fung equibiaxial 1.1', sheets.fungEquibiaxial(10, 0.5, 1.1), 2.41166, printed(6));
  });

  it('hole in a wide sheet', () => {
    expectWithin('from unstressed', sheets.lameDisplacementFromUnstressed_mm(1, 45, 2.5), 0.1111, printed(4));
    expectWithin('from tense', sheets.lameDisplacementFromTense_mm(1, 45, 2.5, 0.5), 0.0833, printed(4));
  });

  it('hole in a disc on rim springs, from dead load to rigid', () => {
    const disc = { N0: 1, S: 45, nu: 0.5, a: 2.5, b: 5 };
    expectWithin('rigid', sheets.springRimHoop_mN_per_mm({ ...disc, k: Number.POSITIVE_INFINITY }), 1.143, printed(3));
    expectWithin('nearly rigid', sheets.springRimHoop_mN_per_mm({ ...disc, k: 1e7 }), 1.143, printed(3));
    expectWithin('dead load', sheets.springRimHoop_mN_per_mm({ ...disc, k: 0 }), 2.667, printed(3));
    const wide = { ...disc, b: 2500, k: 0 };
    expectWithin('wide disc', sheets.springRimHoop_mN_per_mm(wide), sheets.LAME_HOOP_OVER_N0, { relative: 1e-5 });
    expectWithin('wide disc', sheets.springRimDisplacement_mm(wide), 0.083333, { relative: 1e-4 });
  });

  it('a hole pulled one way, Laplace, wrinkles', () => {
    expectWithin('across the pull', sheets.kirschHoop(90), 3, { absolute: 1e-12 });
    expectWithin('along the pull', sheets.kirschHoop(0), -1, { absolute: 1e-12 });
    expectWithin('cap of 8.4 mm at 466.6 Pa', sheets.laplace_mN_per_mm(0.4666, 8.4), 1.96, printed(3));
    expectWithin('wrinkled annulus', sheets.wrinkleRadius(4, 1, 1, 12), 2.059, printed(3));
    expectWithin('taut annulus', sheets.wrinkleRadius(1, 1, 1, 12), 1, { absolute: 1e-12 });
    expectWithin('bent strip', sheets.wrinkledShareOfStrip(0.3), 0.4, { absolute: 1e-12 });
  });
});

describe('reference answers for slits reproduce their printed numbers', () => {
  it('straight slits', () => {
    expectWithin('centre slit .5', slits.centreSlitFactor(0.5), 1.1862, printed(4));
    expectWithin('edge slit .1', slits.edgeSlitFactor(0.1), 1.186, printed(3));
    expectWithin('edge slit .5', slits.edgeSlitFactor(0.5), 2.829, printed(3));
    const slanted = slits.slantedSlitK(1, 1 / Math.PI, 45);
    expectVectorWithin('slanted at 45', [slanted.KI, slanted.KII], [0.5, 0.5], { absolute: 1e-12 });
    expectWithin('J of unit K', slits.releaseRate(slits.slitK(2, 1 / Math.PI, 1), 8), 0.5, { relative: 1e-12 });
  });

  it('arc slit: a partly torn circle turns outward', () => {
    const K = slits.arcSlitK(1, 1, 45);
    expectVectorWithin('K', [K.KI, K.KII], [1.2011, 0.4975], { absolute: 0.0001 });
    const { J1, J2 } = slits.tipForce(K, 1);
    expectVectorWithin('J', [J1, J2], [1.2011 ** 2 + 0.4975 ** 2, -2 * 1.2011 * 0.4975], { relative: 2e-4 });
    // printed to whole degrees for half-arcs of 45, 60 and 90 degrees
    for (const [half, outward] of [
      [45, 36],
      [60, 43],
      [90, 53],
    ]) {
      expectAngleWithin(`arc ${half}`, slits.kinkAngle_deg(slits.arcSlitK(1, 1, half)), -outward, 1);
    }
    const short = slits.arcSlitK(1, 1, 0.01);
    expectWithin('short arc is a straight slit', short.KI, Math.sqrt((Math.PI * 0.01 * Math.PI) / 180), {
      relative: 1e-6,
    });
  });

  it('kink by the largest hoop tension', () => {
    for (const [slant, kink] of [
      [80, 18.9],
      [70, 33.3],
      [60, 43.2],
      [50, 50.3],
      [45, 53.1],
      [40, 55.7],
      [30, 60.0],
      [20, 63.8],
    ]) {
      expectAngleWithin(`slant ${slant}`, slits.kinkAngle_deg(slits.slantedSlitK(1, 1, slant)), -kink, 0.06);
    }
    expectAngleWithin('pure shear', slits.kinkAngle_deg({ KI: 0, KII: 1 }), -70.53, 0.006);
    expectAngleWithin('pure shear, other way', slits.kinkAngle_deg({ KI: 0, KII: -1 }), 70.53, 0.006);
    expectAngleWithin('pure opening', slits.kinkAngle_deg({ KI: 1, KII: 0 }), 0, 1e-9);
  });

  it('pull at one face of a slit', () => {
    const J = slits.releaseRate(slits.facePullK(3, 0.5, 0.01, 40), 400);
    expectWithin('J', J, 3 ** 2 / (2 * Math.PI * 0.5 * 400 * 0.01 ** 2), { relative: 1e-12 });
    for (const [pull, turn] of [
      [90, 0],
      [60, -43],
      [45, -53],
      [0, -70.5],
      [120, 43],
    ]) {
      expectAngleWithin(`pull ${pull}`, slits.kinkAngle_deg(slits.facePullK(1, 1, 1, pull)), turn, 0.5);
    }
    expectAngleWithin('hold, Pi .1', slits.flatFlapHoldAngle_deg(45, 0.1), 104, 0.5);
    expectAngleWithin('hold, Pi .25', slits.flatFlapHoldAngle_deg(45, 0.25), 122, 0.5);
  });

  it('pure-shear strip and short slits', () => {
    expectWithin('strip', slits.pureShearG_J_per_m2(500, 1.5, 10), 1736, printed(0));
    for (const [l, centre] of slits.SHORT_SLIT_FACTOR) {
      expectWithin(`short slit at ${l}`, centre, Math.PI / Math.sqrt(l), { relative: 0.05 });
    }
  });
});

describe('reference answers for folded flaps reproduce their printed numbers', () => {
  it('trousers', () => {
    expectWithin('stiff legs', flaps.trousersG_J_per_m2(1, 15), 133, printed(0));
    // soft legs: the work of their stretch comes on top, their stored energy off
    expectWithin('soft legs', flaps.trousersG_J_per_m2(1, 15, 1.2, 2, 5), 1.2 * 133.3333 - 10, { relative: 1e-5 });
  });

  it('tip force along the bisector of the pull and the fold', () => {
    const J = flaps.foldedFlapForce(150, 20);
    expectWithin('size', J.sizeOverF, 1.8126, printed(4));
    expectAngleWithin('direction', J.direction_deg, -5, 1e-9);
    expectWithin('pull at tearing', flaps.foldedFlapPullOverT(150, 20) * J.sizeOverF, 1, { relative: 1e-12 });
  });

  it('grip on the torn edge: the circle is held by half the arc to the grip', () => {
    const hold = flaps.edgeGripHoldAngle_deg(60);
    expectAngleWithin('hold angle', hold, 30, 1e-9);
    expectAngleWithin('heading', flaps.edgeGripHeading_deg(60, hold), 0, 1e-9);
    expectWithin('pull', flaps.edgeGripPullOverT(60, hold), 0.577, printed(3));
    // the same from the vector rule, grip seen along the chord
    for (const [arc, pull] of [
      [60, 10],
      [30, 50],
      [90, 0],
    ]) {
      const chord_deg = 180 - arc / 2;
      const J = flaps.foldedFlapForce(chord_deg, pull);
      expectAngleWithin('heading', flaps.edgeGripHeading_deg(arc, pull), J.direction_deg, 1e-9);
      expectWithin('pull', flaps.edgeGripPullOverT(arc, pull), 1 / J.sizeOverF, { relative: 1e-12 });
    }
  });

  it('a tense sheet asks for a pull further inward', () => {
    expectAngleWithin('no tension', flaps.edgeGripHoldAngleTense_deg(60, 0, 1.5, 1.2), 30, 1e-9);
    // with the sheet's own share the whole tip force lies on the tangent
    const [arc, Pi, j1, j2] = [60, 0.2, 1.5, 1.2];
    const pull = flaps.edgeGripHoldAngleTense_deg(arc, Pi, j1, j2);
    const J = flaps.foldedFlapForce(180 - arc / 2, pull);
    const across = Math.sin((J.direction_deg * Math.PI) / 180);
    const along = Math.cos((J.direction_deg * Math.PI) / 180);
    const size = (Pi * j2) / across;
    expectWithin('tip force along the tangent', Pi * j1 + size * along, 1, { relative: 1e-12 });
  });

  it('fixed grip and pull: the path is a parabola', () => {
    expectVectorWithin('end', flaps.parabolaPathEnd(1, 120, 6), [4.5229, 3.9773], { absolute: 0.0001 });
  });
});

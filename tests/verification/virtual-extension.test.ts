import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createWorld, digestWorld, polarDrivingForce } from '../../physics/index.ts';
import { linearPlaneStress } from '../../physics/membrane/material.ts';
import type { DiscMesh } from '../../physics/mesh/disc-mesh.ts';
import { blendedForce, directionTurn, FLAT_deg, FOLDED_deg, type TipField } from '../../physics/tear/direction.ts';
import { hoopKink } from '../../physics/tear/hoop-kink.ts';
import type { RingFit } from '../../physics/tear/ring-fit.ts';
import { buildSpokeMesh, weldSpokes } from '../../physics/tear/spoke-mesh.ts';
import { virtualExtensions } from '../../physics/tear/virtual-extension.ts';
import { type DiscSample, discSample, pullRim, tearThrough } from '../../physics/verify/disc-sample.ts';
import { kinkedK, kinkRelease, largestReleaseTurn_deg } from '../../physics/verify/reference/kinks.ts';
import { createSample, settle, THICKNESS_mm } from '../../physics/verify/sample.ts';
import { scenarioOf } from '../support/shipped.ts';

describe('the intensities of a kink', () => {
  it('have the two angles that are printed for pure shear, and change nothing without a turn', () => {
    const shear = { KI: 0, KII: 1 };
    expect(kinkedK(shear, -77.2).KII).toBeGreaterThan(0);
    expect(kinkedK(shear, -77.4).KII).toBeLessThan(0);
    expect(Math.abs(largestReleaseTurn_deg(shear))).toBeCloseTo(75.7, 0);
    expect(kinkedK({ KI: 2, KII: -3 }, 0)).toEqual({ KI: 2, KII: -3 });
    expect(kinkRelease({ KI: 2, KII: -3 }, 0)).toBe(1);
  });

  it('mirror with the shear', () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 100, noNaN: true }), (turn) => {
        const [a, b] = [kinkedK({ KI: 1, KII: 0.4 }, turn), kinkedK({ KI: 1, KII: -0.4 }, -turn)];
        expect(a.KI).toBeCloseTo(b.KI, 12);
        expect(a.KII).toBeCloseTo(-b.KII, 12);
      }),
    );
  });
});

const E_t = 1000;
const RADIUS = 3;
const EDGE = 0.1;
const SIZES = { tip_mm: EDGE, face_mm: 2 * EDGE, far_mm: 0.8, rim_mm: 0.5, growth: 0.22, levels: 2 };
const slit = () =>
  tearThrough(
    [-0.5, -0.4, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4, 0.5].flatMap((x) => [x, 0]),
    'live',
    'live',
  );
const request = () => {
  const tear = slit();
  return { tear, request: { radius_mm: RADIUS, tears: [tear], grips: [], sizes: SIZES } };
};
const area = ({ reference_mm: p, triangle }: DiscMesh): number => {
  let sum = 0;
  for (let t = 0; t < triangle.length; t += 3) {
    const [a, b, c] = [triangle[t] * 2, triangle[t + 1] * 2, triangle[t + 2] * 2];
    sum += 0.5 * ((p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[b + 1] - p[a + 1]) * (p[c] - p[a]));
  }
  return sum;
};

describe('the web of spokes', () => {
  it('has the same triangles whichever spoke is open, four more nodes than closed, and keeps rim and tear', () => {
    const { tear, request: asked } = request();
    const web = buildSpokeMesh(asked, { tear, atEnd: true }, EDGE, 15, 0);
    expect(web.angles.length).toBe(21);
    const closed = weldSpokes(web, null).mesh;
    expect(closed.left.length).toBe(1);
    for (const spoke of [0, 10, 20]) {
      const { mesh, nodeOf } = weldSpokes(web, spoke);
      expect(mesh.nodeCount).toBe(closed.nodeCount + 4);
      expect(mesh.triangle.length).toBe(closed.triangle.length);
      expect(area(mesh)).toBeCloseTo(area(closed), 12);
      for (let node = 0; node < mesh.rimCount; node++) expect(nodeOf[node]).toBe(node);
    }
  });

  it('leaves out spokes that would meet another tear', () => {
    const { tear, request: asked } = request();
    const wall = tearThrough([0.57, -1, 0.57, 0, 0.57, 1], 'blunt', 'blunt', 1);
    const web = buildSpokeMesh({ ...asked, tears: [tear, wall] }, { tear, atEnd: true }, EDGE, 15, 0);
    expect(web.angles.some((angle) => Math.abs(angle) < 0.3)).toBe(false);
    expect(web.angles.some((angle) => Math.abs(angle) > 1.9)).toBe(true);
  });
});

/** Fan at the right end of the slit under a far tension with a share of shear. */
function fanUnder(tension: number, shear: number) {
  const { tear, request: asked } = request();
  const material = linearPlaneStress(E_t / THICKNESS_mm, 0.5);
  const load = (disc: DiscSample): void => {
    pullRim(disc, 0, tension);
    const { body } = disc;
    const along = body.load.slice();
    // shear: the load along y turned into one along x, and the other way round
    const crossed = discSampleLoad(disc, shear);
    for (let i = 0; i < along.length; i++) body.load[i] = along[i] + crossed[i];
  };
  const bodyOn = (mesh: DiscMesh) => {
    const sample = createSample(mesh.reference_mm, mesh.triangle, material, { tensionField: false });
    load({ ...sample, mesh, radius_mm: RADIUS });
    sample.body.drag.fill(1e-9 * E_t);
    return sample.body;
  };
  const disc = discSample({ radius_mm: RADIUS, tears: [tear], ...SIZES, tensionField: false }, material);
  load(disc);
  settle(disc, { tolerance_mN: 1e-6 });
  const options = { extension_mm: EDGE, spacing_deg: 15, reach_deg: 90, span_mm: 0, time_s: 1000, tolerance_mN: 1e-6 };
  return virtualExtensions(
    { request: asked, tip: { tear, atEnd: true }, mesh: disc.mesh, x: disc.x, bodyOn },
    { ...options, fan: 'all' },
  );
}

function discSampleLoad({ mesh, radius_mm }: DiscSample, shear: number): Float64Array {
  const load = new Float64Array(mesh.nodeCount * 3);
  const arc = radius_mm * Math.sin((2 * Math.PI) / mesh.rimCount);
  for (let k = 0; k < mesh.rimCount; k++) {
    const angle = (2 * Math.PI * k) / mesh.rimCount;
    load[k * 3] = shear * arc * Math.sin(angle);
    load[k * 3 + 1] = shear * arc * Math.cos(angle);
  }
  return load;
}

describe('virtual extensions', () => {
  it('set nothing free in a sheet without load', () => {
    for (const force of fanUnder(0, 0).drivingForce_mN) expect(Math.abs(force)).toBeLessThan(1e-9);
  });

  it('go straight on under tension, and turn either way under either shear', () => {
    const straight = fanUnder(1, 0);
    expect(straight.converged).toBe(true);
    expect(Math.abs(straight.best.turn_deg)).toBeLessThan(3);
    expect(Math.min(...straight.drivingForce_mN)).toBeGreaterThan(0);
    const [right, left] = [fanUnder(1, 0.5), fanUnder(1, -0.5)];
    expect(right.best.turn_deg).toBeLessThan(-25);
    expect(left.best.turn_deg).toBeGreaterThan(25);
    // the web's diagonals all lean one way: so much it is not its own mirror image
    expect(Math.abs(left.best.turn_deg + right.best.turn_deg)).toBeLessThan(6);
  });

  it('free energy as the square of the load', () => {
    const [one, two] = [fanUnder(1, 0.5), fanUnder(0.5, 0.25)];
    one.drivingForce_mN.forEach((force, k) => {
      expect(force / two.drivingForce_mN[k]).toBeCloseTo(4, 1);
    });
  });
});

describe('the blend', () => {
  const fitOf = (KI: number, KII: number, misfit: number): RingFit => ({ KI, KII, T: 0, misfit, triangles: 40 });
  const disc = discSample({ radius_mm: RADIUS, tears: [slit()], ...SIZES }, linearPlaneStress(E_t / THICKNESS_mm, 0.5));
  const field = (force: [number, number]): TipField => ({
    membrane: disc.body.membrane,
    x: disc.x,
    tip: { x: 0.5, y: 0, tx: 1, ty: 0 },
    force,
    edge_mm: EDGE,
  });
  const best = (value: (turn: number) => number): number => {
    let at = 0;
    for (let turn = -150; turn <= 150; turn += 0.25)
      if (value((turn * Math.PI) / 180) > value((at * Math.PI) / 180)) at = turn;
    return at;
  };

  it('is the hoop rule where the ring fits and the sheet is flat, whatever the vector says', () => {
    for (const [KI, KII] of [
      [20, 10],
      [0, 20],
      [10, -20],
    ])
      expect(best(blendedForce(field([1, 3]), fitOf(KI, KII, 0.05), 0))).toBeCloseTo(hoopKink(KI, KII).turn_deg, 0);
  });

  it('is the vector rule where the ring does not fit, flat or folded', () => {
    for (const fold of [0, FOLDED_deg + 10])
      expect(best(blendedForce(field([2, -2]), fitOf(20, 30, 0.4), fold))).toBeCloseTo(-45, 0);
  });

  it('is the vector rule at a fold that brings no tension to the tip', () => {
    expect(best(blendedForce(field([2, 1]), fitOf(0.1, 0.1, 0.05), FOLDED_deg + 10))).toBeCloseTo(26.5, 0);
  });

  it('does not jump between flat and folded', () => {
    const turns = Array.from({ length: 41 }, (_, k) =>
      best(blendedForce(field([2, 1]), fitOf(30, 12, 0.05), FLAT_deg + (k / 40) * (FOLDED_deg - FLAT_deg))),
    );
    for (let k = 1; k < turns.length; k++) expect(Math.abs(turns[k] - turns[k - 1])).toBeLessThan(6);
  });

  it('turns nothing where the force is not a number', () => {
    expect(directionTurn('vector', field([Number.NaN, 1]))).toBe(0);
    expect(directionTurn('blend', field([0, 0]))).toBe(0);
  });
});

describe('the polar curve of a tip', () => {
  const world = createWorld(scenarioOf('infant-thick-fluid'));

  it('leaves the world as it was, and says the same turn in both frames', () => {
    const digest = digestWorld(world);
    const [tip] = world.tips;
    const { force, patch } = tip;
    const polar = polarDrivingForce(world, tip.id, { spacing_deg: 30 })!;
    expect(digestWorld(world)).toBe(digest);
    expect([world.tips[0].force, world.tips[0].patch]).toEqual([force, patch]);
    expect(polar.turn_deg.length).toBe(7);
    polar.turn_deg.forEach((turn, k) => {
      expect(polar.direction_deg[k] - turn).toBeCloseTo(polar.best.direction_deg - polar.best.turn_deg, 9);
      expect(polar.drivingForce_mN[k]).toBeGreaterThan(0);
    });
    // nobody pulls: outward, which is to the right of a tear that runs counter-clockwise
    expect(polar.best.turn_deg * Math.sign(polar.vector.turn_deg)).toBeGreaterThan(10);
    expect(polar.best.drivingForce_mN).toBeLessThan(polar.tearResistance_mN);
  });

  it('is null for a tip that is not there', () => {
    expect(polarDrivingForce(world, 99)).toBeNull();
  });
});

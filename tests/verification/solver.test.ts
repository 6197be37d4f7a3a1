import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import { analyse, factorise, solveFactored, twinFactor } from '../../physics/membrane/block-cholesky.ts';
import {
  BLOCK,
  type BlockMatrix,
  blockMatrixFromGroups,
  findBlock,
  multiply,
} from '../../physics/membrane/block-matrix.ts';
import { createBody, gradient, potential, stiffness } from '../../physics/membrane/body.ts';
import { createHinges, hingeEnergy, noHinges } from '../../physics/membrane/hinges.ts';
import {
  exponentialMaterial,
  linearPlaneStress,
  type Material,
  mooneyRivlin,
  neoHookean,
  planarFung,
} from '../../physics/membrane/material.ts';
import {
  addMembraneForces,
  createMembrane,
  createTriangleState,
  membraneEnergy,
  triangleState,
} from '../../physics/membrane/membrane.ts';
import { minimumDegreeOrder } from '../../physics/membrane/ordering.ts';
import { createSolverState, solve } from '../../physics/membrane/solve.ts';

/** Every random test prints the seed it needs to be run again, when it fails. */
const RUNS = { numRuns: 40 };
const seeds = fc.integer({ min: 1, max: 2 ** 31 - 1 });

/** Square grid of side 1 with shaken inner nodes, seen in the plane. */
function shakenGrid(n: number, random: () => number) {
  const place: number[] = [];
  for (let j = 0; j <= n; j++)
    for (let i = 0; i <= n; i++) {
      const inner = i > 0 && j > 0 && i < n && j < n ? 0.4 / n : 0;
      place.push(i / n + inner * (random() - 0.5), j / n + inner * (random() - 0.5));
    }
  const triangle: number[] = [];
  const node = (i: number, j: number) => j * (n + 1) + i;
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      triangle.push(node(i, j), node(i + 1, j), node(i + 1, j + 1));
      triangle.push(node(i, j), node(i + 1, j + 1), node(i, j + 1));
    }
  return { place: Float64Array.from(place), triangle: Int32Array.from(triangle) };
}

/** Random positive definite values on a pattern: a sum of squares over the groups, and a little on the diagonal. */
function fillPositive(matrix: BlockMatrix, triangle: Int32Array, random: () => number): void {
  matrix.values.fill(0);
  for (let t = 0; t < triangle.length; t += 3) {
    const g = Array.from({ length: 9 }, () => random() - 0.5);
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++) {
        const at = findBlock(matrix, triangle[t + a], triangle[t + b]) * BLOCK;
        for (let i = 0; i < 3; i++)
          for (let j = 0; j < 3; j++) matrix.values[at + i * 3 + j] += g[a * 3 + i] * g[b * 3 + j];
      }
  }
  for (let node = 0; node < matrix.nodeCount; node++)
    for (let i = 0; i < 3; i++) matrix.values[matrix.diagonal[node] * BLOCK + i * 4] += 0.1 + random();
}

/** The factor below the diagonal is kept in single precision, as a preconditioner may be: that is its accuracy. */
const SINGLE = 2e-5;

describe('the sparse factor', () => {
  it('undoes the product with its matrix, to single precision, whatever the order', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: 6 }), (seed, n) => {
        const random = createRandom(seed).uniform;
        const { place, triangle } = shakenGrid(n, random);
        const matrix = blockMatrixFromGroups(place.length / 2, [{ nodes: triangle, stride: 3 }]);
        fillPositive(matrix, triangle, random);
        const shuffled = Int32Array.from({ length: matrix.nodeCount }, (_, k) => k).sort(
          () => createRandom(seed).uniform() - 0.5,
        );
        for (const order of [minimumDegreeOrder(matrix), shuffled]) {
          const factor = analyse(matrix, order);
          expect(factorise(factor, 1e-12)).toBe(0);
          const x = Float64Array.from({ length: matrix.nodeCount * 3 }, () => random() - 0.5);
          const b = new Float64Array(x.length);
          multiply(matrix, x, b);
          const back = new Float64Array(x.length);
          solveFactored(factor, b, back);
          for (let i = 0; i < x.length; i++) expect(Math.abs(back[i] - x[i])).toBeLessThan(SINGLE);
        }
      }),
      RUNS,
    );
  });

  it('says when a matrix is not positive, and a twin keeps values of its own', () => {
    const { place, triangle } = shakenGrid(2, createRandom(1).uniform);
    const matrix = blockMatrixFromGroups(place.length / 2, [{ nodes: triangle, stride: 3 }]);
    fillPositive(matrix, triangle, createRandom(2).uniform);
    const factor = analyse(matrix, minimumDegreeOrder(matrix));
    expect(factorise(factor, 1e-12)).toBe(0);
    const twin = twinFactor(factor);
    matrix.values[matrix.diagonal[4] * BLOCK] = -50;
    expect(factorise(twin, 1e-12)).toBeGreaterThan(0);
    expect(twin.pivot).not.toEqual(factor.pivot);
  });

  it('orders every node exactly once', () => {
    const { place, triangle } = shakenGrid(5, createRandom(3).uniform);
    const matrix = blockMatrixFromGroups(place.length / 2, [{ nodes: triangle, stride: 3 }]);
    const order = minimumDegreeOrder(matrix);
    expect([...order].sort((a, b) => a - b)).toEqual([...order.keys()]);
  });
});

const MATERIALS: readonly Material[] = [
  exponentialMaterial(300, 2),
  neoHookean(300),
  mooneyRivlin(200, 50),
  planarFung(40, 10, 0.5),
  linearPlaneStress(900, 0.5),
];

/** Stretch ranges of (l1, l2) in which every triangle lies in one regime, so that differences do not cross a border. */
const REGIMES = {
  taut: [1.15, 1.1],
  wrinkled: [1.25, 0.6],
  slack: [0.8, 0.7],
} as const;

/** Grid in space: two stretches, a random axis, a random orientation and a little shaking out of it. */
function placed(place: Float64Array, l: readonly [number, number], random: () => number, shake: number): Float64Array {
  const angle = 2 * Math.PI * random();
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const frame = orthonormal(random);
  const x = new Float64Array((place.length / 2) * 3);
  for (let node = 0; node < place.length / 2; node++) {
    const p = l[0] * (c * place[node * 2] + s * place[node * 2 + 1]);
    const q = l[1] * (c * place[node * 2 + 1] - s * place[node * 2]);
    for (let i = 0; i < 3; i++) x[node * 3 + i] = p * frame[0][i] + q * frame[1][i] + shake * (random() - 0.5);
  }
  return x;
}

function orthonormal(random: () => number): readonly [number[], number[]] {
  const a = [0, 1, 2].map(() => random() - 0.5);
  const b = [0, 1, 2].map(() => random() - 0.5);
  const n = Math.hypot(...a);
  const first = a.map((v) => v / n);
  const d = first.reduce((sum, v, i) => sum + v * b[i], 0);
  const rest = b.map((v, i) => v - d * first[i]);
  return [first, rest.map((v) => v / Math.hypot(...rest))];
}

/** Central differences over this step leave about its square; sums are over some 20 triangles. */
const DIFFERENCE = 3e-6;

describe.each(MATERIALS.map((material) => [material.name, material] as const))('%s membrane', (_, material) => {
  it.each(Object.entries(REGIMES))('forces are the difference of the energy: %s', (_regime, l) => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const random = createRandom(seed).uniform;
        const { place, triangle } = shakenGrid(3, random);
        const membrane = createMembrane(place, triangle, material, 0.01);
        const x = placed(place, l, random, 0.004);
        const force = new Float64Array(x.length);
        const energy = addMembraneForces(membrane, x, force);
        expect(energy).toBeCloseTo(membraneEnergy(membrane, x), 12);
        const scale = material.youngModulus_kPa * 0.01;
        for (let i = 0; i < x.length; i++) {
          const at = x[i];
          x[i] = at + DIFFERENCE;
          const up = membraneEnergy(membrane, x);
          x[i] = at - DIFFERENCE;
          const down = membraneEnergy(membrane, x);
          x[i] = at;
          expect(Math.abs((up - down) / (2 * DIFFERENCE) - force[i]) / scale).toBeLessThan(2e-7);
        }
      }),
      { numRuns: 6 },
    );
  });

  it('stiffness is the difference of the forces where the sheet is taut', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const random = createRandom(seed).uniform;
        const { place, triangle } = shakenGrid(3, random);
        const body = createBody(createMembrane(place, triangle, material, 0.01), noHinges());
        const x = placed(place, REGIMES.taut, random, 0.002);
        const increment = { from: x.slice(), dt_s: Infinity };
        const force = new Float64Array(x.length);
        stiffness(body, increment, x);
        gradient(body, increment, x, force);
        const step = Float64Array.from(x, () => random() - 0.5);
        const product = new Float64Array(x.length);
        multiply(body.matrix, step, product);
        const moved = (share: number) => {
          const out = new Float64Array(x.length);
          gradient(
            body,
            increment,
            x.map((v, i) => v + share * step[i]),
            out,
          );
          return out;
        };
        const [up, down] = [moved(DIFFERENCE), moved(-DIFFERENCE)];
        const scale = material.youngModulus_kPa * 0.01;
        for (let i = 0; i < x.length; i++)
          expect(Math.abs((up[i] - down[i]) / (2 * DIFFERENCE) - product[i]) / scale).toBeLessThan(1e-6);
      }),
      { numRuns: 10 },
    );
  });

  it.each(Object.entries(REGIMES))('stiffness never gives energy back: %s', (_regime, l) => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const random = createRandom(seed).uniform;
        const { place, triangle } = shakenGrid(3, random);
        const body = createBody(createMembrane(place, triangle, material, 0.01), noHinges());
        const x = placed(place, l, random, 0.05);
        stiffness(body, { from: x, dt_s: Infinity }, x);
        const product = new Float64Array(x.length);
        for (let trial = 0; trial < 5; trial++) {
          const step = Float64Array.from(x, () => random() - 0.5);
          multiply(body.matrix, step, product);
          const work = step.reduce((sum, v, i) => sum + v * product[i], 0);
          expect(work).toBeGreaterThan(-1e-9 * material.youngModulus_kPa);
        }
      }),
      { numRuns: 10 },
    );
  });
});

describe('folds', () => {
  const bent = (seed: number) => {
    const random = createRandom(seed).uniform;
    const { place, triangle } = shakenGrid(4, random);
    const membrane = createMembrane(place, triangle, neoHookean(1), 0.01);
    return { random, place, hinges: createHinges(place, triangle, membrane.area_mm2, 2) };
  };

  it('cost nothing in any even state, turned anyhow', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { random, place, hinges } = bent(seed);
        const x = placed(place, [0.8 + random(), 0.5 + random()], random, 0);
        expect(hingeEnergy(hinges, x)).toBeLessThan(1e-20 * hinges.weight.reduce((sum, w) => sum + w * w, 1) + 1e-22);
      }),
      RUNS,
    );
  });

  it('cost the same however the bent sheet is turned and moved', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { random, place, hinges } = bent(seed);
        const flat = new Float64Array((place.length / 2) * 3);
        for (let node = 0; node < place.length / 2; node++)
          flat.set([place[node * 2], place[node * 2 + 1], 0.2 * place[node * 2] ** 2], node * 3);
        const [p, q] = orthonormal(random);
        const r = [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]];
        const turned = flat.slice();
        for (let i = 0; i < flat.length; i += 3)
          for (let k = 0; k < 3; k++) turned[i + k] = p[k] * flat[i] + q[k] * flat[i + 1] + r[k] * flat[i + 2] + k + 3;
        const energy = hingeEnergy(hinges, flat);
        expect(energy).toBeGreaterThan(0);
        expect(hingeEnergy(hinges, turned)).toBeCloseTo(energy, 9);
      }),
      RUNS,
    );
  });

  it('cost B c^2/2 per area for a gentle cylinder on an even lattice', () => {
    // the three edges take 2/3, 2/3 and -1/3 of the curvature: (4 + 4 + 1)/9
    const n = 40;
    const { place, triangle } = shakenGrid(n, () => 0.5);
    for (let node = 0; node < place.length / 2; node++) {
      place[node * 2] -= 0.5 * place[node * 2 + 1];
      place[node * 2 + 1] *= Math.sqrt(3) / 2;
    }
    const membrane = createMembrane(place, triangle, neoHookean(1), 0.01);
    const hinges = createHinges(place, triangle, membrane.area_mm2, 2);
    const x = new Float64Array((place.length / 2) * 3);
    for (let node = 0; node < place.length / 2; node++)
      x.set([place[node * 2], place[node * 2 + 1], 0.1 * place[node * 2] ** 2], node * 3);
    const area = membrane.area_mm2.reduce((sum, a) => sum + a, 0);
    // the lattice's free edges carry no fold, about 2/n of it
    const share = hingeEnergy(hinges, x) / (0.5 * 2 * 0.2 ** 2 * area);
    expect(share).toBeGreaterThan(1 - 2 / n);
    expect(share).toBeLessThan(1);
  });
});

describe('equal stretches', () => {
  it('tensions do not depend on which axes are chosen', () => {
    const { place, triangle } = shakenGrid(1, () => 0.5);
    const membrane = createMembrane(place, triangle, neoHookean(300), 0.01);
    const x = placed(place, [1.2, 1.2], createRandom(5).uniform, 0);
    const state = createTriangleState();
    triangleState(membrane, x, 0, state);
    expect(state.tension1_mN_per_mm).toBeCloseTo(state.tension2_mN_per_mm, 9);
  });
});

describe('the solver', () => {
  const setUp = (seed: number) => {
    const random = createRandom(seed).uniform;
    const { place, triangle } = shakenGrid(4, random);
    const body = createBody(createMembrane(place, triangle, exponentialMaterial(300, 2), 0.01), noHinges());
    const x = placed(place, [1, 1], random, 0);
    for (let node = 0; node < place.length / 2; node++) {
      const [X, Y] = [place[node * 2], place[node * 2 + 1]];
      body.drag[node] = 1e-4;
      if (X > 1e-9 && Y > 1e-9 && X < 1 - 1e-9 && Y < 1 - 1e-9) continue;
      body.spring_mN_per_mm[node] = 100;
      for (let axis = 0; axis < 3; axis++) body.anchor[node * 3 + axis] = 1.3 * x[node * 3 + axis];
    }
    return { random, body, x };
  };

  it('comes to rest from any start and never raises the potential', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { random, body, x } = setUp(seed);
        for (let i = 0; i < x.length; i++) x[i] += 0.6 * (random() - 0.5);
        const increment = { from: x.slice(), dt_s: 1 };
        const before = potential(body, increment, x);
        const report = solve(body, createSolverState(x.length / 3), increment, x, {
          tolerance_mN: 1e-7,
          maxIterations: 200,
        });
        expect(potential(body, increment, x)).toBeLessThanOrEqual(before);
        expect(report.converged).toBe(true);
        const force = new Float64Array(x.length);
        gradient(body, increment, x, force);
        expect(Math.max(...force.map(Math.abs))).toBeLessThanOrEqual(1e-7);
      }),
      { numRuns: 15 },
    );
  });

  it('does not move a sheet that is at rest', () => {
    const { body, x } = setUp(7);
    const increment = { from: x.slice(), dt_s: 1 };
    const options = { tolerance_mN: 1e-7, maxIterations: 200 };
    solve(body, createSolverState(x.length / 3), increment, x, options);
    const still = { from: x.slice(), dt_s: 1 };
    solve(body, createSolverState(x.length / 3), still, x, options);
    const again = x.slice();
    expect(solve(body, createSolverState(x.length / 3), { from: x.slice(), dt_s: 1e9 }, x, options).converged).toBe(
      true,
    );
    expect(Math.max(...x.map((v, i) => Math.abs(v - again[i])))).toBeLessThan(1e-3);
  });

  it('does not call a state that is not finite converged', () => {
    const { body, x } = setUp(7);
    const increment = { from: x.slice(), dt_s: 1 };
    const options = { tolerance_mN: 1e-7, maxIterations: 200 };
    for (let k = 0; k < 3; k++) {
      increment.from.set(x);
      solve(body, createSolverState(x.length / 3), increment, x, options);
    }
    x[4] = Number.NaN;
    const report = solve(body, createSolverState(x.length / 3), increment, x, options);
    expect(report.converged).toBe(false);
  });
});

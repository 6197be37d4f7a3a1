import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import { createWorld, type HandCommand, type Scenario, stepWorld } from '../../physics/index.ts';
import { twinFactor } from '../../physics/membrane/block-cholesky.ts';
import { type Body, gradient } from '../../physics/membrane/body.ts';
import { type Engine, plainEngine } from '../../physics/membrane/engine.ts';
import { evaluatePlain, noneEvaluated } from '../../physics/membrane/evaluated.ts';
import { createKernelEngine } from '../../physics/membrane/kernel/kernel-engine.ts';
import { createKernelEvaluator } from '../../physics/membrane/kernel/kernel-evaluator.ts';
import { linearPlaneStress } from '../../physics/membrane/material.ts';
import { VALUES } from '../../physics/membrane/principal.ts';
import { createSolverState, solve } from '../../physics/membrane/solve.ts';
import { SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';

const root = join(import.meta.dirname, '../..');
const PULL: HandCommand = { x_mm: 0, y_mm: -1, lift_mm: 1, jaws: 0, instrument: 'forceps', incision: 0 };

/** The membrane of a shipped eye, its matrix and factor its own. */
function capsule(id: string) {
  const scenario = SHIPPED_SCENARIOS.find((file) => file.id === id)!.data as Scenario;
  const world = createWorld(scenario);
  for (let k = 0; k < 10; k++) stepWorld(world, PULL);
  return { body: world.body, x: world.x };
}

/** The same body with a matrix, a factor and evaluated states that no other engine writes to. */
function copyOf(body: Body): Body {
  const matrix = { ...body.matrix, values: body.matrix.values.slice(), elsewhere: false };
  return { ...body, matrix, factor: { ...twinFactor(body.factor), matrix }, evaluated: noneEvaluated() };
}

/** Places shaken by `size` mm: slack, wrinkled, taut and turned-over triangles. */
function shaken(x: Float64Array, size: number, seed: number): Float64Array {
  const random = createRandom(seed);
  return x.map((value) => value + size * (random.uniform() - 0.5));
}

const bits = ({ buffer, byteOffset, byteLength }: Float64Array | Float32Array): string =>
  createHash('sha256')
    .update(new Uint8Array(buffer, byteOffset, byteLength))
    .digest('hex');

/** One linear solution at `x`: factor, direction and count. */
function linearSolution(engine: Engine, body: Body, x: Float64Array, dt_s: number) {
  const increment = { from: x, dt_s };
  const state = createSolverState(x.length / 3, engine);
  gradient(body, increment, x, state.force);
  engine.stiffness(body, increment, x);
  const lifted = engine.factorise(body.factor, 1e-9);
  const outcome = engine.solve(body.factor, state, 60, 1e-6);
  return {
    lifted,
    ...outcome,
    lower: bits(body.factor.lower),
    pivot: bits(body.factor.pivot),
    way: bits(state.direction),
  };
}

describe('the kernel on WebAssembly memory', () => {
  const kernel = createKernelEngine()!;

  test('is there on this platform, and null where there is no WebAssembly or it is forbidden', () => {
    expect(kernel).not.toBeNull();
    const kept = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly')!;
    const forbidden = {
      Memory: WebAssembly.Memory,
      Module: () => {
        throw new Error('the rules of the page forbid it');
      },
    };
    for (const value of [undefined, forbidden]) {
      Object.defineProperty(globalThis, 'WebAssembly', { ...kept, value });
      const made = createKernelEngine();
      Object.defineProperty(globalThis, 'WebAssembly', kept);
      expect(made).toBeNull();
    }
  });

  test('carries the bytes that its source compiles to', () => {
    const { status, stderr } = spawnSync(process.execPath, ['bin/build-kernel.js', '--check'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });

  test.each([
    ['at rest', 0, 1],
    ['a little shaken', 0.01, 2],
    ['crumpled', 0.3, 3],
  ])('factors and solves to the same bits as the plain path: %s', (_title, size, seed) => {
    const { body, x } = capsule('adult-baseline');
    const at = shaken(x, size, seed);
    const plain = linearSolution(plainEngine, copyOf(body), at, 1 / 60);
    const fast = linearSolution(kernel, copyOf(body), at, 1 / 60);
    expect(plain.iterations).toBeGreaterThan(0);
    expect(fast).toEqual(plain);
  });

  test.each([
    ['infant-thick-fluid', 'at rest', 0],
    ['infant-thick-fluid', 'a little shaken', 0.02],
    ['adult-baseline', 'crumpled', 0.4],
    ['adult-baseline', 'flung about, past the exponential', 30],
    ['adult-baseline', 'collapsed to a point', Number.NaN],
  ])('evaluates membrane and folds to the same bits as the plain path: %s, %s', (id, _title, size) => {
    const { body, x } = capsule(id);
    const at = Number.isNaN(size) ? x.map(() => 1) : shaken(x, size, 11);
    const blank = () => ({
      values: new Float64Array(body.membrane.triangleCount * VALUES),
      force: new Float64Array(at.length),
      byArea: 0,
      byVolume: 0,
      hinge: 0,
    });
    const [plain, fast] = [blank(), blank()];
    evaluatePlain(plain, body.membrane, body.hinges, at);
    const evaluate = createKernelEvaluator()!;
    expect(evaluate(body.membrane, body.hinges, at, fast.values, fast.force, fast)).toBe(true);
    const told = ({ values, force, ...sums }: typeof plain) => ({ ...sums, values: bits(values), force: bits(force) });
    expect(told(fast)).toEqual(told(plain));
    if (size > 0) expect(plain.byArea).toBeGreaterThan(0);
  });

  test('leaves other materials to the plain path', () => {
    const { body, x } = capsule('adult-baseline');
    const values = new Float64Array(body.membrane.triangleCount * VALUES);
    const sums = { byArea: 0, byVolume: 0, hinge: 0 };
    const evaluate = createKernelEvaluator()!;
    for (const other of [{ material: linearPlaneStress(1, 0.3) }, { tensionField: false }])
      expect(evaluate({ ...body.membrane, ...other }, body.hinges, x, values, x.slice(), sums)).toBe(false);
    expect(values.every((value) => value === 0)).toBe(true);
  });

  test('minimises to the same bits, two bodies taking turns', () => {
    const eyes = ['infant-thick-fluid', 'adult-baseline'].map(capsule);
    const ends = [plainEngine, kernel].map((engine) => {
      const runs = eyes.map(({ body, x }) => ({
        body: copyOf(body),
        x: shaken(x, 0.02, 7),
        state: createSolverState(x.length / 3, engine),
      }));
      for (let round = 0; round < 4; round++)
        for (const { body, x, state } of runs) {
          const options = { tolerance_mN: 1e-5, maxIterations: 3 };
          expect(solve(body, state, { from: x.slice(), dt_s: 1 / 60 }, x, options).iterations).toBeGreaterThan(0);
        }
      return runs.map(({ x }) => bits(x));
    });
    expect(ends[1]).toEqual(ends[0]);
  });

  test('refuses to solve with a stiffness that another body has overwritten', () => {
    const [first, second] = ['infant-thick-fluid', 'adult-baseline'].map((id) => {
      const { body, x } = capsule(id);
      return { body: copyOf(body), x };
    });
    const increment = { from: first.x, dt_s: 1 / 60 };
    kernel.stiffness(first.body, increment, first.x);
    kernel.stiffness(second.body, { from: second.x, dt_s: 1 / 60 }, second.x);
    expect(() => kernel.factorise(first.body.factor, 1e-9)).toThrow('another body');
  });
});

import { describe, expect, test } from 'vitest';
import {
  annulusSample,
  createWorld,
  type Hand,
  type Scenario,
  scaledSizes,
  sparseSample,
} from '../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import { timeAttempt } from '../../src-main/cli/bench/attempt-timing.ts';
import { createCloth } from '../../src-main/cli/bench/cloth.ts';
import { farthestBetween, halfTurnBetween } from '../../src-main/cli/bench/path-case.ts';
import { ratiosOf } from '../../src-main/cli/bench/ratios.ts';
import { growthExponent, quantile } from '../../src-main/cli/bench/timing.ts';
import { commandLine as rimward } from '../support/command-line.ts';

const scenario = (id: string) => SHIPPED_SCENARIOS.find((file) => file.id === id)!.data as Scenario;
const hand = (id: string) => SHIPPED_HANDS.find((file) => file.id === id)!.data as Hand;

describe('the parts of the benchmark', () => {
  test('a power is found again from its points, and a quantile from its list', () => {
    const points = [500, 1000, 4000].map((x) => ({ x, y: 3 * x ** 1.25 }));
    expect(growthExponent(points)).toBeCloseTo(1.25, 12);
    const list = Array.from({ length: 100 }, (_, k) => 99 - k);
    expect([quantile(list, 0.5), quantile(list, 0.99), quantile(list, 1)]).toEqual([50, 99, 99]);
  });

  test('the ring gives the hole stretch of the radial equation to the size of its elements', () => {
    // Rivlin and Thomas 1951: rim held at 1.2 in a ring of ratio 4
    const wanted = 1.6582;
    const errors = [50, 100].map((around) => {
      const ring = annulusSample(around, around / 5);
      const { x_mm, residualShare } = ring.solve();
      expect(residualShare).toBeLessThan(1e-8);
      const radii = ring.hole.map((node) => Math.hypot(x_mm[node * 3], x_mm[node * 3 + 1]));
      expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(1e-3);
      return Math.abs(radii.reduce((sum, radius) => sum + radius / radii.length, 0) - wanted);
    });
    expect(errors[1]).toBeLessThan(0.003);
    expect(errors[1]).toBeLessThan(0.5 * errors[0]);
  });

  test('the sparse sums go through what they are said to', () => {
    const world = createWorld(scenario('infant-thick-fluid'), 1, { sizes: scaledSizes(1.6) });
    const { nodes, bytes, iterate } = sparseSample(world);
    expect(nodes).toBe(world.mesh.nodeCount);
    // at least a matrix of 7 blocks of 72 bytes a node, and no more than a few kilobytes a node
    expect(bytes(1) / nodes).toBeGreaterThan(500);
    expect((bytes(5) - bytes(4)) / nodes).toBeLessThan(5_000);
    const before = world.x.slice();
    iterate(3);
    expect(world.x).toEqual(before);
  });

  test('the cloth falls and hangs from its upper edge', () => {
    const cloth = createCloth(6);
    expect(cloth.nodes).toBe(36);
    const low = cloth.lowest();
    for (let k = 0; k < 30; k++) cloth.step();
    expect(cloth.lowest()).toBeGreaterThan(low + 1);
    expect(cloth.lowest()).toBeLessThan(low + 400);
  });

  test('an attempt is timed step by step and cut short where asked', () => {
    const timing = timeAttempt(scenario('infant-thick-fluid'), hand('infant-thick-holding'), {
      most_s: 0.5,
      sizes: scaledSizes(1.6),
    });
    expect(timing).toMatchObject({ ended: 'cut short', steps: 30, simulated_s: 0.5 });
    expect(timing.realTimeFactor).toBeCloseTo(0.5 / timing.wall_s, 9);
    expect(timing.medianStep_ms).toBeLessThanOrEqual(timing.step99_ms);
    expect(timing.step99_ms).toBeLessThanOrEqual(timing.slowestStep_ms);
  });

  test('two lines are as far apart as the farthest corner of either from the other', () => {
    const straight = [
      [0, 0],
      [4, 0],
    ] as const;
    const bent = [
      [0, 0],
      [2, 0.3],
      [4, 0],
    ] as const;
    expect(farthestBetween(straight, straight)).toBe(0);
    expect(farthestBetween(straight, bent)).toBeCloseTo(0.3, 12);
    expect(farthestBetween(bent, straight)).toBeCloseTo(0.3, 12);
  });

  test('the first half turn is that of the torn line about the centre of the disc, whatever comes after', () => {
    const round = (radius: (turn_rad: number) => number) => ({
      tears: [
        {
          reference_mm: Array.from({ length: 101 }, (_, k): [number, number] => {
            const turn = (2 * Math.PI * k) / 100;
            return [radius(turn) * Math.cos(turn), radius(turn) * Math.sin(turn)];
          }),
        },
      ],
    });
    const usual = round(() => 2);
    expect(
      halfTurnBetween(
        usual,
        round(() => 2.1),
      ),
    ).toBeCloseTo(0.1, 2);
    expect(
      halfTurnBetween(
        usual,
        round((turn) => (turn > 3.5 ? 3 : 2)),
      ),
    ).toBeLessThan(1e-12);
    expect(halfTurnBetween(usual, { tears: [] })).toBeNull();
  });

  test('a ratio that misses its goal is told, one that is far off or no number fails the run', () => {
    const cloth = { ourNodes: 1000, ourStep_ms: 2, clothNodes: 1000, clothStep_ms: 1 };
    const [found, far, none] = [2, 11, Number.NaN].map((overCloth) => ratiosOf({ cloth: { ...cloth, overCloth } })[0]);
    expect(found).toMatchObject({ met: false, farOff: false });
    expect(far).toMatchObject({ met: false, farOff: true });
    expect(none).toMatchObject({ met: false, farOff: true });
    expect(ratiosOf({ static: {}, sweep: {} })).toEqual([]);
  });
});

describe('rimward bench', () => {
  test('one case by its number gives its figures and its ratio as JSON', async () => {
    const { code, out } = await rimward('bench', '--short', '--only', '4', '--json');
    const { form, sparse, ratios, machine } = JSON.parse(out);
    expect(form).toBe('short');
    expect(machine.cores).toBeGreaterThan(0);
    expect(sparse.overStream).toBeCloseTo(sparse.call_us / sparse.stream_us, 9);
    expect(ratios).toHaveLength(1);
    expect(code).toBe(ratios[0].farOff ? 1 : 0);
  });

  test.each([
    [['--only', '7'], '--only'],
    [['--only', 'x'], '--only'],
    [['--paths', 'no-such-eye'], 'no-such-eye'],
    [['--paths', 'infant-needle', '--finer', '0'], '--finer'],
    [['more'], '1 argument'],
  ])('%j is refused before anything runs', async (args, said) => {
    const { code, out, err } = await rimward('bench', ...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(said);
  });
});

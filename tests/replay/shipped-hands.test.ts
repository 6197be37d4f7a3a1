import { describe, expect, test } from 'vitest';
import { runHand } from '../../physics/index.ts';
import { HOLDING_HAND } from '../../scenarios/shipped.ts';
import { handOf, play, scenarioOf } from '../support/shipped.ts';

/** Limits that a holding hand must keep in its own eye: half a millimetre of diameter is the teaching tolerance. */
const HELD = { diameter_mm: 0.5, centroid_mm: 0.3, circularity: 0.85, force_mN: [3, 25] } as const;

describe('a holding hand', () => {
  test.each(Object.entries(HOLDING_HAND))(
    'closes the circle in %s',
    (id, hand) => {
      const result = play(id, hand);
      expect(result.ended).toBe('complete');
      expect(result.graded.filter(({ met }) => !met).map(({ reason }) => reason)).toEqual([]);
      expect(result.passed).toBe(true);
      const { opening, work } = result;
      expect(work.rmsForce_mN).toBeGreaterThan(HELD.force_mN[0]);
      expect(work.rmsForce_mN).toBeLessThan(HELD.force_mN[1]);
      const target = scenarioOf(id).target.diameter_mm;
      expect(Math.abs(opening!.equivalentDiameter_mm - target)).toBeLessThan(HELD.diameter_mm);
      expect(opening!.centroidDistance_mm).toBeLessThan(HELD.centroid_mm);
      expect(opening!.circularity).toBeGreaterThan(HELD.circularity);
    },
    400_000,
  );
});

test('a pull straight to the centre turns the tear in', () => {
  const scenario = scenarioOf('infant-thick-fluid', (data) => ({ ...data, timeLimit_s: 40 }));
  const { tears } = runHand(scenario, handOf('centre-pull'));
  const radii = tears[0].reference_mm.map(([x, y]) => Math.hypot(x, y));
  const start = Math.max(...radii);
  expect(radii[radii.length - 1]).toBeLessThan(0.8 * start);
}, 120_000);

test('the same commands give the same state to the bit', () => {
  const scenario = scenarioOf('infant-thick-fluid', (data) => ({ ...data, timeLimit_s: 10 }));
  const hand = handOf('infant-thick-holding');
  expect(runHand(scenario, hand).digest).toBe(runHand(scenario, hand).digest);
}, 120_000);

import { describe, expect, test } from 'vitest';
import { FAILING_HAND, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import { play } from '../support/shipped.ts';

test('every shipped eye has a hand that fails in it', () => {
  expect(Object.keys(FAILING_HAND).sort()).toEqual(SHIPPED_SCENARIOS.map(({ id }) => id).sort());
});

/** What is measured of the opening itself: a bad hand fails by that, not by some count of the work. */
const OF_THE_OPENING = /iameter|ircularity|entroid|Ratio|Overlap|Nicks/;

describe('a bad hand', () => {
  test.each(Object.entries(FAILING_HAND))(
    'does not pass in %s',
    (id, hand) => {
      const { graded, passed } = play(id, hand);
      expect(passed).toBe(false);
      const missed = graded.filter(({ met }) => !met).map(({ metric }) => metric);
      expect(missed.filter((metric) => OF_THE_OPENING.test(metric))).not.toEqual([]);
    },
    400_000,
  );
});

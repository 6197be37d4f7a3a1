import { expect, test } from 'vitest';
import { soakAttempt } from '../fuzz/soak-run.ts';
import { scenarioOf } from '../support/shipped.ts';

test('a needle that cuts where no mesh can be made leaves the slit as it was and the attempt goes on', () => {
  const { steps, breaches } = soakAttempt(scenarioOf('infant-needle'), 395);
  expect(breaches).toEqual([]);
  expect(steps).toBe(1800);
});

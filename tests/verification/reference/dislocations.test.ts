import { describe, it } from 'vitest';
import { arcSlitK } from '../../../physics/verify/reference/slits.ts';
import { expectVectorWithin } from '../../support/compare.ts';
import { arcCurve, slitKByDislocations, straightCurve } from './dislocations.ts';

describe('slits by dislocations', () => {
  it('a straight slit has K = sqrt(pi a) at any angle', () => {
    for (const angle of [0, 37, 120]) {
      const K = slitKByDislocations(straightCurve(2, angle));
      expectVectorWithin(`at ${angle} deg`, [K.KI, K.KII], [Math.sqrt(2 * Math.PI), 0], { relative: 1e-9 });
    }
  });

  it.each([5, 30, 45, 60, 70, 90, 120])('an arc of half-angle %d deg has the closed form recalled for it', (half) => {
    const K = slitKByDislocations(arcCurve(1.7, half));
    const closed = arcSlitK(1, 1.7, half);
    expectVectorWithin('K', [K.KI, K.KII], [closed.KI, closed.KII], { relative: 1e-6 });
  });
});

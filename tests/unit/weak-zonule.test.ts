import { expect, test } from 'vitest';
import { createWorld, stepWorld } from '../../physics/world/world.ts';
import { scenarioOf } from '../support/shipped.ts';

/** Capsule with the zonule weak between two clock hours, brought to rest under no hand; mean shift of its rim and of its middle, mm. */
function settled(weakZonule?: { readonly fromClock_h: number; readonly toClock_h: number; readonly strength: number }) {
  const scenario = scenarioOf('adult-baseline', (data) => ({
    ...data,
    eye: { ...data.eye, ...(weakZonule ? { weakZonule } : {}) },
  }));
  const world = createWorld(scenario);
  const away = { x_mm: 0, y_mm: 0, lift_mm: 2, jaws: 0, instrument: 'forceps', incision: 0 } as const;
  for (let step = 0; step < 120; step++) stepWorld(world, away);
  const { stem, rimCount, reference_mm, nodeCount } = world.mesh;
  const { baseStretch } = world.frame;
  let [x, y, count] = [0, 0, 0];
  for (let node = 0; node < nodeCount; node++) {
    if (stem[node] !== 'rim') continue;
    x += world.x[3 * node] - baseStretch * reference_mm[2 * node];
    y += world.x[3 * node + 1] - baseStretch * reference_mm[2 * node + 1];
    count += 1;
  }
  expect(count).toBe(rimCount);
  return [x / count, y / count] as const;
}

/** Farther than the solver's rest and the prepared flap's own pull can carry the rim, mm. */
const SEEN_mm = 0.01;

test('a zonule weak at 3 o’clock lets the capsule go to 9', () => {
  const [x0, y0] = settled();
  const [x, y] = settled({ fromClock_h: 2, toClock_h: 4, strength: 0.2 });
  expect(x - x0).toBeLessThan(-SEEN_mm);
  expect(Math.abs(y - y0)).toBeLessThan(0.2 * Math.abs(x - x0));
});

test('a sector across 12 o’clock is the short way round', () => {
  const [x0, y0] = settled();
  const [x, y] = settled({ fromClock_h: 11, toClock_h: 1, strength: 0.2 });
  expect(y - y0).toBeLessThan(-SEEN_mm);
  expect(Math.abs(x - x0)).toBeLessThan(0.2 * Math.abs(y - y0));
});

test('the weaker the sector the farther; a sector of full strength changes nothing', () => {
  const [x0] = settled();
  const at = (strength: number) => settled({ fromClock_h: 2, toClock_h: 4, strength })[0] - x0;
  expect(at(1)).toBe(0);
  expect(at(0.5)).toBeLessThan(0);
  expect(at(0)).toBeLessThan(at(0.5));
});

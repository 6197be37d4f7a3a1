import { expect, test } from 'vitest';
import { checkScenario, createWorld, digestWorld, type HandCommand, stepWorld } from '../../physics/index.ts';
import { SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';

// JSON writes -0 as 0: a command that was played with one and stored must still play to the same state.
test('a command at minus zero, through an incision that lies on that line, plays as one at zero', () => {
  const shipped = SHIPPED_SCENARIOS.find(({ id }) => id === 'adult-baseline')?.data as { incisions: object[] };
  const data = { ...shipped, incisions: [{ clock_h: 3, width_mm: 2.2 }] };
  const scenario = checkScenario(data, 'scenario');
  if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems));
  const digestAt = (y_mm: number) => {
    const world = createWorld(scenario.value, 1);
    const command: HandCommand = { x_mm: 1, y_mm, lift_mm: 0, jaws: 0, instrument: 'forceps', incision: 0 };
    for (const step of [0, 1, 2, 3]) stepWorld(world, { ...command, x_mm: 1 + 0.1 * step });
    return digestWorld(world);
  };
  expect(digestAt(-0)).toBe(digestAt(0));
});

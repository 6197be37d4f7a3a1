import { expect, test } from 'vitest';
import { shippedScenarios } from '../support/shipped.ts';
import { onAllCores } from './on-all-cores.ts';
import { type SoakedAttempt, soakAttempt } from './soak-run.ts';

/** RIMWARD_SOAK_HOURS sets how many hours are simulated; the slower suites ask for 8. */
const HOURS = Number(process.env.RIMWARD_SOAK_HOURS ?? 0.05);
const FIRST_SEED = Number(process.env.RIMWARD_SOAK_SEED ?? 1);
const STEPS = HOURS * 3600 * 60;
/** Every so many attempts one is played a second time for its digest. */
const AGAIN_EVERY = 40;
/** Attempts of a worker before what it holds counts: code is compiled and caches fill in the first. */
const WARM = 40;
/** How much more a worker may hold at its end than when it was warm, bytes. Assumed: a leak of one mesh of 100 kB an attempt passes it in 80. */
const GROWTH_bytes = 8e6;

type Answer = { readonly seed: number } & (
  | { readonly attempt: SoakedAttempt; readonly held_bytes: number }
  | { readonly fault: string }
);

/** Attempts of one worker in the order in which it made them. */
type Shift = readonly Answer[];

function soak(): Promise<readonly Shift[]> {
  const scenarios = shippedScenarios();
  let next = 0;
  let steps = 0;
  return onAllCores<object, Answer>(
    new URL('./soak-worker.ts', import.meta.url),
    () => {
      if (steps >= STEPS) return null;
      const seed = FIRST_SEED + next;
      return { scenario: scenarios[next++ % scenarios.length], seed };
    },
    (answer) => {
      // a fault must not let it go on for ever
      steps += 'attempt' in answer ? answer.attempt.steps : STEPS;
    },
  );
}

/** Growth of what one worker holds, bytes, from medians of 20 attempts; null where it made too few. */
function growth_bytes(shift: Shift): number | null {
  const held = shift.flatMap((answer) => ('held_bytes' in answer ? [answer.held_bytes] : []));
  if (held.length < WARM + 40) return null;
  const middle = (list: readonly number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]!;
  return middle(held.slice(-20)) - middle(held.slice(WARM, WARM + 20));
}

test(
  `${HOURS} simulated hours of random hands at all eyes that ship: sound numbers, flat memory, the same digests again`,
  async () => {
    const shifts = await soak();
    const answers = shifts.flat();
    const attempts = answers.flatMap((answer) => ('attempt' in answer ? [answer.attempt] : []));
    const growths = shifts.map(growth_bytes);
    const hours = attempts.reduce((sum, { steps }) => sum + steps, 0) / 3600 / 60;
    console.log(
      `${attempts.length} attempts from seed ${FIRST_SEED}, ${hours.toFixed(2)} simulated hours; torn ${attempts.filter(({ torn_mm }) => torn_mm > 0).length}, ` +
        `run out ${attempts.filter(({ ended }) => ended === 'run-out').length}; each worker holds more by ` +
        `${growths.map((bytes) => (bytes === null ? 'too few attempts to say' : `${(bytes / 1e6).toFixed(2)} MB`)).join(', ')}`,
    );
    expect(answers.flatMap((answer) => ('fault' in answer ? [answer.fault] : []))).toEqual([]);
    expect(
      attempts.flatMap(({ scenario, seed, breaches }) => breaches.map((b) => `${scenario}, ${seed}: ${b}`)),
    ).toEqual([]);
    expect(new Set(attempts.map(({ scenario }) => scenario)).size).toBe(
      Math.min(shippedScenarios().length, attempts.length),
    );
    for (const bytes of growths) if (bytes !== null) expect(bytes).toBeLessThan(GROWTH_bytes);
    const byId = new Map(shippedScenarios().map((scenario) => [scenario.id, scenario]));
    for (const { scenario, seed, digest } of attempts.filter((_, k) => k % AGAIN_EVERY === 0))
      expect(`${scenario} ${seed} ${soakAttempt(byId.get(scenario)!, seed).digest}`).toBe(
        `${scenario} ${seed} ${digest}`,
      );
  },
  50 * 60_000,
);

import { expect, test } from 'vitest';
import { onAllCores } from './on-all-cores.ts';
import { type FuzzReport, runRandomHand } from './random-hand.ts';

/** RIMWARD_FUZZ sets how many hands; the slower suites ask for 500. */
const HANDS = Number(process.env.RIMWARD_FUZZ ?? 8);
const FIRST_SEED = Number(process.env.RIMWARD_FUZZ_SEED ?? 1);
/** Every so many hands one is played a second time for its digest. */
const AGAIN_EVERY = 20;

type Answer = { readonly seed: number } & ({ readonly report: FuzzReport } | { readonly fault: string });

/** Plays the seeds on all cores. */
async function playAll(seeds: readonly number[]): Promise<readonly Answer[]> {
  const left = [...seeds];
  const worker = new URL('./random-hand-worker.ts', import.meta.url);
  const answers = await onAllCores<number, Answer>(worker, () => left.shift() ?? null);
  return answers.flat().sort((a, b) => a.seed - b.seed);
}

const quantile = (sorted: readonly number[], q: number): number => sorted[Math.floor(q * (sorted.length - 1))] ?? 0;

test(
  `${HANDS} random hands in random eyes: no NaN, no turned triangle, area kept, every triangle in a piece`,
  async () => {
    const seeds = Array.from({ length: HANDS }, (_, k) => FIRST_SEED + k);
    const answers = await playAll(seeds);
    const faults = answers.flatMap((answer) => ('fault' in answer ? [`seed ${answer.seed}: ${answer.fault}`] : []));
    const reports = answers.flatMap((answer) => ('report' in answer ? [answer.report] : []));
    const gains = reports.map(({ remeshGain }) => remeshGain).sort((a, b) => a - b);
    console.log(
      `seeds ${seeds[0]} to ${seeds[seeds.length - 1]}; torn ${reports.filter(({ torn_mm }) => torn_mm > 0).length}, ` +
        `run out ${reports.filter(({ ended }) => ended === 'run-out').length}, stalled ${reports.filter(({ stalls }) => stalls > 0).length}; ` +
        `energy raised by rebuilt meshes: median ${quantile(gains, 0.5).toExponential(1)}, 95 % ${quantile(gains, 0.95).toFixed(3)}, most ${quantile(gains, 1).toFixed(3)}`,
    );
    expect(faults).toEqual([]);
    expect(reports.flatMap(({ seed, breaches }) => breaches.map((breach) => `seed ${seed}: ${breach}`))).toEqual([]);
    expect(reports.some(({ torn_mm }) => torn_mm > 1)).toBe(true);
    for (const { seed, digest } of reports.filter((_, k) => k % AGAIN_EVERY === 0))
      expect(`${seed} ${runRandomHand(seed).digest}`).toBe(`${seed} ${digest}`);
  },
  50 * 60_000,
);

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import type { Scenario } from '../../physics/scenario/scenario.ts';
import { soakAttempt } from './soak-run.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** What is held after everything that can go is gone, bytes: the heap, and the arrays outside it. */
function held(): number {
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

parentPort?.on('message', ({ scenario, seed }: { readonly scenario: Scenario; readonly seed: number }) => {
  try {
    const attempt = soakAttempt(scenario, seed);
    parentPort?.postMessage({ seed, attempt, held_bytes: held() });
  } catch (fault) {
    const text = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
    parentPort?.postMessage({ seed, fault: `${scenario.id}, seed ${seed}: ${text}` });
  }
});

import { parentPort } from 'node:worker_threads';
import { runRandomHand } from './random-hand.ts';

parentPort?.on('message', (seed: number) => {
  try {
    parentPort?.postMessage({ seed, report: runRandomHand(seed) });
  } catch (fault) {
    parentPort?.postMessage({ seed, fault: fault instanceof Error ? (fault.stack ?? fault.message) : String(fault) });
  }
});

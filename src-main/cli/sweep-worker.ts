/** Computes cells of a sweep on a core of its own, one after the other as they are asked for. */
import { parentPort } from 'node:worker_threads';
import { type SweepCell, sweepCell } from '../../physics/index.ts';

parentPort?.on('message', ({ index, cell }: { readonly index: number; readonly cell: SweepCell }) => {
  try {
    parentPort?.postMessage({ index, values: sweepCell(cell) });
  } catch (fault) {
    parentPort?.postMessage({ index, fault: fault instanceof Error ? fault.message : String(fault) });
  }
});

/** Computes cells of a sweep, or virtual trainees, on a core of its own, one after the other as they are asked for. */
import { parentPort } from 'node:worker_threads';
import { type Cell, valuesOf } from './sweep-cell.ts';

parentPort?.on('message', ({ index, cell }: { readonly index: number; readonly cell: Cell }) => {
  try {
    parentPort?.postMessage({ index, values: valuesOf(cell) });
  } catch (fault) {
    parentPort?.postMessage({ index, fault: fault instanceof Error ? fault.message : String(fault) });
  }
});

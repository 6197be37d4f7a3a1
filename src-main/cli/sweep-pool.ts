import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type Cell, type Values, valuesOf } from './sweep-cell.ts';

/** What came of a cell: its values, or why there are none. */
export type CellOutcome<C extends Cell> = { readonly values: Values<C> } | { readonly fault: string };

const outcomeHere = <C extends Cell>(cell: C): CellOutcome<C> => {
  try {
    return { values: valuesOf(cell) as Values<C> };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }
};

/** Whether cells can be computed on cores of their own: in the built program, not from source. */
export const hasSweepWorkers = (): boolean => workerFile() !== null;

/** The built worker beside the built command line; absent when running from source. */
const workerFile = (): string | null => {
  const file = join(dirname(fileURLToPath(import.meta.url)), 'sweep-worker.js');
  return existsSync(file) ? file : null;
};

/**
 * Computes the cells on `jobs` cores; outcomes are in the order of the cells whatever finishes first. `done` is called after each, with
 * the number done and the place of the one that was.
 * A worker that dies rejects the whole. One job is done right here unless `inWorkers` says otherwise.
 */
export async function computeCells<C extends Cell>(
  cells: readonly C[],
  jobs: number,
  done: (count: number, index: number) => void,
  inWorkers = jobs > 1,
): Promise<readonly CellOutcome<C>[]> {
  const outcomes: CellOutcome<C>[] = [];
  const file = workerFile();
  let finished = 0;
  const took = (index: number, outcome: CellOutcome<C>) => {
    outcomes[index] = outcome;
    finished += 1;
    done(finished, index);
  };
  if (!inWorkers || file === null) {
    for (const [index, cell] of cells.entries()) took(index, outcomeHere(cell));
    return outcomes;
  }
  let next = 0;
  const work = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(file);
      const ask = () => {
        if (next >= cells.length) return void worker.terminate().then(() => resolve(), reject);
        worker.postMessage({ index: next, cell: cells[next] });
        next += 1;
      };
      worker.on('message', ({ index, ...outcome }: { readonly index: number } & CellOutcome<C>) => {
        took(index, outcome as CellOutcome<C>);
        ask();
      });
      worker.on('error', reject);
      ask();
    });
  await Promise.all(Array.from({ length: Math.min(jobs, cells.length) }, work));
  return outcomes;
}

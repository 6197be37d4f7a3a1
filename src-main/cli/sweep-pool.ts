import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type SweepCell, type SweepValues, sweepCell } from '../../physics/index.ts';

/** What came of a cell: its values, or why there are none. */
export type CellOutcome = { readonly values: SweepValues } | { readonly fault: string };

const outcomeHere = (cell: SweepCell): CellOutcome => {
  try {
    return { values: sweepCell(cell) };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }
};

/** The built worker beside the built command line; absent when running from source. */
const workerFile = (): string | null => {
  const file = join(dirname(fileURLToPath(import.meta.url)), 'sweep-worker.js');
  return existsSync(file) ? file : null;
};

/**
 * Computes the cells on `jobs` cores; outcomes are in the order of the cells whatever finishes first. `done` is called after each.
 * A worker that dies rejects the whole.
 */
export async function computeCells(
  cells: readonly SweepCell[],
  jobs: number,
  done: (count: number) => void,
): Promise<readonly CellOutcome[]> {
  const outcomes: CellOutcome[] = [];
  const file = workerFile();
  let finished = 0;
  const took = (index: number, outcome: CellOutcome) => {
    outcomes[index] = outcome;
    finished += 1;
    done(finished);
  };
  if (jobs === 1 || file === null) {
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
      worker.on('message', ({ index, ...outcome }: { readonly index: number } & CellOutcome) => {
        took(index, outcome as CellOutcome);
        ask();
      });
      worker.on('error', reject);
      ask();
    });
  await Promise.all(Array.from({ length: Math.min(jobs, cells.length) }, work));
  return outcomes;
}

/** What `rimward trainees` says while its hands play; the hands themselves are left out. */
import { expect, test, vi } from 'vitest';
import type { CompletionCell } from '../../physics/index.ts';
import { commandLine } from '../support/command-line.ts';

vi.mock('../../src-main/cli/sweep-pool.ts', () => ({
  computeCells: async (
    cells: readonly CompletionCell[],
    _jobs: number,
    done: (count: number, index: number) => void,
  ): Promise<readonly { readonly fault: string }[]> => {
    // the last one first
    cells.forEach((_, k) => {
      done(k + 1, cells.length - 1 - k);
    });
    return cells.map(() => ({ fault: 'not played' }));
  },
}));

test('hands that have played are counted, not batches of them', async () => {
  const { err } = await commandLine('trainees', '--ages', '3,65', '--fluids', 'ha-2.3', '--count', '7');
  expect(err.split('\n').slice(0, 4)).toEqual([
    '2 of 14 played',
    '7 of 14 played',
    '9 of 14 played',
    '14 of 14 played',
  ]);
});

import { formatProblem } from '../../../../physics/index.ts';
import data from '../../../../scenarios/boards/why-outward.rimward-boards.json' with { type: 'json' };
import type { Board } from './board.ts';
import { checkBoards } from './parse-boards.ts';

/** The boards that ship, through the same check as any file. A fault in them is named and leaves the list empty. */
export function builtInBoards(): { readonly boards: readonly Board[]; readonly problems: readonly string[] } {
  const read = checkBoards(data, 'scenarios/boards/why-outward.rimward-boards.json');
  return read.ok
    ? { boards: read.value.boards, problems: [] }
    : { boards: [], problems: read.problems.map(formatProblem) };
}

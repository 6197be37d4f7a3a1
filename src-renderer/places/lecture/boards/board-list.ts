/** The boards as they are arranged on this machine: plain functions on plain data. */

import canonicalize from 'canonicalize';
import type { Problem } from '../../../../physics/index.ts';
import { textOf } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { BOARDS_ENDING, type Board, type BoardFile } from './board.ts';
import { MAX_BOARDS } from './board-schema.ts';
import type { ScenarioById } from './board-setup.ts';
import { checkBoards } from './parse-boards.ts';

/** JSON with its keys in order: equal texts for equal boards. */
export const canonical = (value: unknown): string => canonicalize(value) ?? '';

/** Same content; hidden or not does not count. */
export const sameBoard = (a: Board, b: Board): boolean =>
  canonical({ ...a, hidden: undefined }) === canonical({ ...b, hidden: undefined });

/** The id asked for, or the first free one made of it by a number. */
export function freeId(wish: string, taken: readonly Board[]): string {
  const ids = new Set(taken.map(({ id }) => id));
  const stem = wish.slice(0, 58);
  let id = wish;
  for (let count = 2; ids.has(id); count++) id = `${stem}-${count}`;
  return id;
}

/** The board moved so that it stands at `to`, counted after it was taken out. */
export function moved(boards: readonly Board[], id: string, to: number): readonly Board[] {
  const board = boards.find((one) => one.id === id);
  if (board === undefined) return boards;
  const others = boards.filter((one) => one !== board);
  return others.toSpliced(Math.max(0, Math.min(others.length, to)), 0, board);
}

export function withHidden(boards: readonly Board[], id: string, hidden: boolean): readonly Board[] {
  return boards.map((board) => {
    if (board.id !== id) return board;
    const { hidden: _, ...rest } = board;
    return hidden ? { ...rest, hidden } : rest;
  });
}

/** A copy right after the board, under an id and a title of its own. Null where there is no room for one more. */
export function duplicated(
  boards: readonly Board[],
  id: string,
): { readonly boards: readonly Board[]; readonly id: string } | null {
  const at = boards.findIndex((one) => one.id === id);
  const board = boards[at];
  if (board === undefined || boards.length >= MAX_BOARDS) return null;
  const copy = {
    ...board,
    id: freeId(board.id, boards),
    title: t('lecture.boards.copyTitle', { title: textOf(board.title) }).slice(0, 120),
  };
  return { boards: boards.toSpliced(at + 1, 0, copy), id: copy.id };
}

/** The board in place of the one with that id, or at the end. */
export function withBoard(boards: readonly Board[], board: Board, inPlaceOf: string | null): readonly Board[] {
  const at = boards.findIndex(({ id }) => id === inPlaceOf);
  return at < 0 ? [...boards, board] : boards.with(at, board);
}

/** Those that are gone through one after the other. */
export const visible = (boards: readonly Board[]): readonly Board[] => boards.filter(({ hidden }) => hidden !== true);

/** The visible board before or after that one; itself at the ends; the first visible where it is not shown any more. */
export function neighbour(boards: readonly Board[], id: string | null, direction: 1 | -1): Board | null {
  const shown = visible(boards);
  const at = shown.findIndex((one) => one.id === id);
  if (at < 0) return shown[0] ?? null;
  return shown[at + direction] ?? shown[at]!;
}

export interface TakenIn {
  readonly boards: readonly Board[];
  readonly added: number;
  /** Already here, word for word. */
  readonly known: number;
}

/** Adds the boards of a file at the end, under free ids; what is already here stays once. Null where they are too many. */
export function takenIn(boards: readonly Board[], file: BoardFile): TakenIn | null {
  const all = [...boards];
  let known = 0;
  for (const board of file.boards) {
    if (boards.some((one) => sameBoard(one, { ...board, id: one.id }))) known++;
    else all.push({ ...board, id: freeId(board.id, all) });
  }
  if (all.length > MAX_BOARDS) return null;
  return { boards: all, added: all.length - boards.length, known };
}

/** Built-in boards that are not in the list, by id. */
export const missingBuiltIn = (boards: readonly Board[], builtIn: readonly Board[]): readonly Board[] =>
  builtIn.filter(({ id }) => !boards.some((one) => one.id === id));

/** One file of boards that runs on any machine: scenarios that do not ship are written out. */
export function exportText(
  boards: readonly Board[],
  title: string,
  ships: (scenarioId: string) => boolean,
  scenarioById: ScenarioById,
): string {
  const whole = boards.map((board) => {
    if (typeof board.scenario !== 'string' || ships(board.scenario)) return board;
    return { ...board, scenario: scenarioById(board.scenario) ?? board.scenario };
  });
  return `${JSON.stringify({ rimwardBoards: 1, title, boards: whole }, null, 2)}\n`;
}

export const exportName = (title: string): string => {
  const stem = title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40);
  return `${stem === '' ? 'boards' : stem}.${BOARDS_ENDING}`;
};

/** As it is kept: an unchanged built-in board by its id, so that a later version of the program brings its own. */
export function keptText(boards: readonly Board[], builtIn: readonly Board[], unread: readonly unknown[]): string {
  const entries = boards.map((board) => {
    const ours = builtIn.find(({ id }) => id === board.id);
    if (ours === undefined || !sameBoard(ours, board)) return board;
    return { builtIn: board.id, ...(board.hidden === true ? { hidden: true } : {}) };
  });
  return JSON.stringify({ rimwardBoardList: 1, boards: entries, ...(unread.length > 0 ? { unread } : {}) });
}

export interface ReadBack {
  readonly boards: readonly Board[];
  /** What could not be read, kept as it is and never run. */
  readonly unread: readonly unknown[];
  readonly problems: readonly Problem[];
}

const KEPT = 'boards kept here';

/** Reads it back, every board through the check of files. What does not pass is neither shown nor lost. */
export function readBack(text: string, builtIn: readonly Board[], scenarioById: ScenarioById): ReadBack {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    json = null;
  }
  const { rimwardBoardList, boards: entries, unread: before } = (json ?? {}) as Record<string, unknown>;
  if (rimwardBoardList !== 1 || !Array.isArray(entries)) {
    const problem = { file: KEPT, path: '', found: 'a text that is not a list of boards', allowed: 'what was kept' };
    return { boards: builtIn, unread: [], problems: [problem] };
  }
  const boards: Board[] = [];
  const unread: unknown[] = [];
  const problems: Problem[] = [];
  for (const entry of [...entries, ...(Array.isArray(before) ? before : [])] as readonly unknown[]) {
    const known = builtInOf(entry, builtIn);
    // a built-in board that this version does not have any more
    if (known === null) continue;
    const read = checkBoards({ rimwardBoards: 1, title: KEPT, boards: [known ?? entry] }, KEPT, scenarioById);
    const board = read.ok ? read.value.boards[0] : undefined;
    if (board === undefined || boards.some(({ id }) => id === board.id)) {
      unread.push(entry);
      problems.push(...(read.ok ? [] : read.problems));
    } else {
      boards.push(board);
    }
  }
  return { boards, unread, problems };
}

/** Undefined for an entry that is none of ours, null for one that is gone. */
function builtInOf(entry: unknown, builtIn: readonly Board[]): Board | null | undefined {
  if (typeof entry !== 'object' || entry === null || !('builtIn' in entry)) return undefined;
  const board = builtIn.find(({ id }) => id === entry.builtIn);
  if (board === undefined) return null;
  return 'hidden' in entry && entry.hidden === true ? { ...board, hidden: true } : board;
}

import { create } from 'zustand';
import type { Scenario } from '../../../../physics/index.ts';
import { faultText } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { useOwnEyes } from '../../../stores/own-eyes.ts';
import { problemWords } from '../../../ui/problem-words.ts';
import type { Board } from './board.ts';
import { exportName, exportText, keptText, neighbour, readBack, takenIn, visible } from './board-list.ts';
import { MAX_BOARDS } from './board-schema.ts';
import { shippedScenario } from './board-setup.ts';
import { builtInBoards } from './built-in-boards.ts';
import { parseBoards } from './parse-boards.ts';

interface BoardsState {
  readonly boards: readonly Board[];
  readonly builtIn: readonly Board[];
  readonly shownId: string | null;
  /** Lines about files and kept boards that were not taken. */
  readonly problems: readonly string[];
  /** What was done last, in words. */
  readonly notice: string | null;
  readonly loaded: boolean;
  /** Lists before each change, the newest last. */
  readonly past: readonly (readonly Board[])[];
  /** Kept boards that this program cannot read; kept on. */
  readonly unread: readonly unknown[];
  /** Reads what is kept on this machine. Never rejects: what goes wrong is in `problems`. */
  load(): Promise<void>;
  /** A new list, kept at once; `undo` goes back. */
  change(boards: readonly Board[], notice: string): void;
  undo(): void;
  show(id: string): void;
  step(direction: 1 | -1): void;
  importFile(): Promise<void>;
  exportFile(title: string): Promise<void>;
}

/** Changes that can be taken back. Assumed to be plenty for one lecture. */
const MOST_UNDO = 50;

const line = (fault: unknown): string => faultText(fault);

/** A scenario made on this machine, else a shipped one; null where there is none of that id. */
export function lectureScenario(id: string): Scenario | null {
  return useOwnEyes.getState().scenarios.find((one) => one.id === id) ?? shippedScenario(id);
}

const { boards: builtIn, problems: builtInProblems } = builtInBoards();

export const useBoards = create<BoardsState>((set, get) => {
  const keep = () => {
    const { boards, unread } = get();
    void window.rimwardHost
      ?.saveBoards(keptText(boards, builtIn, unread))
      .catch((fault: unknown) => set({ problems: [t('lecture.boards.notKept', { fault: line(fault) })] }));
  };
  /** The board shown, or its neighbour where it has gone. */
  const stillShown = (boards: readonly Board[]): string | null => {
    const { shownId } = get();
    if (boards.some(({ id }) => id === shownId)) return shownId;
    return neighbour(boards, shownId, 1)?.id ?? null;
  };
  return {
    boards: builtIn,
    builtIn,
    shownId: visible(builtIn)[0]?.id ?? null,
    problems: builtInProblems,
    notice: null,
    loaded: false,
    past: [],
    unread: [],
    load: async () => {
      if (get().loaded) return;
      try {
        await useOwnEyes.getState().load();
        const text = (await window.rimwardHost?.loadBoards()) ?? null;
        if (text === null || text === '') return set({ loaded: true });
        const { boards, unread, problems } = readBack(text, builtIn, lectureScenario);
        set({
          boards,
          unread,
          problems: [...builtInProblems, ...problems.map(problemWords)],
          shownId: visible(boards)[0]?.id ?? null,
          loaded: true,
        });
      } catch (fault) {
        set({ problems: [line(fault)], loaded: true });
      }
    },
    change: (boards, notice) => {
      const { boards: before, past } = get();
      set({ boards, notice, problems: [], past: [...past, before].slice(-MOST_UNDO), shownId: stillShown(boards) });
      keep();
    },
    undo: () => {
      const { past } = get();
      const before = past.at(-1);
      if (before === undefined) return;
      set({ boards: before, past: past.slice(0, -1), notice: t('lecture.boards.undone'), shownId: stillShown(before) });
      keep();
    },
    show: (id) => set({ shownId: id }),
    step: (direction) => {
      const next = neighbour(get().boards, get().shownId, direction);
      if (next !== null) set({ shownId: next.id });
    },
    importFile: async () => {
      try {
        const file = (await window.rimwardHost?.openTextFile()) ?? null;
        if (file === null) return;
        const read = parseBoards(file.text, file.name, lectureScenario);
        if (!read.ok) return set({ problems: read.problems.map(problemWords), notice: null });
        const taken = takenIn(get().boards, read.value);
        if (taken === null)
          return set({ problems: [t('lecture.boards.tooMany', { file: file.name, count: MAX_BOARDS })] });
        const { added: count, known } = taken;
        const said =
          known === 0
            ? t('lecture.boards.taken', { file: file.name, count })
            : t('lecture.boards.takenKnown', { file: file.name, count, known });
        get().change(taken.boards, said);
      } catch (fault) {
        set({ problems: [line(fault)], notice: null });
      }
    },
    exportFile: async (title) => {
      try {
        const name = title.trim() === '' ? t('lecture.boards.untitled') : title.trim();
        const own = useOwnEyes.getState().scenarios;
        const ships = (id: string) => shippedScenario(id) !== null && !own.some((one) => one.id === id);
        const text = exportText(get().boards, name, ships, lectureScenario);
        const saved = (await window.rimwardHost?.saveTextFile(exportName(name), text)) ?? null;
        if (saved !== null) set({ notice: t('lecture.boards.savedAs', { name: saved }), problems: [] });
      } catch (fault) {
        set({ problems: [line(fault)], notice: null });
      }
    },
  };
});

/** The board that is shown, null where every board is hidden or deleted. */
export const shownBoard = ({ boards, shownId }: Pick<BoardsState, 'boards' | 'shownId'>): Board | null =>
  boards.find(({ id }) => id === shownId) ?? null;

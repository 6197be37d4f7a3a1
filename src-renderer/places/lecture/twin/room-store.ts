import { create } from 'zustand';
import type { DrawnShape } from './drawn-shapes.ts';

export type DrawTool = 'pen' | 'arrow' | 'erase';
export type TextSize = 1 | 2 | 3;

/** The shapes before a change; undo goes back to them. */
type Past = readonly (readonly DrawnShape[])[];

interface RoomState {
  /** Drawing over the eyes: the tool in hand, null while the eyes are worked with. */
  readonly tool: DrawTool | null;
  readonly shapes: readonly DrawnShape[];
  readonly past: Past;
  readonly trail: boolean;
  readonly black: boolean;
  readonly textSize: TextSize;
  setTool(tool: DrawTool | null): void;
  /** A change of what is drawn, to be undone in one go. */
  setShapes(shapes: readonly DrawnShape[]): void;
  undo(): void;
  setTrail(trail: boolean): void;
  setBlack(black: boolean): void;
  setTextSize(size: TextSize): void;
}

/** Changes that can be taken back. */
const MOST_PAST = 100;

/** What helps to show the eyes to a room: drawing over them, pointer trail, black screen, size of the text. */
export const useRoom = create<RoomState>((set) => ({
  tool: null,
  shapes: [],
  past: [],
  trail: false,
  black: false,
  textSize: 1,
  setTool: (tool) => set({ tool }),
  setShapes: (shapes) => set((state) => ({ shapes, past: [...state.past, state.shapes].slice(-MOST_PAST) })),
  undo: () =>
    set(({ past }) => {
      const before = past.at(-1);
      return before === undefined ? {} : { shapes: before, past: past.slice(0, -1) };
    }),
  setTrail: (trail) => set({ trail }),
  setBlack: (black) => set({ black }),
  setTextSize: (textSize) => set({ textSize }),
}));

/** The next size of the text; after the largest comes the smallest. */
export function nextTextSize(): void {
  const { textSize, setTextSize } = useRoom.getState();
  setTextSize(textSize === 3 ? 1 : textSize === 2 ? 3 : 2);
}

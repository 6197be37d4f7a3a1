import { createContext, useContext } from 'react';
import type { Problem } from '../../../../physics/index.ts';
import type { BoardDraft } from './board-draft.ts';

export interface BoardEditing {
  readonly draft: BoardDraft;
  readonly problems: readonly Problem[];
  change(part: Partial<BoardDraft>): void;
}

export const EditingContext = createContext<BoardEditing | null>(null);

/** The board in the editor, for the parts of the form. */
export function useEditing(): BoardEditing {
  const editing = useContext(EditingContext);
  if (editing === null) throw new Error('a part of the form stands outside of the editor');
  return editing;
}

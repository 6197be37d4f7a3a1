import { createContext, useContext } from 'react';
import type { Problem } from '../../../physics/index.ts';
import type { Draft, Json, Path } from './draft.ts';
import type { FieldText } from './field-texts.ts';

/** What is told about the field that is in use or under the pointer. */
export interface FieldNote {
  readonly text: FieldText;
  /** What may stand there, in words; empty where that goes without saying. */
  readonly range: string;
}

/** The scenario that is being edited, as its fields see it. */
export interface Editor {
  readonly draft: Draft;
  /** By place in the file. */
  readonly problems: ReadonlyMap<string, readonly Problem[]>;
  /** The id is fixed once a scenario is saved. */
  readonly idFixed: boolean;
  edit(path: Path, value: Json | undefined, field?: string): void;
  settle(): void;
  tell(note: FieldNote): void;
}

export const EditorContext = createContext<Editor | null>(null);

export function useEditor(): Editor {
  const editor = useContext(EditorContext);
  if (editor === null) throw new Error('a field outside of the editor');
  return editor;
}

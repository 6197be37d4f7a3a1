import { create } from 'zustand';
import { formatProblem, parseScenario, type Scenario } from '../../../physics/index.ts';
import { useOwnEyes } from '../../stores/own-eyes.ts';
import { offeredScenarios } from '../bench/offered-scenarios.ts';
import { checkDraft } from './check-draft.ts';
import {
  copyOf,
  deskText,
  type EyeDocument,
  editedDocument,
  laidOut,
  readDesk,
  savedDocument,
  takenIds,
  titleOf,
} from './documents.ts';
import { draftOf, type Json, type Path } from './draft.ts';
import { edited, redone, settled, undone } from './edit-history.ts';

interface DeskState {
  readonly ready: boolean;
  readonly documents: readonly EyeDocument[];
  /** Key of the document that is shown. */
  readonly chosen: string;
  /** What was done last, for the person. */
  readonly line: string;
  /** Why the last file or save did not work. */
  readonly complaints: readonly string[];
  open(): Promise<void>;
  choose(key: string): void;
  /** Changes one place of the shown scenario; a shipped one is copied first. */
  edit(path: Path, value: Json | undefined, field?: string): void;
  settle(): void;
  undo(): void;
  redo(): void;
  /** Back to the state that is kept; can be undone. */
  dropChanges(): void;
  duplicate(): void;
  /** Keeps the shown scenario. Gives it, or null when there are problems. */
  save(): Promise<Scenario | null>;
  remove(): Promise<void>;
  openFile(): Promise<void>;
  share(): Promise<void>;
}

const said = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
const NOTHING_KEPT = 'Nothing can be kept here: the page runs without its program.';

export const shownDocument = ({
  documents,
  chosen,
}: Pick<DeskState, 'documents' | 'chosen'>): EyeDocument | undefined => documents.find(({ key }) => key === chosen);

const judged = (state: DeskState, document: EyeDocument) =>
  checkDraft(document.history.now, takenIds(state.documents, document.key));

type SetDesk = (next: Partial<DeskState>) => void;

/** Changes of the shown document that need nobody else. */
function deskEdits(set: SetDesk, get: () => DeskState) {
  const replace = (next: EyeDocument): void =>
    set({ documents: get().documents.map((one) => (one.key === next.key ? next : one)) });
  const shown = (): EyeDocument | undefined => shownDocument(get());
  const put = (made: EyeDocument, line: string): void =>
    set({ documents: [made, ...get().documents], chosen: made.key, line, complaints: [] });
  const onHistory = (change: (history: EyeDocument['history']) => EyeDocument['history']) => (): void => {
    const document = shown();
    if (document !== undefined) replace({ ...document, history: change(document.history) });
  };
  return {
    replace,
    put,
    choose: (key: string) => set({ chosen: key, line: '', complaints: [] }),
    edit: (path: Path, value: Json | undefined, field?: string) => {
      const document = shown();
      if (document === undefined) return;
      if (document.kind === 'own') return replace(editedDocument(document, path, value, field));
      const copy = copyOf(document.history.now, get().documents, true);
      put(
        editedDocument(copy, path, value, field),
        'This is a copy of your own now; the shipped scenario stays as it is.',
      );
    },
    settle: onHistory(settled),
    undo: onHistory(undone),
    redo: onHistory(redone),
    dropChanges: () => {
      const document = shown();
      if (document?.saved == null) return;
      const back = edited(settled(document.history), draftOf(document.saved), 'drop');
      replace({ ...document, history: settled(back) });
      set({ line: 'Back to what is saved. Undo brings your changes back.' });
    },
    duplicate: () => {
      const document = shown();
      if (document === undefined) return;
      put(copyOf(document.history.now, get().documents, true), `A copy of “${titleOf(document)}”, not saved yet.`);
    },
  };
}

/** What goes to and comes from the program around the page. */
function deskFiles(set: SetDesk, get: () => DeskState, { replace, put }: ReturnType<typeof deskEdits>) {
  const guarded = async <T>(work: () => Promise<T>): Promise<T | null> => {
    try {
      return await work();
    } catch (fault) {
      set({ complaints: [said(fault)] });
      return null;
    }
  };
  return {
    save: () =>
      guarded(async () => {
        const document = shownDocument(get());
        if (document === undefined) return null;
        const { scenario } = judged(get(), document);
        if (scenario === null) return null;
        if (document.kind === 'shipped') return scenario;
        await useOwnEyes.getState().save(scenario);
        const now = shownDocument({ ...get(), chosen: document.key }) ?? document;
        replace({ ...now, saved: scenario, history: settled(now.history) });
        set({ line: `Saved as “${scenario.title}”.`, complaints: [] });
        return scenario;
      }),
    remove: async () => {
      const document = shownDocument(get());
      if (document === undefined || document.kind !== 'own') return;
      const { saved, key } = document;
      const gone = await guarded(async () => {
        if (saved !== null) await useOwnEyes.getState().remove(saved.id);
        return true;
      });
      if (gone === null) return;
      const documents = get().documents.filter((one) => one.key !== key);
      set({ documents, chosen: documents[0]?.key ?? '', line: `“${titleOf(document)}” is deleted.`, complaints: [] });
    },
    openFile: async () => {
      await guarded(async () => {
        const file = await window.rimwardHost?.openTextFile();
        if (file == null) return;
        const parsed = parseScenario(file.text, file.name);
        if (!parsed.ok) return set({ complaints: parsed.problems.map(formatProblem), line: '' });
        const made = copyOf(draftOf(parsed.value), get().documents, false);
        const renamed = made.history.now.id !== parsed.value.id;
        const as = renamed ? `, as ${made.history.now.id}, because its name was taken` : '';
        put(made, `Opened ${file.name}${as}. It is not saved yet.`);
      });
    },
    share: async () => {
      await guarded(async () => {
        const document = shownDocument(get());
        if (document === undefined) return;
        const { scenario } = judged(get(), document);
        if (scenario === null) return;
        if (window.rimwardHost === undefined) throw new Error(NOTHING_KEPT);
        const name = await window.rimwardHost.saveTextFile(
          `${scenario.id}.rimward`,
          `${JSON.stringify(scenario, null, 2)}\n`,
        );
        if (name !== null) set({ line: `Written to ${name}.`, complaints: [] });
      });
    },
  };
}

/** Lays out the desk: shipped and own scenarios, and the unsaved work of last time. */
async function openDesk(set: SetDesk): Promise<void> {
  const { scenarios, problems } = offeredScenarios();
  if (!useOwnEyes.getState().loaded) await useOwnEyes.getState().load();
  const own = useOwnEyes.getState();
  const complaints = [...problems, ...own.problems];
  let kept: ReturnType<typeof readDesk> = null;
  try {
    const text = (await window.rimwardHost?.loadEyeDrafts()) ?? null;
    kept = text === null ? null : readDesk(text);
    if (text !== null && kept === null) complaints.push('The unsaved work of last time could not be read.');
  } catch (fault) {
    complaints.push(said(fault));
  }
  const documents = laidOut(scenarios, own.scenarios, kept);
  const chosen = documents.find(({ key }) => key === kept?.chosen) ?? documents[0];
  set({ documents, chosen: chosen?.key ?? '', complaints, ready: true });
}

export const useDesk = create<DeskState>((set, get) => {
  const hands = deskEdits(set, get);
  const { replace: _replace, put: _put, ...edits } = hands;
  return {
    ready: false,
    documents: [],
    chosen: '',
    line: '',
    complaints: [],
    open: async () => {
      if (!get().ready) await openDesk(set);
      // scenarios that another place has added since
      const known = new Set(get().documents.flatMap(({ saved }) => (saved === null ? [] : [saved.id])));
      const more = useOwnEyes.getState().scenarios.filter(({ id }) => !known.has(id));
      if (more.length > 0) set({ documents: [...more.map(savedDocument), ...get().documents] });
    },
    ...edits,
    ...deskFiles(set, get, hands),
  };
});

/** Soon enough that nothing worth a word is lost, seldom enough that a key press is not a write. */
const KEEP_AFTER_ms = 250;

/** Keeps the unsaved work as it is typed. @returns how to stop; what is still waiting is then kept at once */
export function keepDrafts(): () => void {
  let timer = 0;
  let kept = '';
  const keep = () => {
    window.clearTimeout(timer);
    timer = 0;
    const { ready, documents, chosen } = useDesk.getState();
    if (!ready || window.rimwardHost === undefined) return;
    const text = deskText(documents, chosen);
    if (text === kept) return;
    kept = text;
    window.rimwardHost.saveEyeDrafts(text).catch((fault: unknown) => {
      kept = '';
      useDesk.setState({ complaints: [`Your changes are not kept yet: ${said(fault)}`] });
    });
  };
  const unsubscribe = useDesk.subscribe((now, before) => {
    if (now.documents === before.documents && now.chosen === before.chosen) return;
    if (timer === 0) timer = window.setTimeout(keep, KEEP_AFTER_ms);
  });
  window.addEventListener('pagehide', keep);
  return () => {
    unsubscribe();
    window.removeEventListener('pagehide', keep);
    keep();
  };
}

import { create } from 'zustand';
import { parseScenario, type Scenario } from '../../../physics/index.ts';
import { faultText } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useOwnEyes } from '../../stores/own-eyes.ts';
import { judged } from '../../ui/judged-words.ts';
import { problemWords } from '../../ui/problem-words.ts';
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
  shownDraft,
  takenIds,
  titleOf,
} from './documents.ts';
import { draftOf, type Json, type Path } from './draft.ts';
import { edited, redone, settled, undone } from './edit-history.ts';

/** A line for the person, made when it is shown: the language may change after what it tells of. */
type Line = () => string;

interface DeskState {
  readonly ready: boolean;
  readonly documents: readonly EyeDocument[];
  /** Key of the document that is shown. */
  readonly chosen: string;
  /** What was done last, for the person. */
  readonly line: Line;
  /** Why the last file or save did not work. */
  readonly complaints: readonly Line[];
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

const said = (fault: unknown): string => faultText(fault);
const saidAsIs = (lines: readonly string[]): readonly Line[] => lines.map((line) => () => line);
const SILENT: Line = () => '';

export const shownDocument = ({
  documents,
  chosen,
}: Pick<DeskState, 'documents' | 'chosen'>): EyeDocument | undefined => documents.find(({ key }) => key === chosen);

const checkedNow = (state: DeskState, document: EyeDocument) =>
  checkDraft(document.history.now, takenIds(state.documents, document.key));

type SetDesk = (next: Partial<DeskState>) => void;

/** Changes of the shown document that need nobody else. */
function deskEdits(set: SetDesk, get: () => DeskState) {
  const replace = (next: EyeDocument): void =>
    set({ documents: get().documents.map((one) => (one.key === next.key ? next : one)) });
  const shown = (): EyeDocument | undefined => shownDocument(get());
  const put = (made: EyeDocument, line: Line): void =>
    set({ documents: [made, ...get().documents], chosen: made.key, line, complaints: [] });
  const onHistory = (change: (history: EyeDocument['history']) => EyeDocument['history']) => (): void => {
    const document = shown();
    if (document !== undefined) replace({ ...document, history: change(document.history) });
  };
  return {
    replace,
    put,
    choose: (key: string) => set({ chosen: key, line: SILENT, complaints: [] }),
    edit: (path: Path, value: Json | undefined, field?: string) => {
      const document = shown();
      if (document === undefined) return;
      if (document.kind === 'own') return replace(editedDocument(document, path, value, field));
      const copy = copyOf(shownDraft(document), get().documents, true);
      put(editedDocument(copy, path, value, field), () => t('eyes.desk.copied'));
    },
    settle: onHistory(settled),
    undo: onHistory(undone),
    redo: onHistory(redone),
    dropChanges: () => {
      const document = shown();
      if (document?.saved == null) return;
      const back = edited(settled(document.history), draftOf(document.saved), 'drop');
      replace({ ...document, history: settled(back) });
      set({ line: () => t('eyes.desk.back') });
    },
    duplicate: () => {
      const document = shown();
      if (document === undefined) return;
      put(copyOf(shownDraft(document), get().documents, true), () =>
        t('eyes.desk.duplicated', { title: titleOf(document) }),
      );
    },
  };
}

/** What goes to and comes from the program around the page. */
function deskFiles(set: SetDesk, get: () => DeskState, { replace, put }: ReturnType<typeof deskEdits>) {
  const guarded = async <T>(work: () => Promise<T>): Promise<T | null> => {
    try {
      return await work();
    } catch (fault) {
      set({ complaints: saidAsIs([said(fault)]) });
      return null;
    }
  };
  return {
    save: () =>
      guarded(async () => {
        const document = shownDocument(get());
        if (document === undefined) return null;
        const { scenario } = checkedNow(get(), document);
        if (scenario === null) return null;
        if (document.kind === 'shipped') return scenario;
        await useOwnEyes.getState().save(scenario);
        const now = shownDocument({ ...get(), chosen: document.key }) ?? document;
        replace({ ...now, saved: scenario, history: settled(now.history) });
        set({ line: () => t('eyes.desk.saved', { title: scenario.title }), complaints: [] });
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
      const line = () => t('eyes.desk.deleted', { title: titleOf(document) });
      set({ documents, chosen: documents[0]?.key ?? '', line, complaints: [] });
    },
    openFile: async () => {
      await guarded(async () => {
        const file = await window.rimwardHost?.openTextFile();
        if (file == null) return;
        const parsed = parseScenario(file.text, file.name);
        if (!parsed.ok) {
          const complaints = parsed.problems.map((problem) => () => problemWords(judged(problem)));
          return set({ complaints, line: SILENT });
        }
        const made = copyOf(draftOf(parsed.value), get().documents, false);
        const renamed = made.history.now.id !== parsed.value.id;
        const id = String(made.history.now.id);
        put(made, () => t(renamed ? 'eyes.desk.openedAs' : 'eyes.desk.opened', { file: file.name, id }));
      });
    },
    share: async () => {
      await guarded(async () => {
        const document = shownDocument(get());
        if (document === undefined) return;
        const { scenario } = checkedNow(get(), document);
        if (scenario === null) return;
        if (window.rimwardHost === undefined) throw new Error(t('eyes.desk.nothingKept'));
        const name = await window.rimwardHost.saveTextFile(
          `${scenario.id}.rimward`,
          `${JSON.stringify(scenario, null, 2)}\n`,
        );
        if (name !== null) set({ line: () => t('eyes.desk.written', { file: name }), complaints: [] });
      });
    },
  };
}

/** Lays out the desk: shipped and own scenarios, and the unsaved work of last time. */
async function openDesk(set: SetDesk): Promise<void> {
  const { scenarios, problems } = offeredScenarios();
  if (!useOwnEyes.getState().loaded) await useOwnEyes.getState().load();
  const own = useOwnEyes.getState();
  const complaints = [...saidAsIs([...problems, ...own.problems])];
  let kept: ReturnType<typeof readDesk> = null;
  try {
    const text = (await window.rimwardHost?.loadEyeDrafts()) ?? null;
    kept = text === null ? null : readDesk(text);
    if (text !== null && kept === null) complaints.push(() => t('eyes.desk.lostDrafts'));
  } catch (fault) {
    complaints.push(() => said(fault));
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
    line: SILENT,
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
      useDesk.setState({ complaints: [() => t('eyes.desk.notKept', { why: said(fault) })] });
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

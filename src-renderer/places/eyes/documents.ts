/** The scenarios that lie on the editor's desk, and what is kept of the unsaved ones. Plain functions on plain data. */
import type { Scenario } from '../../../physics/index.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { freeId } from './check-draft.ts';
import { type Draft, draftOf, type Json, type Path, pathText, sameJson, withValue } from './draft.ts';
import { type EditHistory, edited, freshHistory } from './edit-history.ts';

export interface EyeDocument {
  /** Its name on the desk; not the scenario's id, which may be changed until it is saved. */
  readonly key: string;
  /** A shipped one stays as it is: an edit makes a copy. */
  readonly kind: 'shipped' | 'own';
  /** As it is kept, null before the first save. */
  readonly saved: Scenario | null;
  readonly history: EditHistory<Draft>;
}

export const shippedDocument = (scenario: Scenario): EyeDocument => ({
  key: `shipped:${scenario.id}`,
  kind: 'shipped',
  saved: scenario,
  history: freshHistory(draftOf(scenario)),
});

export const savedDocument = (scenario: Scenario): EyeDocument => ({
  key: `own:${scenario.id}`,
  kind: 'own',
  saved: scenario,
  history: freshHistory(draftOf(scenario)),
});

/** True when something would be lost if it were not kept as a draft. */
export const isUnsaved = ({ kind, saved, history }: EyeDocument): boolean =>
  kind === 'own' && (saved === null || !sameJson(draftOf(saved), history.now));

/** The id as it stands in the draft, and the one it is kept under. */
function idsOf({ saved, history }: EyeDocument): readonly string[] {
  const { id } = history.now;
  return [...(typeof id === 'string' ? [id] : []), ...(saved === null ? [] : [saved.id])];
}

/** Ids of all documents but one. */
export const takenIds = (documents: readonly EyeDocument[], except: string | null): ReadonlySet<string> =>
  new Set(documents.filter(({ key }) => key !== except).flatMap(idsOf));

/** What is shown of a document: a shipped one in the person's language, one's own as it was written. */
export function shownDraft({ kind, history }: Pick<EyeDocument, 'kind' | 'history'>): Draft {
  const { title, brief } = history.now;
  if (kind === 'own' || typeof title !== 'string' || typeof brief !== 'string') return history.now;
  return { ...history.now, title: textOf(title), brief: textOf(brief) };
}

export const titleOf = (document: EyeDocument): string => {
  const { title } = shownDraft(document);
  return typeof title === 'string' && title.trim() !== '' ? title : t('eyes.desk.untitled');
};

function newKey(documents: readonly EyeDocument[]): string {
  let count = 1;
  while (documents.some(({ key }) => key === `new:${count}`)) count++;
  return `new:${count}`;
}

/** A new unsaved document with the content of another under an id and title of its own. */
export function copyOf(draft: Draft, documents: readonly EyeDocument[], rename: boolean): EyeDocument {
  const wish = typeof draft.id === 'string' ? draft.id : 'scenario';
  const id = freeId(rename ? `${wish}-mine` : wish, takenIds(documents, null));
  const { title: given } = draft;
  const title = rename && typeof given === 'string' ? t('eyes.desk.copyTitle', { title: given }).slice(0, 120) : given;
  const now = { ...draft, id, ...(title === undefined ? {} : { title }) };
  return { key: newKey(documents), kind: 'own', saved: null, history: freshHistory<Draft>(now) };
}

/** The document after an edit in one place; `undefined` takes the place away. */
export function editedDocument(
  document: EyeDocument,
  path: Path,
  value: Json | undefined,
  field?: string,
): EyeDocument {
  const next = withValue(document.history.now, path, value);
  return { ...document, history: edited(document.history, next, field ?? pathText(path)) };
}

interface KeptDraft {
  readonly key: string;
  readonly savedId: string | null;
  readonly draft: Draft;
}

export interface KeptDesk {
  readonly chosen: string;
  readonly drafts: readonly KeptDraft[];
}

/** What is kept of the desk between two starts: the unsaved work and which document was open. */
export function deskText(documents: readonly EyeDocument[], chosen: string): string {
  const drafts = documents.filter(isUnsaved).map(({ key, saved, history }): KeptDraft => {
    return { key, savedId: saved?.id ?? null, draft: history.now };
  });
  return JSON.stringify({ rimwardEyeDrafts: 1, chosen, drafts });
}

/** Reads it back; null when it is none of ours. A draft that is no object is left out. */
export function readDesk(text: string): KeptDesk | null {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  const { rimwardEyeDrafts, chosen, drafts } = (json ?? {}) as Record<string, unknown>;
  if (rimwardEyeDrafts !== 1 || typeof chosen !== 'string' || !Array.isArray(drafts)) return null;
  const sound = drafts.filter((one): one is KeptDraft => {
    if (typeof one !== 'object' || one === null) return false;
    const { key, savedId, draft } = one as Record<string, unknown>;
    const named = typeof key === 'string' && (savedId === null || typeof savedId === 'string');
    return named && typeof draft === 'object' && draft !== null && !Array.isArray(draft);
  });
  return { chosen, drafts: sound };
}

/** The desk at a start: shipped scenarios, own ones, and over them the drafts of last time. */
export function laidOut(shipped: readonly Scenario[], own: readonly Scenario[], kept: KeptDesk | null): EyeDocument[] {
  const documents = [...own.map(savedDocument), ...shipped.map(shippedDocument)];
  for (const { savedId, draft } of kept?.drafts ?? []) {
    const at = documents.findIndex((one) => one.kind === 'own' && savedId !== null && one.saved?.id === savedId);
    const there = documents[at];
    if (there === undefined) {
      // its scenario is gone, or was never saved: it stays as an unsaved one
      documents.unshift({ key: newKey(documents), kind: 'own', saved: null, history: freshHistory(draft) });
    } else {
      documents[at] = { ...there, history: edited(there.history, draft, 'kept') };
    }
  }
  return documents;
}

import { type KeyboardEvent, useDeferredValue, useEffect, useMemo, useState } from 'react';
import type { Problem, Scenario } from '../../../physics/index.ts';
import { t, useLanguage } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { checkDraft } from './check-draft.ts';
import { type EyeDocument, shownDraft, takenIds } from './documents.ts';
import { EyePart } from './EyePart.tsx';
import { EyeTopView } from './EyeTopView.tsx';
import { type Editor, EditorContext, type FieldNote } from './editor-context.ts';
import { keepDrafts, shownDocument, useDesk } from './eye-desk.ts';
import { Follows } from './Follows.tsx';
import { fieldId, Tag } from './fields.tsx';
import { GradesPart } from './GradesPart.tsx';
import { ProblemList } from './ProblemList.tsx';
import { ChamberPart, NamePart, RulesPart, StartPart, TargetPart } from './parts.tsx';
import { Toolbar } from './Toolbar.tsx';
import { TryPart } from './TryPart.tsx';
import { TABS, type TabId, tabOf } from './tabs.ts';
import { useDeskKeys } from './use-desk-keys.ts';
import './eyes.css';

/** Build and check a scenario: its parts at the left, the eye and what follows at the right. */
export function Eyes() {
  const ready = useDesk((desk) => desk.ready);
  const document = useDesk(shownDocument);
  useEffect(() => {
    const errand = usePlace.getState().takeErrand();
    void useDesk
      .getState()
      .open()
      .then(() => {
        const wanted = useDesk.getState().documents.find(({ saved }) => `scenario:${saved?.id}` === errand);
        if (wanted !== undefined) useDesk.getState().choose(wanted.key);
      });
    return keepDrafts();
  }, []);
  useDeskKeys();
  if (!ready) return <p className="eyes-hint eyes-waiting">{t('eyes.waiting')}</p>;
  if (document === undefined) return <p className="eyes-hint eyes-waiting">{t('eyes.nothing')}</p>;
  return <OpenDocument document={document} />;
}

function byPlace(problems: readonly Problem[]): ReadonlyMap<string, readonly Problem[]> {
  const map = new Map<string, readonly Problem[]>();
  for (const problem of problems) map.set(problem.path, [...(map.get(problem.path) ?? []), problem]);
  return map;
}

function OpenDocument({ document }: { readonly document: EyeDocument }) {
  const documents = useDesk((desk) => desk.documents);
  const [tab, setTab] = useState<TabId>('eye');
  const language = useLanguage((state) => state.language);
  const [note, setNote] = useState<FieldNote | null>(null);
  // told in the language before
  useEffect(() => setNote(null), [language]);
  const draft = document.history.now;
  const taken = takenIds(documents, document.key);
  const takenText = [...taken].join();
  // the check is by content: documents are new objects at every key press
  const checked = useMemo(() => checkDraft(draft, document.kind === 'own' ? taken : new Set()), [draft, takenText]);
  const show = (next: TabId) => {
    setTab(next);
    setNote(null);
  };
  const go = useGoToField(show);
  const { edit, settle } = useDesk.getState();
  const editor: Editor = {
    draft: useMemo(() => shownDraft(document), [draft, document.kind, language]),
    problems: useMemo(() => byPlace(checked.problems), [checked]),
    idFixed: document.saved !== null,
    edit,
    settle,
    tell: setNote,
  };
  return (
    <EditorContext value={editor}>
      <div className="eyes-room">
        <div className="eyes" data-testid="eyes">
          <Toolbar document={document} scenario={checked.scenario} />
          <div className="eyes-form">
            <TabBar tab={tab} problems={checked.problems} onTab={show} />
            <div className="eyes-part" role="tabpanel" aria-label={t(`eyes.tab.${tab}`)} id="eyes-part">
              {tab === 'name' && <NamePart />}
              {tab === 'eye' && <EyePart />}
              {tab === 'chamber' && <ChamberPart />}
              {tab === 'start' && <StartPart />}
              {tab === 'target' && <TargetPart />}
              {tab === 'grades' && <GradesPart />}
              {tab === 'rules' && <RulesPart />}
              {/* stays while other parts are looked at, so that a hand can go on trying */}
              <div hidden={tab !== 'try'}>
                <TryPart key={document.key} scenario={checked.scenario} />
              </div>
            </div>
            {tab !== 'try' && <About note={note} />}
          </div>
          <Preview
            key={document.key}
            document={document}
            scenario={checked.scenario}
            problems={checked.problems}
            onGo={go}
          />
        </div>
      </div>
    </EditorContext>
  );
}

function TabBar({
  tab,
  problems,
  onTab,
}: {
  readonly tab: TabId;
  readonly problems: readonly Problem[];
  onTab(tab: TabId): void;
}) {
  const wrong = new Set(problems.map(({ path }) => tabOf(path)));
  return (
    <div className="eyes-tabs" role="tablist" aria-label={t('eyes.tabs')}>
      {TABS.map(({ id }) => (
        <button
          key={id}
          type="button"
          role="tab"
          aria-selected={id === tab}
          data-testid={`tab-${id}`}
          aria-controls="eyes-part"
          tabIndex={id === tab ? 0 : -1}
          onClick={() => onTab(id)}
          onKeyDown={(event) => stepTab(event, onTab)}
        >
          {t(`eyes.tab.${id}`)}
          {wrong.has(id) && (
            <span className="eyes-tab-wrong" role="img" aria-label={t('eyes.hasProblems')}>
              !
            </span>
          )}
        </button>
      ))}
    </div>
  );
}

/** Arrow keys, Home and End go from part to part. */
function stepTab(event: KeyboardEvent<HTMLButtonElement>, onTab: (tab: TabId) => void): void {
  const at = TABS.findIndex(({ id }) => event.currentTarget.dataset.testid === `tab-${id}`);
  const forward = getComputedStyle(event.currentTarget).direction === 'rtl' ? 'ArrowLeft' : 'ArrowRight';
  const back = forward === 'ArrowRight' ? 'ArrowLeft' : 'ArrowRight';
  const to = { [forward]: at + 1, [back]: at - 1, Home: 0, End: TABS.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  const next = TABS.at(to % TABS.length)!.id;
  onTab(next);
  const buttons = event.currentTarget.parentElement?.querySelectorAll<HTMLElement>('[role="tab"]');
  buttons?.item((to + TABS.length) % TABS.length).focus();
}

/** What is known of the field in use: its range, how well it is known and from where. */
function About({ note }: { readonly note: FieldNote | null }) {
  return (
    <aside className="eyes-about" aria-hidden="true" data-testid="about">
      {note === null ? (
        <p className="eyes-hint">{t('eyes.about.hint')}</p>
      ) : (
        <p>
          <b>{note.text.label}</b> {note.text.tag !== null && <Tag tag={note.text.tag} />}
          {note.range !== '' && <span> {t('eyes.about.allowed', { range: note.range })}</span>} {note.text.source}
        </p>
      )}
    </aside>
  );
}

/** The scenario as it was last without problems, from what can be undone or what is saved; null when it never was. */
function lastSound({ history, saved }: EyeDocument): Scenario | null {
  for (const draft of history.past.toReversed()) {
    const { scenario } = checkDraft(draft, new Set());
    if (scenario !== null) return scenario;
  }
  return saved;
}

/** The eye, what follows from it, and what is wrong now; with problems, the eye as it was before them. */
function Preview({
  document,
  scenario,
  problems,
  onGo,
}: {
  readonly document: EyeDocument;
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
  onGo(path: string): void;
}) {
  const before = useMemo(() => (scenario === null ? lastSound(document) : null), [scenario, document]);
  const shown = useDeferredValue(scenario ?? before);
  return (
    <div className="eyes-preview">
      {problems.length > 0 && <ProblemList problems={problems} onGo={onGo} />}
      {shown !== null && <EyeTopView scenario={shown} />}
      {scenario === null && (
        <p className="eyes-remark" data-testid="stale-preview">
          {t(shown === null ? 'eyes.preview.none' : 'eyes.preview.stale')}
        </p>
      )}
      {problems.length === 0 && <ProblemList problems={problems} onGo={onGo} />}
      {scenario !== null && shown !== null && <Follows scenario={shown} />}
    </div>
  );
}

/** Shows the part that holds a place of the file and puts the focus on its field. */
function useGoToField(setTab: (tab: TabId) => void): (path: string) => void {
  const [wanted, setWanted] = useState<string | null>(null);
  useEffect(() => {
    if (wanted === null) return;
    setWanted(null);
    const id = fieldId([wanted]);
    const exact = window.document.getElementById(id);
    const near = window.document.querySelector<HTMLElement>(`[id^="${CSS.escape(id)}"]`);
    const found = exact ?? near;
    const field =
      found?.matches('input, select, textarea') === true ? found : found?.querySelector<HTMLElement>('input');
    field?.focus();
  }, [wanted]);
  return (path) => {
    setTab(tabOf(path));
    setWanted(path);
  };
}

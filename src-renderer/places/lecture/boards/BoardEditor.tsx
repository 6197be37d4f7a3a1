import { useMemo, useState } from 'react';
import { boardText } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { AIDS, aidLabel } from '../twin/AidToggles.tsx';
import { twinEngine, useLectureLook, useTwin } from '../twin/twin-store.ts';
import { BoardText } from './BoardText.tsx';
import type { Board } from './board.ts';
import { type BoardDraft, checkDraft, draftOf, restLines, takenFromStage } from './board-draft.ts';
import { freeId, withBoard } from './board-list.ts';
import { lectureScenario, useBoards } from './board-store.ts';
import { EyesPart } from './EyesPart.tsx';
import { EditingContext, useEditing } from './editor-context.ts';
import { Field, Tick } from './editor-fields.tsx';
import { QuestionPart } from './QuestionPart.tsx';

/** Places that a field of the form shows problems of. */
const IN_FORM = [
  'title',
  'text',
  'toDo',
  'toWatch',
  'scenario',
  'left.label',
  'left.change',
  'right.label',
  'right.change',
  'hand',
  'seed',
  'speed',
  'camera',
  'stopAt_s',
  'loop_s',
  'question',
];

/** A new board: what is on the stage now, with texts to be written. */
function freshDraft(): BoardDraft {
  const { aids, camera } = useLectureLook.getState();
  const draft = draftOf({
    id: 'board',
    title: '',
    text: '',
    scenario: 'infant-thick-fluid',
    left: { label: t('lecture.editor.firstLabel'), change: {} },
    right: { label: t('lecture.editor.secondLabel'), change: { age_years: 40 } },
    hand: 'live',
    seed: 1,
    aids,
    camera,
    speed: 1,
  });
  return stageDraft(draft) ?? draft;
}

function stageDraft(draft: BoardDraft): BoardDraft | null {
  const { setup } = useTwin.getState();
  const { aids, camera } = useLectureLook.getState();
  if (setup === null) return null;
  const commands = twinEngine.commands();
  return takenFromStage(draft, { setup, commands, aids, camera }, lectureScenario);
}

function save(board: Board, inPlaceOf: string | null): void {
  const { boards, change, show } = useBoards.getState();
  const kept = inPlaceOf === null ? { ...board, id: freeId('board', boards) } : board;
  const { title } = board;
  const notice = inPlaceOf === null ? t('lecture.boards.added', { title }) : t('lecture.boards.changed', { title });
  change(withBoard(boards, kept, inPlaceOf), notice);
  if (kept.hidden !== true) show(kept.id);
}

/** Writes a board: a form that is checked as it is filled in, and beside it what the room will read. */
export function BoardEditor({ board, onDone }: { readonly board: Board | null; onDone(): void }) {
  const [draft, setDraft] = useState<BoardDraft>(() =>
    // what is changed is changed in the words that the room reads
    board === null ? freshDraft() : draftOf(boardText(board)),
  );
  const [remark, setRemark] = useState<string | null>(null);
  const checked = useMemo(() => checkDraft(draft, lectureScenario), [draft]);
  const take = () => {
    const taken = stageDraft(draft);
    if (taken !== null) setDraft(taken);
    setRemark(taken === null ? t('lecture.editor.notTaken') : t('lecture.editor.taken'));
  };
  const rest = restLines(checked.problems, IN_FORM);
  return (
    <EditingContext
      value={{ draft, problems: checked.problems, change: (part) => setDraft((now) => ({ ...now, ...part })) }}
    >
      <h2>{board === null ? t('lecture.editor.new') : t('lecture.editor.changeOne')}</h2>
      <form
        className="board-editor"
        data-testid="board-editor"
        onSubmit={(event) => {
          event.preventDefault();
          if (checked.board === null) return;
          save(checked.board, board?.id ?? null);
          onDone();
        }}
      >
        <div className="board-form">
          <TextPart />
          <EyesPart />
          <ViewPart onTake={take} remark={remark} />
          <QuestionPart />
        </div>
        <Preview />
        <div className="board-editor-end">
          {rest.length > 0 && <p className="problems">{rest.join('. ')}</p>}
          <p className="hint" role="status" data-testid="board-sound">
            {checked.problems.length === 0
              ? t('lecture.editor.sound')
              : t('lecture.editor.toMend', { count: checked.problems.length })}
          </p>
          <div className="buttons">
            <button type="submit" className="first" disabled={checked.board === null} data-testid="board-save">
              {t('lecture.editor.keep')}
            </button>
            <button type="button" data-testid="board-cancel" onClick={onDone}>
              {t('lecture.editor.leave')}
            </button>
          </div>
        </div>
      </form>
    </EditingContext>
  );
}

function TextPart() {
  const { draft, change } = useEditing();
  return (
    <fieldset>
      <legend>{t('lecture.editor.text')}</legend>
      <Field
        label={t('lecture.editor.title')}
        path="title"
        value={draft.title}
        onValue={(title) => change({ title })}
      />
      <Field
        label={t('lecture.editor.text')}
        hint={t('lecture.editor.markdown')}
        path="text"
        rows={6}
        value={draft.text}
        onValue={(text) => change({ text })}
      />
      <Field
        label={t('lecture.editor.toDo')}
        path="toDo"
        rows={2}
        value={draft.toDo}
        onValue={(toDo) => change({ toDo })}
      />
      <Field
        label={t('lecture.editor.toWatch')}
        path="toWatch"
        rows={2}
        value={draft.toWatch}
        onValue={(toWatch) => change({ toWatch })}
      />
    </fieldset>
  );
}

function ViewPart({ onTake, remark }: { onTake(): void; readonly remark: string | null }) {
  const { draft, change } = useEditing();
  const { aids } = draft;
  return (
    <fieldset>
      <legend>{t('lecture.editor.stage')}</legend>
      <div className="buttons">
        <button type="button" data-testid="board-take" onClick={onTake}>
          {t('lecture.editor.take')}
        </button>
        <span className="hint" role="status">
          {remark}
        </span>
      </div>
      <div className="board-ticks">
        {AIDS.map(({ aid }) => (
          <Tick
            key={aid}
            label={aidLabel(aid)}
            checked={aids[aid]}
            testid={`board-aid-${aid}`}
            onChecked={(on) => change({ aids: { ...aids, [aid]: on } })}
          />
        ))}
      </div>
      <div className="board-numbers">
        <Field
          label={t('lecture.editor.magnification')}
          path="camera.magnification"
          value={draft.magnification}
          onValue={(magnification) => change({ magnification })}
        />
        <Field
          label={t('lecture.editor.speed')}
          unit={t('lecture.editor.speedUnit')}
          path="speed"
          value={draft.speed}
          onValue={(speed) => change({ speed })}
        />
        <Field
          label={t('lecture.editor.stopsAfter')}
          unit="s"
          path="stopAt_s"
          value={draft.stopAt_s}
          onValue={(stopAt_s) => change({ stopAt_s })}
        />
        <Field
          label={t('lecture.editor.repeatsFrom')}
          unit="s"
          path="loop_s[0]"
          value={draft.loopFrom_s}
          onValue={(loopFrom_s) => change({ loopFrom_s })}
        />
        <Field
          label={t('lecture.editor.repeatsTo')}
          unit="s"
          path="loop_s[1]"
          value={draft.loopTo_s}
          onValue={(loopTo_s) => change({ loopTo_s })}
        />
      </div>
    </fieldset>
  );
}

function Preview() {
  const { draft } = useEditing();
  return (
    <section className="board-preview" aria-label={t('lecture.editor.preview')} data-testid="board-preview">
      <h3 className="hint">{t('lecture.editor.preview')}</h3>
      <h2>{draft.title}</h2>
      <BoardText text={draft.text} />
      {draft.toDo.trim() !== '' && <BoardText text={t('lecture.editor.previewDo', { text: draft.toDo })} />}
      {draft.toWatch.trim() !== '' && <BoardText text={t('lecture.editor.previewWatch', { text: draft.toWatch })} />}
      {draft.asks && (
        <>
          <p className="board-ask">{draft.ask}</p>
          <BoardText text={draft.reveal} />
        </>
      )}
      <p className="hint">{t('common.caution')}</p>
    </section>
  );
}

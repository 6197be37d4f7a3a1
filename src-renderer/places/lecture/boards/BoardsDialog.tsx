import { type RefObject, useEffect, useState } from 'react';
import { t } from '../../../i18n/text.ts';
import { BoardEditor } from './BoardEditor.tsx';
import { BoardRow } from './BoardRow.tsx';
import type { Board } from './board.ts';
import { missingBuiltIn, withBoard } from './board-list.ts';
import { MAX_BOARDS } from './board-schema.ts';
import { useBoards } from './board-store.ts';

/** What the editor works on: a board in the list, or a new one. */
type Editing = { readonly board: Board } | 'new' | null;

/**
 * All boards: order, hide, add, change, delete, and files of boards. Closed in the middle of writing a board, by Escape,
 * it opens again with what was written.
 */
export function BoardsDialog({ dialog }: { readonly dialog: RefObject<HTMLDialogElement | null> }) {
  const boards = useBoards((state) => state.boards);
  const [editing, setEditing] = useState<Editing>(null);
  useEffect(() => {
    // on the window: a deleted row takes the focus with it, and keys go to no part of the dialog then
    const pressed = (event: KeyboardEvent) => {
      if (event.key !== 'z' || !(event.ctrlKey || event.metaKey) || editing !== null) return;
      if (dialog.current?.open !== true || event.target instanceof HTMLInputElement) return;
      event.preventDefault();
      useBoards.getState().undo();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [dialog, editing]);
  const close = () => dialog.current?.close();
  return (
    <dialog ref={dialog} className="boards-dialog" aria-label={t('lecture.boards.all')} data-testid="boards-dialog">
      {editing === null ? (
        <>
          <h2>{t('lecture.boards.all')}</h2>
          <ListTools onAdd={() => setEditing('new')} />
          <ol className="boards-list">
            {boards.map((board, at) => (
              <BoardRow
                key={board.id}
                board={board}
                at={at}
                count={boards.length}
                onEdit={() => setEditing({ board })}
                onShow={close}
              />
            ))}
          </ol>
          <button type="button" className="first" data-testid="boards-close" onClick={close}>
            {t('lecture.boards.close')}
          </button>
        </>
      ) : (
        <BoardEditor board={editing === 'new' ? null : editing.board} onDone={() => setEditing(null)} />
      )}
    </dialog>
  );
}

function ListTools({ onAdd }: { onAdd(): void }) {
  const { boards, builtIn, problems, notice, past, importFile, exportFile, undo, change } = useBoards();
  const [title, setTitle] = useState(() => t('lecture.boards.sequence'));
  const missing = missingBuiltIn(boards, builtIn);
  return (
    <>
      <div className="buttons">
        <button type="button" data-testid="board-add" disabled={boards.length >= MAX_BOARDS} onClick={onAdd}>
          {t('lecture.boards.add')}
        </button>
        <button type="button" data-testid="boards-undo" disabled={past.length === 0} onClick={undo}>
          {t('lecture.boards.undo')} <kbd>Ctrl Z</kbd>
        </button>
        {missing.length > 0 && (
          <button
            type="button"
            data-testid="boards-restore"
            onClick={() =>
              change(
                missing.reduce((all, board) => withBoard(all, board, null), boards),
                t('lecture.boards.builtInBack'),
              )
            }
          >
            {t('lecture.boards.bringBack', { count: missing.length })}
          </button>
        )}
        {window.rimwardHost !== undefined && (
          <>
            <button type="button" data-testid="boards-import" onClick={() => void importFile()}>
              {t('lecture.boards.takeFile')}
            </button>
            <label className="boards-title">
              <span>{t('lecture.boards.saveAs')}</span>
              <input value={title} maxLength={120} onChange={(event) => setTitle(event.target.value)} />
            </label>
            <button
              type="button"
              data-testid="boards-export"
              disabled={boards.length === 0}
              onClick={() => void exportFile(title)}
            >
              {t('lecture.boards.save')}
            </button>
          </>
        )}
      </div>
      <p className="hint" role="status" data-testid="boards-notice">
        {notice ?? t('lecture.boards.hint')}
      </p>
      {problems.length > 0 && (
        <section role="alert" data-testid="boards-problems">
          <p>{t('lecture.boards.problems', { count: problems.length })}</p>
          <ul className="problems">
            {problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

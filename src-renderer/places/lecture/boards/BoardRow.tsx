import { type DragEvent, useState } from 'react';
import { textOf } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import type { Board } from './board.ts';
import { duplicated, moved, withHidden } from './board-list.ts';
import { useBoards } from './board-store.ts';

interface BoardRowProps {
  readonly board: Board;
  readonly at: number;
  readonly count: number;
  onEdit(): void;
  /** The board was chosen to be shown. */
  onShow(): void;
}

/** Kind of what is dragged, so that nothing but a board can be dropped here. */
const DRAGGED = 'application/x-rimward-board';

/** One board in the list: its place by drag or by keys, and what can be done with it. */
export function BoardRow({ board, at, count, onEdit, onShow }: BoardRowProps) {
  const shown = useBoards((state) => state.shownId === board.id);
  const drop = useDrop(at);
  return (
    <li
      className="boards-row"
      data-testid={`row-${board.id}`}
      data-hidden={board.hidden === true}
      data-over={drop.over}
      aria-current={shown ? 'true' : undefined}
      {...drop.handlers}
    >
      <button
        type="button"
        className="boards-handle"
        draggable
        aria-label={t('lecture.boards.handle', { at: at + 1 })}
        data-testid={`handle-${board.id}`}
        onDragStart={(event) => {
          event.dataTransfer.setData(DRAGGED, board.id);
          event.dataTransfer.effectAllowed = 'move';
        }}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
          event.preventDefault();
          place(board.id, event.key === 'ArrowUp' ? at - 1 : at + 1);
        }}
      >
        {at + 1}
      </button>
      <span className="boards-name">
        {textOf(board.title)}
        {board.hidden === true && <em> {t('lecture.boards.hidden')}</em>}
      </span>
      <RowButtons board={board} at={at} count={count} onEdit={onEdit} onShow={onShow} />
    </li>
  );
}

function useDrop(at: number) {
  const [over, setOver] = useState(false);
  const takes = ({ dataTransfer }: DragEvent) => dataTransfer.types.includes(DRAGGED);
  return {
    over,
    handlers: {
      onDragOver: (event: DragEvent) => {
        if (!takes(event)) return;
        event.preventDefault();
        setOver(true);
      },
      onDragLeave: () => setOver(false),
      onDrop: (event: DragEvent) => {
        setOver(false);
        if (!takes(event)) return;
        event.preventDefault();
        place(event.dataTransfer.getData(DRAGGED), at);
      },
    },
  };
}

function place(id: string, to: number): void {
  const { boards, change } = useBoards.getState();
  const board = boards.find((one) => one.id === id);
  if (board !== undefined && to >= 0 && to < boards.length)
    change(moved(boards, id, to), t('lecture.boards.movedTo', { title: textOf(board.title), at: to + 1 }));
}

function RowButtons({ board, at, count, onEdit, onShow }: BoardRowProps) {
  const { boards, change, show } = useBoards();
  const { id } = board;
  const title = textOf(board.title);
  const hidden = board.hidden === true;
  const copy = () => {
    const made = duplicated(boards, id);
    if (made !== null) change(made.boards, t('lecture.boards.copied', { title }));
  };
  return (
    <span className="buttons">
      <button
        type="button"
        disabled={hidden}
        data-testid={`go-${id}`}
        onClick={() => {
          show(id);
          onShow();
        }}
      >
        {t('lecture.boards.goTo')}
      </button>
      <button
        type="button"
        aria-label={t('lecture.boards.moveUp', { title })}
        disabled={at === 0}
        onClick={() => place(id, at - 1)}
      >
        ↑
      </button>
      <button
        type="button"
        aria-label={t('lecture.boards.moveDown', { title })}
        data-testid={`down-${id}`}
        disabled={at === count - 1}
        onClick={() => place(id, at + 1)}
      >
        ↓
      </button>
      <button
        type="button"
        data-testid={`hide-${id}`}
        onClick={() =>
          change(
            withHidden(boards, id, !hidden),
            hidden ? t('lecture.boards.nowShown', { title }) : t('lecture.boards.nowHidden', { title }),
          )
        }
      >
        {hidden ? t('lecture.boards.show') : t('lecture.boards.hide')}
      </button>
      <button type="button" data-testid={`edit-${id}`} onClick={onEdit}>
        {t('lecture.boards.change')}
      </button>
      <button type="button" data-testid={`copy-${id}`} onClick={copy}>
        {t('lecture.boards.copy')}
      </button>
      <button
        type="button"
        data-testid={`delete-${id}`}
        onClick={() =>
          change(
            boards.filter((one) => one.id !== id),
            t('lecture.boards.deleted', { title }),
          )
        }
      >
        {t('lecture.boards.delete')}
      </button>
    </span>
  );
}

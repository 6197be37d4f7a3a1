import { useEffect, useRef } from 'react';
import { boardText } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { useTwin } from '../twin/twin-store.ts';
import { BoardsDialog } from './BoardsDialog.tsx';
import { BoardText } from './BoardText.tsx';
import type { Board } from './board.ts';
import { visible } from './board-list.ts';
import { followEyes, startBoard, useBoardPlay } from './board-player.ts';
import { shownBoard, useBoards } from './board-store.ts';
import { QuestionCard } from './QuestionCard.tsx';
import { useBoardKeys } from './use-board-keys.ts';
import './boards.css';

/** The board that is shown: what it says, what it asks, and the way to the others. */
export function BoardPanel() {
  const board = useBoards(shownBoard);
  const loaded = useBoards((state) => state.loaded);
  const step = useBoards((state) => state.step);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => void useBoards.getState().load(), []);
  useEffect(followEyes, []);
  useBoardKeys();
  useEffect(() => {
    // coming back to the place, what stands on the stage goes on
    if (!loaded || board === null || runs(board)) return;
    startBoard(board);
  }, [board, loaded]);
  return (
    <div className="boards" data-testid="boards">
      <div className="boards-way">
        <button
          type="button"
          data-testid="board-before"
          aria-label={t('lecture.boards.before')}
          title={t('lecture.boards.beforeTitle')}
          onClick={() => step(-1)}
        >
          <span aria-hidden="true">◀</span> <span className="boards-word">{t('lecture.boards.back')}</span>
        </button>
        <Place board={board} />
        <button
          type="button"
          data-testid="board-next"
          aria-label={t('lecture.boards.nextBoard')}
          title={t('lecture.boards.nextTitle')}
          onClick={() => step(1)}
        >
          <span className="boards-word">{t('lecture.boards.next')}</span> <span aria-hidden="true">▶</span>
        </button>
        <button type="button" data-testid="all-boards" onClick={() => dialog.current?.showModal()}>
          {t('lecture.boards.all')}
        </button>
      </div>
      {board === null ? <p className="hint">{t('lecture.boards.allHidden')}</p> : <ShownBoard board={board} />}
      <BoardsDialog dialog={dialog} />
    </div>
  );
}

/** Whether the pair on the stage is the one that this board started. */
const runs = (board: Board): boolean => {
  const play = useBoardPlay.getState();
  const { setup } = useTwin.getState();
  return play.board === board && play.setup !== null && setup === play.setup;
};

function Place({ board }: { readonly board: Board | null }) {
  const boards = useBoards((state) => state.boards);
  const shown = visible(boards);
  const at = shown.findIndex(({ id }) => id === board?.id);
  return (
    <output className="boards-number" data-testid="board-number">
      {at < 0
        ? t('lecture.boards.number', { count: shown.length })
        : t('lecture.boards.place', { at: at + 1, count: shown.length })}
    </output>
  );
}

function ShownBoard({ board }: { readonly board: Board }) {
  const problems = useBoardPlay((play) => play.problems);
  const ownPair = useBoardPlay((play) => play.setup);
  const onStage = useTwin((twin) => twin.setup);
  const { title, text, toDo, toWatch, question } = boardText(board);
  const changed = ownPair !== null && onStage !== null && ownPair !== onStage;
  return (
    <article className="board" data-testid="board" data-board={board.id}>
      <h2>{title}</h2>
      <BoardText text={text} />
      {toDo !== undefined && <Line word={t('lecture.boards.do')} text={toDo} />}
      {toWatch !== undefined && <Line word={t('lecture.boards.watch')} text={toWatch} />}
      {question !== undefined && !changed && <QuestionCard question={question} />}
      {problems.length > 0 && (
        <ul className="problems" role="alert" data-testid="board-problems">
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
      <div className="buttons">
        <button type="button" data-testid="board-again" onClick={() => startBoard(board)}>
          {changed ? t('lecture.boards.backToEyes') : t('lecture.boards.again')}
        </button>
      </div>
    </article>
  );
}

function Line({ word, text }: { readonly word: string; readonly text: string }) {
  return (
    <div className="board-line">
      <h3>{word}</h3>
      <BoardText text={text} />
    </div>
  );
}

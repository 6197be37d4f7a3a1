import { useEffect, useRef } from 'react';
import { t } from '../../../i18n/text.ts';
import { BoardText } from './BoardText.tsx';
import type { BoardQuestion } from './board.ts';
import { count, reveal, useBoardPlay } from './board-player.ts';

/** Letters by which a room votes. */
const letter = (at: number): string => String.fromCharCode(65 + at);

/** Asks the room while the tear is held; hands can be counted; revealing lets the tear go on. */
export function QuestionCard({ question }: { readonly question: BoardQuestion }) {
  const asking = useBoardPlay((play) => play.asking);
  const card = useRef<HTMLElement>(null);
  useEffect(() => {
    // on a small projector the text above it fills the panel: the room must see what it is asked, and the answer
    if (asking === 'asked' || asking === 'revealed') card.current?.scrollIntoView({ block: 'nearest' });
  }, [asking]);
  if (asking === 'none') return null;
  if (asking === 'waiting') {
    return (
      <p className="hint" data-testid="question-waits">
        {t('lecture.question.waits')}
      </p>
    );
  }
  const revealed = asking === 'revealed';
  return (
    <section
      ref={card}
      className="board-question"
      aria-label={t('lecture.question.name')}
      data-testid="question"
      data-asking={asking}
    >
      <p className="board-ask">{question.ask}</p>
      <ol className="board-answers">
        {question.answers.map((answer, at) => (
          <Answer key={letter(at)} at={at} answer={answer} counting={!revealed} />
        ))}
      </ol>
      {revealed ? (
        <div role="status" data-testid="revealed">
          <BoardText text={question.reveal} />
        </div>
      ) : (
        <div className="buttons">
          <button type="button" className="first" data-testid="reveal" onClick={reveal}>
            {t('lecture.question.reveal')}
          </button>
          <span className="hint">{t('lecture.question.held')}</span>
        </div>
      )}
    </section>
  );
}

interface AnswerProps {
  readonly at: number;
  readonly answer: string;
  /** Hands may still be counted. */
  readonly counting: boolean;
}

function Answer({ at, answer, counting }: AnswerProps) {
  const counts = useBoardPlay((play) => play.counts);
  const hands = counts[at] ?? 0;
  const most = Math.max(1, ...counts);
  return (
    <li>
      <b aria-hidden="true">{letter(at)}</b>
      <span className="board-answer">
        {answer}
        <span className="board-hands" aria-hidden="true" style={{ width: `${(100 * hands) / most}%` }} />
      </span>
      {counting && (
        <button
          type="button"
          aria-label={t('lecture.question.less', { letter: letter(at) })}
          disabled={hands === 0}
          onClick={() => count(at, -1)}
        >
          −
        </button>
      )}
      {(counting || hands > 0) && (
        <output aria-label={t('lecture.question.hands', { letter: letter(at) })} data-testid={`hands-${at}`}>
          {hands}
        </output>
      )}
      {counting && (
        <button
          type="button"
          aria-label={t('lecture.question.more', { letter: letter(at) })}
          data-testid={`hand-up-${at}`}
          onClick={() => count(at, 1)}
        >
          +
        </button>
      )}
    </li>
  );
}

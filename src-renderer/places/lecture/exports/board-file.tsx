import { MODEL_VERSION, STEP_S } from '../../../../physics/index.ts';
import { boardText } from '../../../i18n/content.ts';
import { t, useLanguage } from '../../../i18n/text.ts';
import { BoardText } from '../boards/BoardText.tsx';
import type { Board } from '../boards/board.ts';
import { shownBoard, useBoards } from '../boards/board-store.ts';
import { SIDES } from '../contract.ts';
import { fullTension_mN_per_mm } from '../twin/lecture-look.ts';
import { twinEngine, useTwin } from '../twin/twin-store.ts';
import { boardPageThatFits, type ViewerParts } from './replay/board-page.ts';
import { PAGE_WORDS, type PageWords, type Replay, type ReplayEye } from './replay/contract.ts';
import { eyeOf, gridFrameOf, momentOf } from './replay/moment-of.ts';
import viewerStyle from './replay/viewer.css?raw';
import viewerAddress from './replay/viewer.ts?worker&url';
import { type Span, SpanFrames } from './span.ts';
import { viewTitle } from './view-title.ts';

/** Moments a second of the eyes' time, before thinning. */
const PER_S = 30;
/** Moments taken before the page may breathe. */
const AT_ONCE = 10;

/** The viewer as one text: the build makes it one file of its own, as it does for a worker. */
async function viewerParts(): Promise<ViewerParts> {
  const answer = await fetch(viewerAddress);
  if (!answer.ok) throw new Error(t('lecture.save.noViewer'));
  return { script: await answer.text(), style: viewerStyle };
}

/** What the page says by itself, in the language of the moment it was saved in. */
const pageWords = (): PageWords =>
  Object.fromEntries(PAGE_WORDS.map((word) => [word, t(`lecture.page.${word}`)])) as PageWords;

/** The board's text as it stands on the page, through the same sieve. */
async function textOf(board: Board | null): Promise<string> {
  if (board === null) return '';
  const { renderToStaticMarkup } = await import('react-dom/server');
  return renderToStaticMarkup(
    <>
      <BoardText text={board.text} />
      {board.toDo !== undefined && <BoardText text={board.toDo} />}
      {board.toWatch !== undefined && <BoardText text={board.toWatch} />}
    </>,
  );
}

async function replayOf(span: Span, signal: AbortSignal, tell: (share: number) => void): Promise<Replay | null> {
  const frames = new SpanFrames(twinEngine, span);
  const every = Math.max(1, Math.round(1 / (PER_S * STEP_S)));
  const kept = frames.steps.filter((step) => step >= span.from && step <= span.to);
  const steps = kept.filter((step, at) => (step - span.from) % every === 0 || at === kept.length - 1);
  const state = useTwin.getState();
  const made = SIDES.flatMap((side) => {
    const eye = state[side];
    if (eye?.geometry == null) return [];
    const grid = gridFrameOf(eye.geometry, fullTension_mN_per_mm());
    return [
      { side, grid, eye: { ...eyeOf(eye.label, eye.geometry, grid), moments: [] as ReplayEye['moments'][number][] } },
    ];
  });
  for (const [at, step] of steps.entries()) {
    if (signal.aborted) return null;
    for (const { side, grid, eye } of made) {
      const view = frames.at(side, step);
      if (view !== null) eye.moments.push(momentOf(view, grid));
    }
    tell((at + 1) / steps.length);
    if (at % AT_ONCE === 0) await new Promise((resolve) => setTimeout(resolve));
  }
  if (steps.length === 0 || made.length === 0) throw new Error(t('lecture.save.noEyeSaved'));
  return { times_s: steps.map((step) => step * STEP_S), eyes: made.map(({ eye }) => eye) };
}

export interface BoardFile {
  readonly title: string;
  readonly text: string;
}

/**
 * The board shown and what its eyes did over a span, as a page of its own.
 *
 * @param tell share done, 0 to 1
 * @returns null when the signal came
 */
export async function boardFile(
  span: Span,
  signal: AbortSignal,
  tell: (share: number) => void,
): Promise<BoardFile | null> {
  const replay = await replayOf(span, signal, (share) => tell(0.8 * share));
  if (replay === null) return null;
  const shown = shownBoard(useBoards.getState());
  const board = shown === null ? null : boardText(shown);
  const title = board?.title ?? viewTitle();
  const page = {
    title,
    text_html: await textOf(board),
    caution: t('common.caution'),
    made: t('lecture.save.made', { version: MODEL_VERSION }),
    language: useLanguage.getState().language,
    words: pageWords(),
  };
  const text = await boardPageThatFits(page, replay, await viewerParts());
  if (signal.aborted) return null;
  if (text === null) throw new Error(t('lecture.save.tooLong'));
  return { title, text };
}

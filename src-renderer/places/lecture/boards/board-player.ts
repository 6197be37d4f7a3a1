/** Runs the board that is shown on the twin eyes: starts the pair, holds it for the question, stops it where the board says. */

import { create } from 'zustand';
import { STEP_S } from '../../../../physics/index.ts';
import { lessMotion } from '../../../ui/motion.ts';
import { problemWords } from '../../../ui/problem-words.ts';
import type { SeriesPoint, TwinSetup, TwinState } from '../contract.ts';
import { twinEngine, useLectureLook, useTwin } from '../twin/twin-store.ts';
import type { Board } from './board.ts';
import { boardSetup } from './board-setup.ts';
import { lectureScenario } from './board-store.ts';

/** A question is put off until enough is torn, asked while the tear is held, revealed once it goes on. */
export type Asking = 'none' | 'waiting' | 'asked' | 'revealed';

export interface BoardPlay {
  /** The board that was started last. */
  readonly board: Board | null;
  readonly setup: TwinSetup | null;
  readonly asking: Asking;
  /** Hands shown for each answer. */
  readonly counts: readonly number[];
  readonly stopped: boolean;
  readonly looping: boolean;
  readonly problems: readonly string[];
}

const NOTHING: BoardPlay = {
  board: null,
  setup: null,
  asking: 'none',
  counts: [],
  stopped: false,
  looping: false,
  problems: [],
};

export const useBoardPlay = create<BoardPlay>(() => NOTHING);

/** What a board wants done at the moment that is shown. */
export type BoardAct = 'ask' | 'stop' | 'loop' | null;

type Moment = Pick<TwinState, 'step' | 'lastStep'> & {
  readonly left: { readonly series: readonly SeriesPoint[] } | null;
  readonly right: { readonly series: readonly SeriesPoint[] } | null;
};

function torn_deg(series: readonly SeriesPoint[] | undefined, step: number): number {
  const point = series?.[step]?.step === step ? series[step] : series?.findLast((one) => one.step <= step);
  return point?.arcTorn_deg ?? 0;
}

const steps = (time_s: number): number => Math.round(time_s / STEP_S);

/** The question first, then the stop, then the loop; null when nothing is due. Both eyes count for the arc torn. */
export function dueAct(board: Board, play: BoardPlay, { step, lastStep, left, right }: Moment): BoardAct {
  const { question, stopAt_s, loop_s } = board;
  if (play.asking === 'waiting' && question !== undefined && question.holdAt !== 'start') {
    const torn = Math.max(torn_deg(left?.series, step), torn_deg(right?.series, step));
    if (torn >= question.holdAt.torn_deg) return 'ask';
  }
  if (!play.stopped && stopAt_s !== undefined && step >= steps(stopAt_s)) return 'stop';
  if (!play.looping && loop_s !== undefined && lastStep >= steps(loop_s[1])) return 'loop';
  return null;
}

/** Notes what is done before it is done: the eyes tell of every change at once, and the same act would be due again. */
function act(due: BoardAct, board: Board): void {
  if (due === 'ask') {
    useBoardPlay.setState({ asking: 'asked' });
    twinEngine.hold(true);
  } else if (due === 'stop') {
    useBoardPlay.setState({ stopped: true });
    twinEngine.play(false);
  } else if (due === 'loop' && board.loop_s !== undefined) {
    useBoardPlay.setState({ looping: true });
    twinEngine.setLoop({ from: steps(board.loop_s[0]), to: steps(board.loop_s[1]) });
  }
}

/** Starts the board from its beginning on the twin eyes, with its aids and its question. Problems are in the store. */
export function startBoard(board: Board): void {
  const setup = boardSetup(board, lectureScenario, board.title, '');
  if (!setup.ok) {
    useBoardPlay.setState({ ...NOTHING, board, problems: setup.problems.map(problemWords) });
    return;
  }
  const { question } = board;
  const asksFirst = question?.holdAt === 'start';
  useBoardPlay.setState({
    ...NOTHING,
    board,
    setup: setup.value,
    asking: question === undefined ? 'none' : asksFirst ? 'asked' : 'waiting',
    counts: question?.answers.map(() => 0) ?? [],
  });
  useLectureLook.getState().setAids(board.aids);
  useLectureLook.getState().setCamera(board.camera);
  twinEngine.setLoop(null);
  twinEngine.start(setup.value);
  twinEngine.setSpeed(board.speed);
  twinEngine.hold(asksFirst);
  // who wants less motion presses Play
  twinEngine.play(!lessMotion());
}

/** Shows the answer and lets the tear go on. */
export function reveal(): void {
  const { asking, board } = useBoardPlay.getState();
  if (asking !== 'asked') return;
  useBoardPlay.setState({ asking: 'revealed' });
  const aids = board?.question?.revealAids ?? [];
  useLectureLook.getState().setAids(Object.fromEntries(aids.map((aid) => [aid, true])));
  twinEngine.hold(false);
  twinEngine.play(true);
}

export function count(answer: number, by: 1 | -1): void {
  useBoardPlay.setState(({ counts }) => ({
    counts: counts.map((hands, at) => (at === answer ? Math.max(0, Math.min(999, hands + by)) : hands)),
  }));
}

/** Follows the eyes while the place is on the page. @returns how to stop */
export function followEyes(): () => void {
  return useTwin.subscribe((twin) => {
    const play = useBoardPlay.getState();
    // a pair that was set up by hand is not the board's business
    if (play.board === null || twin.setup !== play.setup) return;
    act(dueAct(play.board, play, twin), play.board);
  });
}

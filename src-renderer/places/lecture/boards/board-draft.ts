/** A board in the editor: what is typed, before it is a board. Plain functions on plain data. */

import {
  type FluidId,
  type HandCommand,
  type HandTrack,
  type Problem,
  type Scenario,
  STEP_S,
} from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { problemWords } from '../../../ui/problem-words.ts';
import type { EyeChange, LectureAids, LectureCamera, TwinSetup } from '../contract.ts';
import { type Board, type BoardSide, LIVE_HAND } from './board.ts';
import { canonical } from './board-list.ts';
import { changedScenario, type ScenarioById, shippedHand } from './board-setup.ts';
import { checkBoards } from './parse-boards.ts';

export interface SideDraft {
  readonly label: string;
  readonly age_years: string;
  readonly behindPressure_mmHg: string;
  /** Empty: as in the scenario. */
  readonly fluid: FluidId | '';
  readonly dyed: 'yes' | 'no' | '';
}

export interface BoardDraft {
  readonly id: string;
  readonly hidden: boolean;
  readonly title: string;
  readonly text: string;
  readonly toDo: string;
  readonly toWatch: string;
  readonly scenario: Board['scenario'];
  readonly left: SideDraft;
  readonly right: SideDraft;
  readonly two: boolean;
  readonly hand: Board['hand'];
  readonly seed: string;
  readonly speed: string;
  readonly magnification: string;
  readonly stopAt_s: string;
  readonly loopFrom_s: string;
  readonly loopTo_s: string;
  readonly aids: LectureAids;
  readonly asks: boolean;
  readonly ask: string;
  /** One a line. */
  readonly answers: string;
  readonly reveal: string;
  readonly holdAt: 'start' | 'torn';
  readonly torn_deg: string;
  readonly revealAids: readonly (keyof LectureAids)[];
}

const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

const sideDraft = (side: BoardSide | null): SideDraft => ({
  label: side?.label ?? '',
  age_years: text(side?.change.age_years),
  behindPressure_mmHg: text(side?.change.behindPressure_mmHg),
  fluid: side?.change.fluid ?? '',
  dyed: side?.change.dyed === undefined ? '' : side.change.dyed ? 'yes' : 'no',
});

export function draftOf(board: Board): BoardDraft {
  const { question } = board;
  const holdAt = question?.holdAt ?? 'start';
  return {
    id: board.id,
    hidden: board.hidden === true,
    title: board.title,
    text: board.text,
    toDo: board.toDo ?? '',
    toWatch: board.toWatch ?? '',
    scenario: board.scenario,
    left: sideDraft(board.left),
    right: sideDraft(board.right),
    two: board.right !== null,
    hand: board.hand,
    seed: text(board.seed),
    speed: text(board.speed),
    magnification: text(board.camera.magnification),
    stopAt_s: text(board.stopAt_s),
    loopFrom_s: text(board.loop_s?.[0]),
    loopTo_s: text(board.loop_s?.[1]),
    aids: board.aids,
    asks: question !== undefined,
    ask: question?.ask ?? '',
    answers: question?.answers.join('\n') ?? '',
    reveal: question?.reveal ?? '',
    holdAt: holdAt === 'start' ? 'start' : 'torn',
    torn_deg: holdAt === 'start' ? '' : text(holdAt.torn_deg),
    revealAids: question?.revealAids ?? [],
  };
}

/** A number as typed, with a point or a comma; the text itself where it is none; undefined where nothing stands. */
function typed(value: string): number | string | undefined {
  const trimmed = value.trim();
  if (trimmed === '') return undefined;
  const number = Number(trimmed.replace(',', '.'));
  return Number.isFinite(number) ? number : trimmed;
}

/** Keys without a value are left out, as in a file. */
const filled = (value: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));

const sideOf = ({ label, age_years, behindPressure_mmHg, fluid, dyed }: SideDraft) => ({
  label,
  change: filled({
    age_years: typed(age_years),
    behindPressure_mmHg: typed(behindPressure_mmHg),
    fluid: fluid === '' ? undefined : fluid,
    dyed: dyed === '' ? undefined : dyed === 'yes',
  }),
});

const orNothing = (value: string): string | undefined => (value.trim() === '' ? undefined : value);

function questionOf(draft: BoardDraft) {
  if (!draft.asks) return undefined;
  const { revealAids } = draft;
  return filled({
    ask: draft.ask,
    answers: draft.answers.split('\n').filter((line) => line.trim() !== ''),
    reveal: draft.reveal,
    holdAt: draft.holdAt === 'start' ? 'start' : { torn_deg: typed(draft.torn_deg) },
    revealAids: revealAids.length === 0 ? undefined : revealAids,
  });
}

/** What would stand in a file; not yet checked. */
function candidateOf(draft: BoardDraft): unknown {
  const loops = draft.loopFrom_s.trim() !== '' || draft.loopTo_s.trim() !== '';
  return filled({
    id: draft.id,
    title: draft.title,
    text: draft.text,
    toDo: orNothing(draft.toDo),
    toWatch: orNothing(draft.toWatch),
    scenario: draft.scenario,
    left: sideOf(draft.left),
    right: draft.two ? sideOf(draft.right) : null,
    hand: draft.hand,
    seed: typed(draft.seed),
    aids: draft.aids,
    camera: { magnification: typed(draft.magnification) },
    speed: typed(draft.speed),
    stopAt_s: typed(draft.stopAt_s),
    loop_s: loops ? [typed(draft.loopFrom_s) ?? 0, typed(draft.loopTo_s)] : undefined,
    question: questionOf(draft),
    hidden: draft.hidden ? true : undefined,
  });
}

export interface CheckedDraft {
  /** Null while there are problems. */
  readonly board: Board | null;
  /** Paths inside the board. */
  readonly problems: readonly Problem[];
}

/** The draft through the check of files. */
export function checkDraft(draft: BoardDraft, scenarioById: ScenarioById): CheckedDraft {
  const read = checkBoards({ rimwardBoards: 1, title: 'board', boards: [candidateOf(draft)] }, 'board', scenarioById);
  if (read.ok) return { board: read.value.boards[0] ?? null, problems: [] };
  const problems = read.problems.map((one) => ({ ...one, path: one.path.replace(/^boards\[0\]\.?/, '') }));
  return { board: null, problems };
}

/** Problems of one field and what lies inside it, as lines. */
export const linesAt = (problems: readonly Problem[], path: string): readonly string[] =>
  problems
    .filter((one) => one.path === path || one.path.startsWith(`${path}.`) || one.path.startsWith(`${path}[`))
    .map(({ found, allowed }) => t('lecture.editor.wrong', { found, allowed }));

/** Problems that no field of the form shows. */
export const restLines = (problems: readonly Problem[], paths: readonly string[]): readonly string[] =>
  problems.filter((one) => !paths.some((path) => linesAt([one], path).length > 0)).map(problemWords);

/** A change of four values that makes one scenario of another; null where more is different. */
export function changeBetween(from: Scenario, to: Scenario): EyeChange | null {
  const change: EyeChange = {
    ...(from.eye.age_years === to.eye.age_years ? {} : { age_years: to.eye.age_years }),
    ...(from.eye.dyed === to.eye.dyed ? {} : { dyed: to.eye.dyed }),
    ...(from.chamber.fluid === to.chamber.fluid ? {} : { fluid: to.chamber.fluid }),
    ...(from.chamber.behindPressure_mmHg === to.chamber.behindPressure_mmHg
      ? {}
      : { behindPressure_mmHg: to.chamber.behindPressure_mmHg }),
  };
  return canonical(changedScenario(from, change)) === canonical(to) ? change : null;
}

/** What moved the instrument, as a recorded hand: one sample a step, at the time at which the world asks for it. */
export function recordedTrack(commands: readonly HandCommand[]): HandTrack {
  return {
    rimwardHand: 1,
    kind: 'track',
    id: 'recorded-at-the-lecture',
    title: t('lecture.editor.recorded'),
    samples: commands.map((command, step) => ({ t_s: step * STEP_S + STEP_S, ...command })),
  };
}

export interface OnStage {
  readonly setup: TwinSetup;
  /** What moved the live hand so far. */
  readonly commands: readonly HandCommand[];
  readonly aids: LectureAids;
  readonly camera: LectureCamera;
}

function stageHand({ setup, commands }: OnStage): Board['hand'] {
  const { hand } = setup;
  if (hand.kind === 'live') return commands.length === 0 ? LIVE_HAND : recordedTrack(commands);
  if (hand.kind === 'commands') return recordedTrack(hand.commands);
  const ships = shippedHand(hand.hand.id);
  return ships !== null && canonical(ships) === canonical(hand.hand) ? hand.hand.id : hand.hand;
}

/**
 * The draft with the pair, the aids and the view that are on the stage. A live hand that has worked is taken as recorded.
 * Null where the two eyes differ by more than a board can say.
 */
export function takenFromStage(draft: BoardDraft, stage: OnStage, scenarioById: ScenarioById): BoardDraft | null {
  const { left, right, seed } = stage.setup;
  const named = scenarioById(left.scenario.id);
  const fromNamed = named === null ? null : changeBetween(named, left.scenario);
  const base = named !== null && fromNamed !== null ? named : left.scenario;
  const rightChange = right === null ? null : changeBetween(base, right.scenario);
  if (right !== null && rightChange === null) return null;
  return {
    ...draft,
    scenario: base === named ? named.id : left.scenario,
    left: sideDraft({ label: left.label, change: fromNamed ?? {} }),
    right: sideDraft(right === null || rightChange === null ? null : { label: right.label, change: rightChange }),
    two: right !== null,
    hand: stageHand(stage),
    seed: String(seed),
    aids: stage.aids,
    magnification: String(stage.camera.magnification),
  };
}

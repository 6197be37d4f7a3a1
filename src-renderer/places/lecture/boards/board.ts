/** What a board of the Lecture is: a text beside two running eyes. Plain data, as a file holds it after the check. */
import type { Hand, Scenario } from '../../../../physics/index.ts';
import type { EyeChange, LectureAids, LectureCamera } from '../contract.ts';

export interface BoardSide {
  /** What stands over the eye, such as "6 months". */
  readonly label: string;
  readonly change: EyeChange;
}

export interface BoardQuestion {
  readonly ask: string;
  readonly answers: readonly string[];
  /** Markdown, shown once the teacher reveals. */
  readonly reveal: string;
  /** When the tear is held and the room asked: before anything moves, or once so much of the arc is torn. */
  readonly holdAt: 'start' | { readonly torn_deg: number };
  /** Aids that would give the answer away: they come on when the teacher reveals. */
  readonly revealAids?: readonly (keyof LectureAids)[];
}

export interface Board {
  readonly id: string;
  readonly title: string;
  /** Markdown in plain words. */
  readonly text: string;
  readonly toDo?: string;
  readonly toWatch?: string;
  /** Id of a scenario that ships or was made here, or a whole one. */
  readonly scenario: string | Scenario;
  readonly left: BoardSide;
  /** Null: one eye. */
  readonly right: BoardSide | null;
  /** `live`, the id of a guided hand that ships, or a whole hand. */
  readonly hand: string | Hand;
  readonly seed: number;
  readonly aids: LectureAids;
  readonly camera: LectureCamera;
  /** 0.1 to 1 of real time. */
  readonly speed: number;
  /** Moment at which the motion stops by itself, s of the eye's time. */
  readonly stopAt_s?: number;
  /** Span that is played over and over, s of the eye's time. */
  readonly loop_s?: readonly [number, number];
  readonly question?: BoardQuestion;
  /** Left out when going through the boards. */
  readonly hidden?: true;
}

export interface BoardFile {
  readonly rimwardBoards: 1;
  readonly title: string;
  readonly boards: readonly Board[];
}

export const LIVE_HAND = 'live';
/** Ending of a file of boards; JSON inside. */
export const BOARDS_ENDING = 'rimward-boards.json';

import { STEP_S, type WorldView } from '../../../../physics/index.ts';
import { frameIndexAt } from '../../../worker/replay-frames.ts';
import { SIDES, type SideId, type TwinControls, type TwinState } from '../contract.ts';

/** A span of computed steps, both ends in it. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The repeated span, or everything that has been computed. */
export const usualSpan = ({ loop, lastStep }: Pick<TwinState, 'loop' | 'lastStep'>): Span =>
  loop === null ? { from: 0, to: lastStep } : { from: loop.from, to: Math.min(loop.to, lastStep) };

export const secondsOf = ({ from, to }: Span): number => (to - from) * STEP_S;

/** Kept frames of the eyes there are, with the one shown at any step. */
export class SpanFrames {
  readonly #frames: Readonly<Record<SideId, readonly WorldView[]>>;

  constructor(controls: Pick<TwinControls, 'frames'>, { from, to }: Span) {
    this.#frames = { left: controls.frames('left', from, to), right: controls.frames('right', from, to) };
  }

  /** The latest frame of an eye that is not after a step; null where there is none. */
  at(side: SideId, step: number): WorldView | null {
    const frames = this.#frames[side];
    return frames[frameIndexAt(frames, step)] ?? null;
  }

  /** Steps at which either eye has a frame, ascending. */
  get steps(): readonly number[] {
    return [...new Set(SIDES.flatMap((side) => this.#frames[side].map(({ step }) => step)))].sort((a, b) => a - b);
  }
}

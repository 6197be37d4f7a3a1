import type { WorldView } from '../../physics/index.ts';

/** Most that the frames of one replay may take in memory, bytes. A minute at every step takes about 100 MB. */
export const FRAME_MEMORY_bytes = 160_000_000;
/** What a view takes beside its typed arrays: tips, instrument, events. Measured roughly, rounded up. */
const SMALL_PARTS_bytes = 3000;

/** What a frame takes, bytes; arrays that it shares with the one before are counted there. */
export function sizeOf(view: WorldView, before: WorldView | undefined): number {
  const own = [view.position_mm, view.piece, view.tension_mN_per_mm, ...view.margins, ...view.tearPath_mm];
  if (before?.reference_mm !== view.reference_mm) own.push(view.reference_mm);
  if (before?.triangle !== view.triangle) own.push(view.triangle);
  return own.reduce((sum, array) => sum + array.byteLength, SMALL_PARTS_bytes);
}

/** Index of the latest frame that is not after a step; 0 before the first. @param frames in rising order of step */
export function frameIndexAt(frames: readonly WorldView[], step: number): number {
  let low = 0;
  let high = frames.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (frames[middle]!.step <= step) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * The frames of a replay, in order. When they would take more than the bound, every second one is dropped and only half as
 * many are taken from then on; the first and the last frame always stay.
 */
export class ReplayFrames {
  readonly #bound_bytes: number;
  #frames: WorldView[] = [];
  #bytes = 0;
  #every = 1;

  constructor(bound_bytes = FRAME_MEMORY_bytes) {
    this.#bound_bytes = bound_bytes;
  }

  /** Steps between two frames that are kept. */
  get every(): number {
    return this.#every;
  }

  get count(): number {
    return this.#frames.length;
  }

  get bytes(): number {
    return this.#bytes;
  }

  get firstStep(): number {
    return this.#frames[0]?.step ?? 0;
  }

  get lastStep(): number {
    return this.#frames.at(-1)?.step ?? 0;
  }

  /** Takes a frame later than all before it. @returns true when the frames had to be thinned */
  add(view: WorldView): boolean {
    const last = this.#frames.at(-1);
    if (last !== undefined && view.step <= last.step) return false;
    const kept = last !== undefined && last.topology === view.topology ? sharing(view, last) : view;
    this.#frames.push(kept);
    this.#bytes += sizeOf(kept, last);
    if (this.#bytes <= this.#bound_bytes || this.#frames.length < 4) return false;
    this.#thin();
    return true;
  }

  /** The frame shown at a step: the latest that is not after it. */
  at(step: number): WorldView | null {
    return this.#frames[this.indexAt(step)] ?? null;
  }

  /** Index of the latest frame that is not after a step; 0 before the first. */
  indexAt(step: number): number {
    return frameIndexAt(this.#frames, step);
  }

  /** The step of the frame so many frames on or back; stays at the ends. */
  stepFrom(step: number, by: number): number {
    const to = Math.max(0, Math.min(this.#frames.length - 1, this.indexAt(step) + by));
    return this.#frames[to]?.step ?? 0;
  }

  #thin(): void {
    this.#every *= 2;
    const last = this.#frames.length - 1;
    this.#frames = this.#frames.filter((_, at) => at % 2 === 0 || at === last);
    this.#bytes = this.#frames.reduce((sum, view, at) => sum + sizeOf(view, this.#frames[at - 1]), 0);
  }
}

/** Frames of one topology share what does not change, so that it is held once. */
export const sharing = (view: WorldView, before: WorldView): WorldView =>
  before.reference_mm.length === view.reference_mm.length && before.triangle.length === view.triangle.length
    ? { ...view, reference_mm: before.reference_mm, triangle: before.triangle }
    : view;

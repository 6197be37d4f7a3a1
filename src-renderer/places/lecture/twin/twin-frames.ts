import type { WorldView } from '../../../../physics/index.ts';
import { FRAME_MEMORY_bytes, frameIndexAt, sharing, sizeOf } from '../../../worker/replay-frames.ts';
import { SIDES, type SideId } from '../contract.ts';

/**
 * The frames of both eyes, thinned together: a step that is kept is kept of both, so that two eyes are never shown at
 * different steps. When they would take more than the bound, only every second step kept so far stays, with the last one.
 */
export class TwinFrames {
  readonly #bound_bytes: number;
  readonly #frames: Record<SideId, WorldView[]> = { left: [], right: [] };
  #bytes = 0;
  #every = 1;

  constructor(bound_bytes = 2 * FRAME_MEMORY_bytes) {
    this.#bound_bytes = bound_bytes;
  }

  /** Steps between two kept moments. */
  get every(): number {
    return this.#every;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** Takes the frames of one step, later than all before it; null for an eye that has ended, and for one that is not there. */
  add(left: WorldView | null, right: WorldView | null): void {
    if (left !== null) this.#add('left', left);
    if (right !== null) this.#add('right', right);
    if (this.#bytes > this.#bound_bytes && this.#frames.left.length + this.#frames.right.length > 8) this.#thin();
  }

  /** The latest kept frame of an eye that is not after a step; an eye that has ended stays as it ended. */
  at(side: SideId, step: number): WorldView | null {
    const frames = this.#frames[side];
    return frames[frameIndexAt(frames, step)] ?? null;
  }

  /** Kept frames from the one shown at `from` up to `to`. */
  between(side: SideId, from: number, to: number): readonly WorldView[] {
    const frames = this.#frames[side];
    if (frames.length === 0) return [];
    return frames.slice(frameIndexAt(frames, from), frameIndexAt(frames, to) + 1);
  }

  /** The step shown when this one is asked for: the latest that is kept of both eyes and not after it. */
  keptStep(step: number, last: number): number {
    const whole = Math.max(0, Math.min(last, Math.floor(step + 1e-9)));
    return whole === last ? last : whole - (whole % this.#every);
  }

  #add(side: SideId, view: WorldView): void {
    const frames = this.#frames[side];
    const last = frames.at(-1);
    // the one before was kept only for being the last
    if (last !== undefined && frames.length > 1 && last.step % this.#every !== 0) {
      frames.pop();
      this.#bytes -= sizeOf(last, frames.at(-1));
    }
    const before = frames.at(-1);
    const kept = before !== undefined && before.topology === view.topology ? sharing(view, before) : view;
    frames.push(kept);
    this.#bytes += sizeOf(kept, before);
  }

  clear(): void {
    for (const side of SIDES) this.#frames[side] = [];
    this.#bytes = 0;
    this.#every = 1;
  }

  #thin(): void {
    this.#every *= 2;
    this.#bytes = 0;
    for (const side of SIDES) {
      const before = this.#frames[side];
      const last = before.length - 1;
      const kept = before.filter(({ step }, at) => step % this.#every === 0 || at === last);
      this.#frames[side] = kept;
      this.#bytes += kept.reduce((sum, view, at) => sum + sizeOf(view, kept[at - 1]), 0);
    }
  }
}

import { toMm } from '../../stage/microscope.ts';
import { listenToPointers } from '../../tools/listen-to-pointers.ts';
import type { AttemptSession } from './attempt-session.ts';
import type { StageMount } from './stage-mount.ts';
import { magnify } from './use-attempt-keys.ts';

/** Mouse, pen and touch on the stage. Returns what takes them off again. */
export function listenToHands(
  place: HTMLElement,
  session: Pick<AttemptSession, 'act'>,
  mount: () => StageMount | null,
  magnifyBy: (direction: 1 | -1) => void = magnify,
): () => void {
  return listenToPointers({
    place,
    act: (event) => session.act(event),
    toMm: () => {
      const frame = mount()?.stage?.frame;
      return frame === undefined ? null : (at_px) => toMm(frame, at_px);
    },
    magnifyBy,
  });
}

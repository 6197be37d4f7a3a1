import { useHands, usePadNews } from '../stores/hands-store.ts';
import type { HandEvent } from './hand.ts';
import type { KeyAction } from './keys.ts';
import { type PadSample, padAfter, padGone, RESTING_PAD } from './pad-hand.ts';

/** Longest time a look may stand for, seconds: after a hidden tab the hand does not leap. */
const LONGEST_LOOK_s = 0.1;

/** What a gamepad works. */
export interface WorkedByPad {
  act(event: HandEvent): void;
  perform(action: KeyAction): void;
  /** The gamepad was pulled out or has lost its radio while in use: time should stand still where it may. */
  lost(): void;
}

/** What is needed of the browser; tests give their own. */
export interface PadSurroundings {
  readonly events: Pick<Window, 'addEventListener' | 'removeEventListener'>;
  pads(): readonly (PadSample | null)[];
  nextFrame(work: (now_ms: number) => void): number;
  cancelFrame(frame: number): void;
  /** True while the keys, and so the gamepad, belong to a dialog. */
  elsewhere(): boolean;
}

const BROWSER: PadSurroundings = {
  get events() {
    return window;
  },
  pads: () => navigator.getGamepads(),
  nextFrame: (work) => requestAnimationFrame(work),
  cancelFrame: (frame) => cancelAnimationFrame(frame),
  elsewhere: () => document.querySelector('dialog[open]') !== null,
};

/** The first gamepad that is plugged in, null where there is none. */
const firstPad = (around: PadSurroundings): PadSample | null => around.pads().find((pad) => pad !== null) ?? null;

/**
 * The gamepad of the hand, for as long as its stage is shown. It is looked at once a frame, and only while one is
 * there: without one nothing runs. @returns what takes it off again
 */
export function listenToPad(worked: WorkedByPad, around: PadSurroundings = BROWSER): () => void {
  let pad = RESTING_PAD;
  let frame: number | null = null;
  let looked_ms: number | null = null;
  const letGo = () => {
    for (const event of padGone(pad)) worked.act(event);
    pad = RESTING_PAD;
  };
  const look = (now_ms: number) => {
    const sample = firstPad(around);
    frame = sample === null ? null : around.nextFrame(look);
    const dt_s = looked_ms === null ? 0 : Math.min(LONGEST_LOOK_s, Math.max(0, (now_ms - looked_ms) / 1000));
    looked_ms = now_ms;
    if (sample === null) return;
    if (around.elsewhere()) {
      letGo();
      return;
    }
    const { padSpeed_mm_per_s, leftHanded } = useHands.getState();
    const [next, events, actions] = padAfter(pad, sample, dt_s, { speed_mm_per_s: padSpeed_mm_per_s, leftHanded });
    pad = next;
    for (const event of events) worked.act(event);
    for (const action of actions) worked.perform(action);
  };
  const begin = () => {
    looked_ms = null;
    frame ??= around.nextFrame(look);
  };
  const plugged = () => {
    usePadNews.setState({ news: 'plugged' });
    begin();
  };
  const unplugged = () => {
    if (firstPad(around) !== null) return;
    letGo();
    usePadNews.setState({ news: 'unplugged' });
    worked.lost();
  };
  around.events.addEventListener('gamepadconnected', plugged);
  around.events.addEventListener('gamepaddisconnected', unplugged);
  if (firstPad(around) !== null) begin();
  return () => {
    around.events.removeEventListener('gamepadconnected', plugged);
    around.events.removeEventListener('gamepaddisconnected', unplugged);
    if (frame !== null) around.cancelFrame(frame);
    letGo();
  };
}

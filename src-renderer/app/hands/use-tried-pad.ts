import { useEffect, useState } from 'react';
import { useHands } from '../../stores/hands-store.ts';
import { padAfter, RESTING_PAD } from '../../tools/pad-hand.ts';

/** What a gamepad says where it is tried. */
export interface TriedPad {
  readonly name: string;
  readonly left: readonly [number, number];
  readonly right: readonly [number, number];
  readonly trigger: number;
  readonly closed: boolean;
}

const rounded = (value: number | undefined): number => Math.round(100 * (value ?? 0)) / 100;

/** The first gamepad as it is now, looked at once a frame while this is shown; null where there is none. */
export function useTriedPad(): TriedPad | null {
  const [tried, setTried] = useState<TriedPad | null>(null);
  useEffect(() => {
    let pad = RESTING_PAD;
    let frame = requestAnimationFrame(function look() {
      frame = requestAnimationFrame(look);
      const found = navigator.getGamepads().find((one) => one !== null) ?? null;
      if (found === null) {
        setTried(null);
        return;
      }
      const { padSpeed_mm_per_s, leftHanded } = useHands.getState();
      [pad] = padAfter(pad, found, 0, { speed_mm_per_s: padSpeed_mm_per_s, leftHanded });
      const [lx, ly, rx, ry] = found.axes.map(rounded);
      const now: TriedPad = {
        name: found.id,
        left: [lx ?? 0, -(ly ?? 0)],
        right: [rx ?? 0, -(ry ?? 0)],
        trigger: rounded(found.buttons[leftHanded ? 6 : 7]?.value),
        closed: pad.closed,
      };
      setTried((before) => (JSON.stringify(before) === JSON.stringify(now) ? before : now));
    });
    return () => cancelAnimationFrame(frame);
  }, []);
  return tried;
}

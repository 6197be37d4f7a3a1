import { useEffect } from 'react';
import { STEP_S } from '../../../../physics/index.ts';
import type { ReplayPlayer } from './replay-player.ts';

/** Frames of a second, for the larger steps. */
const SECOND = Math.round(1 / STEP_S);

/** Space plays, arrows step by frames, with Shift by seconds, Home and End go to the ends. */
export function useReplayKeys(player: ReplayPlayer): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName)) return;
      // Space on a button presses that button
      if (event.key === ' ' && target.tagName === 'BUTTON') return;
      const { step, of, playing } = player.store.getState();
      const by = event.shiftKey ? SECOND : 0;
      if (event.key === ' ') player.play(!playing);
      else if (event.key === 'ArrowRight') by > 0 ? player.seek(step + by) : player.nudge(1);
      else if (event.key === 'ArrowLeft') by > 0 ? player.seek(step - by) : player.nudge(-1);
      else if (event.key === 'Home') player.seek(0);
      else if (event.key === 'End') player.seek(of);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [player]);
}

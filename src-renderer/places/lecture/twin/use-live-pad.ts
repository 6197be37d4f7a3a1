import { useEffect } from 'react';
import { listenToPad } from '../../../tools/listen-to-pad.ts';
import { magnify } from './magnify.ts';
import { twinEngine, useTwin } from './twin-store.ts';

/** The gamepad as the live hand over both eyes, for as long as the hand is a live one. */
export function useLivePad(): void {
  const live = useTwin((state) => state.setup?.hand.kind === 'live');
  useEffect(() => {
    if (!live) return;
    return listenToPad({
      act: (event) => twinEngine.act(event),
      perform: (action) => {
        if (action.kind === 'fold') twinEngine.act({ kind: 'fold' });
        else if (action.kind === 'take') twinEngine.act(action);
        else if (action.kind === 'magnify') magnify(action.direction);
        else if (action.kind === 'start-over') twinEngine.restart();
        else if (action.kind === 'pause') twinEngine.play(!useTwin.getState().playing);
      },
      lost: () => twinEngine.play(false),
    });
  }, [live]);
}

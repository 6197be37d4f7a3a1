import { type RefObject, useEffect } from 'react';
import { useHands } from '../../../stores/hands-store.ts';
import { SteeringKeys } from '../../../tools/arrows.ts';
import { twinEngine } from './twin-store.ts';

/** Height per press, mm. */
const RAISE_mm = 0.1;

/** What a key does to the live hand while a stage has the focus. */
const DEEDS: Readonly<Record<string, () => void>> = {
  enter: () => twinEngine.act({ kind: 'toggle' }),
  f: () => twinEngine.act({ kind: 'fold' }),
  ']': () => twinEngine.act({ kind: 'raise', by_mm: RAISE_mm }),
  '[': () => twinEngine.act({ kind: 'raise', by_mm: -RAISE_mm }),
  g: () => twinEngine.act({ kind: 'take', instrument: 'forceps' }),
  n: () => twinEngine.act({ kind: 'take', instrument: 'needle' }),
  c: () => twinEngine.act({ kind: 'take', instrument: 'cannula' }),
};

/** The live hand by keys: arrows move it, Enter closes and opens the jaws; only while a stage has the focus. */
export function useLiveKeys(place: RefObject<HTMLElement | null>, live: boolean): void {
  useEffect(() => {
    const element = place.current;
    if (element === null || !live) return;
    const controller = new AbortController();
    const { signal } = controller;
    const held = new SteeringKeys();
    const steer = (slowly: boolean) => twinEngine.act({ kind: 'steer', direction: held.direction, slowly });
    const down = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.target !== element) return;
      const deed = DEEDS[event.key.toLowerCase()];
      if (held.press(event.key, useHands.getState().leftHanded)) steer(event.shiftKey);
      else if (deed !== undefined) deed();
      else return;
      event.preventDefault();
    };
    const up = (event: KeyboardEvent) => {
      if (held.lift(event.key)) steer(event.shiftKey);
    };
    const away = () => {
      if (held.liftAll()) steer(false);
    };
    element.addEventListener('keydown', down, { signal });
    element.addEventListener('keyup', up, { signal });
    element.addEventListener('blur', away, { signal });
    return () => controller.abort();
  }, [place, live]);
}

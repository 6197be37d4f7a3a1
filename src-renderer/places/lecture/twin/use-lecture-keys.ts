import { useEffect } from 'react';
import { STEP_S } from '../../../../physics/index.ts';
import { AIDS, toggleAid } from './AidToggles.tsx';
import { magnify } from './magnify.ts';
import { nextTextSize, useRoom } from './room-store.ts';
import { toggleLoop } from './TwinTransport.tsx';
import { twinEngine, useTwin } from './twin-store.ts';

const SECOND = Math.round(1 / STEP_S);

/** Controls keep the keys that work them. */
function belongsToControl(target: EventTarget | null, key: string): boolean {
  if (document.querySelector('dialog[open]') !== null) return true;
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target.closest('select, textarea, input:not([type=checkbox], [type=range])') !== null)
    return true;
  // the line of time is drawn along with the same arrows
  if (target.closest('input[type=range]') !== null) return key !== ' ' && !/^[a-z]$/i.test(key);
  if (key === ' ') return target.closest('button, summary, input, [role=option]') !== null;
  return key === 'Enter' && target.closest('button, summary, a, input, [role=option]') !== null;
}

/** What a key does, by its name in lower case; the live hand's keys on a stage come before. */
const DEEDS: Readonly<Record<string, (event: KeyboardEvent) => void>> = {
  ' ': () => twinEngine.play(!useTwin.getState().playing),
  arrowright: (event) => go(1, event.shiftKey),
  arrowleft: (event) => go(-1, event.shiftKey),
  home: () => twinEngine.seek(0),
  end: () => twinEngine.seek(useTwin.getState().lastStep),
  l: toggleLoop,
  r: () => twinEngine.restart(),
  h: () => twinEngine.takeOver(),
  '+': () => magnify(1),
  '=': () => magnify(1),
  '-': () => magnify(-1),
  '0': () => magnify(0),
  d: () => room().setTool(room().tool === null ? 'pen' : null),
  x: () => room().setShapes([]),
  t: () => room().setTrail(!room().trail),
  b: () => room().setBlack(!room().black),
  a: nextTextSize,
  ...Object.fromEntries(AIDS.map(({ aid, key }) => [key, () => toggleAid(aid)])),
};

const room = () => useRoom.getState();

function go(way: 1 | -1, bySeconds: boolean): void {
  if (bySeconds) twinEngine.seek(useTwin.getState().step + way * SECOND);
  else twinEngine.nudge(way);
}

/**
 * A button that was clicked with the mouse gives the keys back: a teacher who goes to the next board and presses Space wants
 * to see it move, not the board after. Buttons reached by keyboard keep the focus (a click by key has no detail).
 */
function letGoOf(event: MouseEvent): void {
  const button = event.target instanceof Element ? event.target.closest<HTMLElement>('.lecture button') : null;
  if (button !== null && event.detail > 0 && button.closest('dialog') === null) button.blur();
}

/** The keys of the pair: Space plays, arrows step, L repeats, digits turn aids on and off, letters are for the room. */
export function useLectureKeys(): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.altKey || belongsToControl(event.target, event.key)) return;
      if (event.ctrlKey || event.metaKey) {
        if (event.key.toLowerCase() !== 'z') return;
        event.preventDefault();
        room().undo();
        return;
      }
      if (room().black) {
        // a black screen answers to its own keys only
        if (/^(b|escape)$/i.test(event.key)) room().setBlack(false);
        event.preventDefault();
        return;
      }
      const deed = DEEDS[event.key.toLowerCase()];
      if (deed === undefined) return;
      event.preventDefault();
      deed(event);
    };
    window.addEventListener('keydown', pressed);
    window.addEventListener('click', letGoOf);
    return () => {
      window.removeEventListener('keydown', pressed);
      window.removeEventListener('click', letGoOf);
    };
  }, []);
}

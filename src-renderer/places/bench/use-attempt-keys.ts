import { useEffect } from 'react';
import { t } from '../../i18n/text.ts';
import { steppedMagnification } from '../../stage/microscope.ts';
import { useHands } from '../../stores/hands-store.ts';
import { useView } from '../../stores/view-store.ts';
import { SteeringKeys } from '../../tools/arrows.ts';
import { actionOf, type KeyAction } from '../../tools/keys.ts';
import { listenToPad } from '../../tools/listen-to-pad.ts';
import { clockTime } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';

export function magnify(direction: 1 | -1 | 0): void {
  const { magnification, setMagnification } = useView.getState();
  setMagnification(direction === 0 ? 1 : steppedMagnification(magnification, direction));
}

function perform(session: AttemptSession, action: KeyAction): void {
  if (action.kind === 'take') session.take(action.instrument);
  else if (action.kind === 'raise') session.act(action);
  else if (action.kind === 'magnify') magnify(action.direction);
  else if (action.kind === 'toggle' || action.kind === 'fold') session.act({ kind: action.kind });
  else if (action.kind === 'open') session.act({ kind: 'release' });
  else if (action.kind === 'next-incision') session.nextIncision();
  else if (action.kind === 'start-over') session.startOver();
  else if (action.kind === 'bring-back') session.bringBack();
  else session.pause(!session.store.getState().paused);
}

/** What runs stands still where it may; in a trial, where it may not, the loss is noted. */
function padLost(session: AttemptSession): void {
  const { begun, place, view } = session.store.getState();
  if (!begun) return;
  if (place === 'trial') session.note(t('hands.pad.note', { time: clockTime(view?.time_s ?? 0) }));
  session.pause(true);
}

/** Controls keep the keys that work them; everything else is the hand’s. */
function belongsToControl(target: EventTarget | null, key: string): boolean {
  // while a dialog is open every key is its own
  if (document.querySelector('dialog[open]') !== null) return true;
  if (!(target instanceof HTMLElement)) return false;
  if (target.closest('select, textarea, input:not([type=checkbox])') !== null) return true;
  const pressed = key === ' ' || key === 'Enter';
  return pressed && target.closest('button, summary, a, input') !== null;
}

/** From a field or a button, whose keys are its own, back to where every key is the hand's. */
function backToStage(): void {
  if (document.querySelector('dialog[open]') === null)
    document.querySelector<HTMLElement>('.stage')?.focus({ preventScroll: true });
}

/** The keyboard and the gamepad of the hand, for as long as its stage is shown. */
export function useAttemptKeys(session: AttemptSession): void {
  useEffect(() => {
    const held = new SteeringKeys();
    const steer = (slowly: boolean) => session.act({ kind: 'steer', direction: held.direction, slowly });
    const down = (event: KeyboardEvent) => {
      if (event.key === 'Escape') backToStage();
      if (belongsToControl(event.target, event.key)) return;
      const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
      if (plain && held.press(event.key, useHands.getState().leftHanded)) {
        steer(event.shiftKey);
        event.preventDefault();
        return;
      }
      const action = actionOf(event);
      if (action === null) return;
      event.preventDefault();
      if (!event.repeat || action.kind === 'raise') perform(session, action);
    };
    const up = (event: KeyboardEvent) => {
      if (held.lift(event.key)) steer(event.shiftKey);
    };
    const away = () => {
      if (held.liftAll()) steer(false);
    };
    const unplug = listenToPad({
      act: (event) => session.act(event),
      perform: (action) => perform(session, action),
      lost: () => padLost(session),
    });
    window.addEventListener('keydown', down);
    window.addEventListener('keyup', up);
    window.addEventListener('blur', away);
    return () => {
      window.removeEventListener('keydown', down);
      window.removeEventListener('keyup', up);
      window.removeEventListener('blur', away);
      unplug();
    };
  }, [session]);
}

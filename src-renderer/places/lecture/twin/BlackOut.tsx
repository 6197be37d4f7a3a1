import { useEffect, useRef } from 'react';
import { t } from '../../../i18n/text.ts';
import { useRoom } from './room-store.ts';

/** A black screen over everything, until B, Escape or a click; what runs goes on. */
export function BlackOut() {
  const black = useRoom((state) => state.black);
  const screen = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    if (black) screen.current?.focus();
    else return;
    return () => (before instanceof HTMLElement ? before.focus() : undefined);
  }, [black]);
  if (!black) return null;
  return (
    <button
      ref={screen}
      type="button"
      className="twin-black"
      data-testid="black"
      aria-label={t('lecture.black.name')}
      onClick={() => useRoom.getState().setBlack(false)}
    />
  );
}

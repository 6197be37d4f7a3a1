import { useEffect } from 'react';
import { useBoards } from './board-store.ts';

/** Where keys are being typed, Page Up and Page Down belong to the text. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, select, dialog, [contenteditable]') !== null;
}

/** Page Up and Page Down, which a presenter's remote sends, go through the boards while no dialog is open. */
export function useBoardKeys(): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const direction = event.key === 'PageDown' ? 1 : event.key === 'PageUp' ? -1 : null;
      if (direction === null || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
      if (isTyping(event.target) || document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      useBoards.getState().step(direction);
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, []);
}

import { useEffect } from 'react';
import { useDesk } from './eye-desk.ts';

/** Ctrl or Cmd with S saves, with Z undoes, with Y or Shift Z does it again: the draft's, not one text field's. */
export function useDeskKeys(): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      const { save, undo, redo } = useDesk.getState();
      if (key === 's' && !event.shiftKey) void save();
      else if (key === 'z' && !event.shiftKey) undo();
      else if (key === 'y' || key === 'z') redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, []);
}

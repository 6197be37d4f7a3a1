import { useSyncExternalStore } from 'react';

/** The theme that the page wears at this moment, which is later than the choice of it: colours can be read from the page. */
export const useThemeDrawn = (): string => useSyncExternalStore(watch, drawn);

const drawn = (): string => document.documentElement.dataset.theme ?? '';

function watch(changed: () => void): () => void {
  const watcher = new MutationObserver(changed);
  watcher.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  return () => watcher.disconnect();
}

import { useSyncExternalStore } from 'react';

/** The theme and text size that the page wears at this moment, which is later than the choice of them: both can be read from it. */
export const useThemeDrawn = (): string => useSyncExternalStore(watch, drawn);

const drawn = (): string => {
  const { theme = '', textSize = '' } = document.documentElement.dataset;
  return `${theme} ${textSize}`;
};

function watch(changed: () => void): () => void {
  const watcher = new MutationObserver(changed);
  watcher.observe(document.documentElement, { attributeFilter: ['data-theme', 'data-text-size'] });
  return () => watcher.disconnect();
}

import { type RefObject, useLayoutEffect, useRef, useState } from 'react';
import { useLanguage } from '../../i18n/text.ts';
import { useView } from '../../stores/view-store.ts';

/**
 * Whether a table that does not fit the width of its box is folded, so that two columns share one. Found by trying: a table
 * that reaches out of its box is folded, and unfolded once the box is as wide as it was then.
 */
export function useFolded(box: RefObject<HTMLElement | null>): boolean {
  const language = useLanguage((state) => state.language);
  const theme = useView((state) => state.theme);
  const textSize = useView((state) => state.textSize);
  const [folded, setFolded] = useState(false);
  const needed_px = useRef(0);

  // another language, look or size of text needs another width
  useLayoutEffect(() => setFolded(false), [language, theme, textSize]);

  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const fit = () => {
      if (folded && element.clientWidth >= needed_px.current) setFolded(false);
      if (folded || element.scrollWidth <= element.clientWidth) return;
      needed_px.current = element.scrollWidth;
      setFolded(true);
    };
    fit();
    const sizes = new ResizeObserver(fit);
    sizes.observe(element);
    return () => sizes.disconnect();
  }, [box, folded, language, theme, textSize]);
  return folded;
}

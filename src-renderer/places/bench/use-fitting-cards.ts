import { useEffect } from 'react';
import { fitCards, useView } from '../../stores/view-store.ts';

/** Folds the cards away when the window becomes too narrow for them at the size of the text, and opens them again. */
export function useFittingCards(): void {
  const theme = useView((state) => state.theme);
  const textSize = useView((state) => state.textSize);
  // another size of text is another room for the cards
  useEffect(() => {
    let width = 0;
    const fit = () => {
      // a change of height alone, as by an on-screen keyboard, leaves the cards as they are
      if (window.innerWidth !== width) fitCards(window.innerWidth, theme);
      width = window.innerWidth;
    };
    fit();
    window.addEventListener('resize', fit);
    return () => window.removeEventListener('resize', fit);
  }, [theme, textSize]);
}

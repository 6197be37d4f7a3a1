import { useView } from '../stores/view-store.ts';

/** True where this person, or the system they set up, wants as little as possible to move by itself. */
export const lessMotion = (): boolean =>
  useView.getState().motion === 'less' || globalThis.matchMedia?.('(prefers-reduced-motion: reduce)').matches === true;

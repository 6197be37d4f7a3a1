import { create } from 'zustand';
import { usePlace } from '../../stores/place-store.ts';
import type { SessionState } from '../../stores/session-store.ts';
import { useView } from '../../stores/view-store.ts';
import { beginTour, followed, onward, type TourProgress, type TourSight } from './tour-steps.ts';

/** The eye that the tour is made for: a prepared flap in a stiff capsule, which forgives most. */
const TOUR_EYE = 'adult-baseline';
/** Set once the tour has been offered on this machine. */
const OFFERED = 'tour.offered';

interface TourState {
  readonly state: 'off' | 'offered' | 'running';
  readonly progress: TourProgress;
}

export const useTour = create<TourState>(() => ({ state: 'off', progress: beginTour(0) }));

/** Opens the tour's eye at the bench; an attempt in hand there can be brought back as after any new start. */
export const openTourEye = (): void => usePlace.getState().go('bench', `scenario:${TOUR_EYE}`);

/** Starts the tour of five steps, from anywhere in the program. */
export function startTour(): void {
  useTour.setState({ state: 'running', progress: beginTour(0) });
  // the tour points at its bar
  useView.getState().setCardOpen('tip', true);
  openTourEye();
}

export const stopTour = (): void => useTour.setState({ state: 'off' });

export const skipStep = (events: SessionState['events']): void =>
  useTour.setState(({ progress }) => ({ progress: onward(progress, events) }));

/** To be called whenever the world has been looked at. */
export function followTour(sight: TourSight): void {
  const { state, progress } = useTour.getState();
  if (state === 'offered' && sight.events.some(({ kind }) => kind === 'grasp')) stopTour();
  if (state !== 'running') return;
  const next = followed(progress, sight);
  if (next !== progress) useTour.setState({ progress: next });
}

/** Offers the tour once and for all; never where the answer could not be kept. */
export async function offerTourOnce(): Promise<void> {
  const host = window.rimwardHost;
  if (host === undefined || useTour.getState().state !== 'off') return;
  try {
    const kept = await host.loadPreferences();
    if (kept[OFFERED] === true || useTour.getState().state !== 'off') return;
    await host.savePreference(OFFERED, true);
    useTour.setState({ state: 'offered' });
  } catch (fault) {
    // an offer is no reason to disturb anybody
    console.warn('preferences:', fault);
  }
}

import { create } from 'zustand';

/** The places of the window, in the order of the bar; the number is their key with Ctrl or Cmd. */
export const PLACES = [
  { id: 'bench', key: '1' },
  { id: 'lecture', key: '2' },
  { id: 'trial', key: '3' },
  { id: 'logbook', key: '4' },
  { id: 'eyes', key: '5' },
] as const;

export type PlaceId = (typeof PLACES)[number]['id'];

/** Called instead of going; `goOn` goes after all. */
type Asks = (goOn: () => void) => void;

interface PlaceState {
  readonly place: PlaceId;
  /** What the place is asked to show first, such as an attempt's id; the place takes it and sets it to null. */
  readonly errand: string | null;
  /** Set while the present place must be asked before another one is shown. */
  readonly asks: Asks | null;
  go(place: PlaceId, errand?: string | null): void;
  takeErrand(): string | null;
}

const placeOfHash = (hash: string): PlaceId => PLACES.find(({ id }) => hash === `#${id}`)?.id ?? PLACES[0].id;

export const usePlace = create<PlaceState>((set, get) => ({
  place: placeOfHash(globalThis.location?.hash ?? ''),
  errand: null,
  asks: null,
  go: (place, errand = null) => {
    const { place: here, asks } = get();
    const move = () => {
      if (globalThis.location !== undefined) globalThis.location.hash = place;
      set({ place, errand, asks: null });
    };
    if (asks === null || place === here) move();
    else asks(move);
  },
  takeErrand: () => {
    const { errand } = get();
    set({ errand: null });
    return errand;
  },
}));

/** Has `asks` called before the present place is left. @returns how to let go again */
export function askBeforeLeaving(asks: Asks): () => void {
  usePlace.setState({ asks });
  return () => {
    if (usePlace.getState().asks === asks) usePlace.setState({ asks: null });
  };
}

/** Follows the address and the keys 1 to 5 with Ctrl or Cmd. @returns how to stop */
export function followPlaces(): () => void {
  const moved = () => {
    const wanted = placeOfHash(window.location.hash);
    const { place, asks, go } = usePlace.getState();
    if (wanted === place) return;
    // the place that asks first is still the one that is shown
    if (asks !== null) window.history.replaceState(null, '', `#${place}`);
    go(wanted);
  };
  const pressed = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey) return;
    const found = PLACES.find(({ key }) => key === event.key);
    if (found === undefined) return;
    event.preventDefault();
    usePlace.getState().go(found.id);
  };
  window.addEventListener('hashchange', moved);
  window.addEventListener('keydown', pressed);
  return () => {
    window.removeEventListener('hashchange', moved);
    window.removeEventListener('keydown', pressed);
  };
}

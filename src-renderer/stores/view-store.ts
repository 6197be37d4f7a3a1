import { create } from 'zustand';
import { MAGNIFICATIONS } from '../stage/microscope.ts';

export type Theme = 'room' | 'projector';
export type Aid = 'pull' | 'sheet' | 'resultant' | 'targetCircle';
export type CardName = 'eye' | 'tip';

/** How this person looks at things; nothing here changes what the eye does. */
export interface ViewState {
  readonly theme: Theme;
  readonly magnification: number;
  readonly aids: Readonly<Record<Aid, boolean>>;
  readonly cardOpen: Readonly<Record<CardName, boolean>>;
  setTheme(theme: Theme): void;
  setMagnification(magnification: number): void;
  setAid(aid: Aid, on: boolean): void;
  setCardOpen(card: CardName, open: boolean): void;
}

export const useView = create<ViewState>((set) => ({
  theme: 'room',
  magnification: MAGNIFICATIONS[0]!,
  aids: { pull: true, sheet: true, resultant: true, targetCircle: true },
  cardOpen: { eye: true, tip: true },
  setTheme: (theme) => set({ theme }),
  setMagnification: (magnification) => set({ magnification }),
  setAid: (aid, on) => set((state) => ({ aids: { ...state.aids, [aid]: on } })),
  setCardOpen: (card, open) => set((state) => ({ cardOpen: { ...state.cardOpen, [card]: open } })),
}));

/** Width below which the cards start collapsed, CSS pixels. */
const NARROW_px = 1000;

/** Cards collapse on a narrow window and open again on a wide one; in between a person decides. */
export function fitCards(width_px: number): void {
  const open = width_px >= NARROW_px;
  useView.setState({ cardOpen: { eye: open, tip: open } });
}

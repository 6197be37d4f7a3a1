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

/** Width below which the cards start collapsed, CSS pixels; the projector's larger type needs more. */
const NARROW_px: Readonly<Record<Theme, number>> = { room: 1000, projector: 1240 };

/** Cards collapse when the window has become too narrow for them and open on a wide one; a person may do otherwise. */
export function fitCards(width_px: number, theme: Theme): void {
  const open = width_px >= NARROW_px[theme];
  useView.setState({ cardOpen: { eye: open, tip: open } });
}

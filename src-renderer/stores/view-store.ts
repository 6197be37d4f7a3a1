import { create } from 'zustand';
import { MAGNIFICATIONS } from '../stage/microscope.ts';

export type Theme = 'room' | 'projector';
export type Aid = 'pull' | 'sheet' | 'resultant' | 'targetCircle';
/** Whether things may move by themselves as the system allows, or as little as possible. */
export type Motion = 'system' | 'less';
export type CardName = 'eye' | 'tip';

/** How this person looks at things; nothing here changes what the eye does. */
export interface ViewState {
  readonly theme: Theme;
  /** Times the usual size of text, 1 to 2. */
  readonly textSize: number;
  readonly motion: Motion;
  readonly magnification: number;
  readonly aids: Readonly<Record<Aid, boolean>>;
  readonly cardOpen: Readonly<Record<CardName, boolean>>;
  setTheme(theme: Theme): void;
  setTextSize(textSize: number): void;
  setMotion(motion: Motion): void;
  setMagnification(magnification: number): void;
  setAid(aid: Aid, on: boolean): void;
  setCardOpen(card: CardName, open: boolean): void;
}

export const useView = create<ViewState>((set) => ({
  theme: 'room',
  textSize: 1,
  motion: 'system',
  magnification: MAGNIFICATIONS[0]!,
  aids: { pull: true, sheet: true, resultant: true, targetCircle: true },
  cardOpen: { eye: true, tip: true },
  setTheme: (theme) => set({ theme }),
  setTextSize: (textSize) => set({ textSize: Math.min(2, Math.max(1, textSize)) }),
  setMotion: (motion) => set({ motion }),
  setMagnification: (magnification) => set({ magnification }),
  setAid: (aid, on) => set((state) => ({ aids: { ...state.aids, [aid]: on } })),
  setCardOpen: (card, open) => set((state) => ({ cardOpen: { ...state.cardOpen, [card]: open } })),
}));

/** Width below which the cards start collapsed at the usual text size, CSS pixels; the projector's larger type needs more. */
const NARROW_px: Readonly<Record<Theme, number>> = { room: 1000, projector: 1240 };

/** Cards collapse when the window has become too narrow for them and open on a wide one; a person may do otherwise. */
export function fitCards(width_px: number, theme: Theme): void {
  const open = width_px >= NARROW_px[theme] * useView.getState().textSize;
  useView.setState({ cardOpen: { eye: open, tip: open } });
}

import { create } from 'zustand';
import type { LectureAids, LectureCamera, TwinControls, TwinState } from '../contract.ts';

/** The moment shown and everything computed so far; the engine behind `twinControls` writes it. */
export const useTwin = create<TwinState>(() => ({
  setup: null,
  left: null,
  right: null,
  step: 0,
  lastStep: 0,
  playing: false,
  speed: 1,
  loop: null,
  held: false,
  ended: false,
}));

interface LookState {
  readonly aids: LectureAids;
  readonly camera: LectureCamera;
  setAids(aids: Partial<LectureAids>): void;
  setCamera(camera: LectureCamera): void;
}

/** What is drawn over both eyes and where both look. */
export const useLectureLook = create<LookState>((set) => ({
  aids: {
    arrows: true,
    safeCone: false,
    tensionMap: false,
    principalStrokes: false,
    polarCurve: false,
    targetCircle: true,
    numbers: false,
  },
  camera: { magnification: 1 },
  setAids: (aids) => set((state) => ({ aids: { ...state.aids, ...aids } })),
  setCamera: (camera) => set({ camera }),
}));

/** The one pair of the window; null before the place has been shown. */
export const twinControls: { current: TwinControls | null } = { current: null };

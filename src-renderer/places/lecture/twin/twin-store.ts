import { create } from 'zustand';
import { useLanguage } from '../../../i18n/text.ts';
import { openTwin } from '../../../worker/twin-client.ts';
import type { LectureAids, LectureCamera, TwinState } from '../contract.ts';
import { followPolar, takePolar } from './polar-store.ts';
import { TwinEngine } from './twin-engine.ts';

/** The moment shown and everything computed so far; `twinEngine` writes it. */
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
  instrument: 'forceps',
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

/** The one pair of the window. Its workers start with the first pair. */
export const twinEngine = new TwinEngine({
  open: openTwin,
  tell: (state) => useTwin.setState(state),
  now_ms: () => performance.now(),
  polar: takePolar,
});

const followDirections = () => followPolar(useTwin.getState(), useLectureLook.getState().aids.polarCurve, twinEngine);
useTwin.subscribe(followDirections);
useLectureLook.subscribe(followDirections);

useLanguage.subscribe(() => twinEngine.retell());

import { create } from 'zustand';
import { PLOT_IDS, type PlotId } from './plot-model.ts';

/** Shown until a person chooses: where the tear goes, and why. */
const USUAL: readonly PlotId[] = ['radius', 'driving'];
const KEY = 'lecture.plots';

interface PlotChoice {
  /** In the order of PLOT_IDS. */
  readonly shown: readonly PlotId[];
  toggle(id: PlotId): void;
}

/** Which plots are on the page; kept with the person's other preferences. */
export const usePlotChoice = create<PlotChoice>((set, get) => ({
  shown: USUAL,
  toggle: (id) => {
    const { shown } = get();
    const next = PLOT_IDS.filter((one) => (one === id ? !shown.includes(one) : shown.includes(one)));
    set({ shown: next });
    window.rimwardHost?.savePreference(KEY, next.join(' ')).catch(unkept);
  },
}));

const unkept = (fault: unknown): void => console.warn('preferences:', fault);

/** Brings back the last choice, where the program around the page keeps it. */
export async function loadPlotChoice(): Promise<void> {
  const kept = (await window.rimwardHost?.loadPreferences().catch(unkept))?.[KEY];
  if (typeof kept !== 'string') return;
  const names = kept.split(' ');
  usePlotChoice.setState({ shown: PLOT_IDS.filter((id) => names.includes(id)) });
}

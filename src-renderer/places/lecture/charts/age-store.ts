import { create } from 'zustand';
import { MODEL_VERSION } from '../../../../physics/index.ts';
import { computeOnAllCores } from '../../../worker/sweep-client.ts';
import { cellsOf } from './age-chart.ts';
import { AGE_MEASURE_IDS, AGE_MEASURES, type AgeMeasure, USUAL_AGES_years } from './age-measures.ts';
import { type AgeAsked, type AgeValue, cellKey } from './cell-key.ts';
import { dropOldValues, keepValue, keptValues } from './kept-values.ts';

export interface AgeRun {
  readonly measure: AgeMeasure;
  readonly done: number;
  readonly of: number;
}

interface AgeState {
  readonly measure: AgeMeasure;
  readonly asked: Readonly<Record<AgeMeasure, AgeAsked>>;
  /** By cell key: of this version of the model only. */
  readonly values: ReadonlyMap<string, AgeValue>;
  /** The computation that goes on; null for none. */
  readonly run: AgeRun | null;
  readonly fault: string | null;
  /** False until what is kept has been looked up. */
  readonly looked: boolean;
  choose(measure: AgeMeasure): void;
  ask(asked: Partial<AgeAsked>): void;
  compute(): Promise<void>;
  cancel(): void;
  /** Takes what is kept for the chart shown. */
  look(): Promise<void>;
}

const usual = (measure: AgeMeasure): AgeAsked => ({
  ages_years: USUAL_AGES_years,
  pressures_mmHg: AGE_MEASURES[measure].pressures_mmHg,
  opening_mm: 4.5,
});

const USUAL = Object.fromEntries(AGE_MEASURE_IDS.map((id) => [id, usual(id)])) as Record<AgeMeasure, AgeAsked>;

let stop = new AbortController();

/** The charts over age of this window. A computation goes on while the person looks at something else. */
export const useAgeCharts = create<AgeState>((set, get) => ({
  measure: 'hold-angle',
  asked: USUAL,
  values: new Map(),
  run: null,
  fault: null,
  looked: false,
  choose: (measure) => {
    set({ measure, looked: false });
    void get().look();
  },
  ask: (asked) => {
    const { measure } = get();
    set((state) => ({ asked: { ...state.asked, [measure]: { ...state.asked[measure], ...asked } }, looked: false }));
    void get().look();
  },
  look: async () => {
    const { measure, asked } = get();
    const found = await keptValues(cellsOf(measure, asked[measure]));
    set((state) => ({ values: new Map([...found, ...state.values]), looked: true }));
    void dropOldValues();
  },
  compute: async () => {
    const { measure, asked, run } = get();
    if (run !== null) return;
    await get().look();
    await computeMissing(measure, asked[measure]);
  },
  cancel: () => stop.abort(),
}));

async function computeMissing(measure: AgeMeasure, asked: AgeAsked): Promise<void> {
  const { values } = useAgeCharts.getState();
  const missing = cellsOf(measure, asked).filter((cell) => {
    const value = values.get(cellKey(MODEL_VERSION, cell));
    return value === undefined || 'fault' in value;
  });
  if (missing.length === 0) return;
  stop = new AbortController();
  useAgeCharts.setState({ run: { measure, done: 0, of: missing.length }, fault: null });
  try {
    await computeOnAllCores(missing, stop.signal, ({ index, ...value }) => {
      const key = cellKey(MODEL_VERSION, missing[index]!);
      void keepValue(key, value);
      useAgeCharts.setState((state) => ({
        values: new Map([...state.values, [key, value]]),
        run: state.run && { ...state.run, done: state.run.done + 1 },
      }));
    });
  } catch (fault) {
    useAgeCharts.setState({ fault: fault instanceof Error ? fault.message : String(fault) });
  } finally {
    useAgeCharts.setState({ run: null });
  }
}

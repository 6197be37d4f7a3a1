import { create } from 'zustand';
import { checkScenario, type Scenario } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { problemWords } from '../ui/problem-words.ts';

interface OwnEyesState {
  /** Scenarios made on this machine that pass the check of files, by title. */
  readonly scenarios: readonly Scenario[];
  /** Lines about those that do not. */
  readonly problems: readonly string[];
  /** True once the program around the page has answered, or where there is none. */
  readonly loaded: boolean;
  /** Reads them anew. Never rejects: what goes wrong is in `problems`. */
  load(): Promise<void>;
  /** Keeps one under its id. Rejects with a line for the person. */
  save(scenario: Scenario): Promise<void>;
  remove(id: string): Promise<void>;
}

const byTitle = (scenarios: readonly Scenario[]): readonly Scenario[] =>
  scenarios.toSorted((a, b) => a.title.localeCompare(b.title) || (a.id < b.id ? -1 : 1));

function nameOf(data: unknown): string {
  const id = typeof data === 'object' && data !== null ? (data as { id?: unknown }).id : undefined;
  return typeof id === 'string' ? id : t('common.keeping.someScenario');
}

/**
 * The scenarios made on this machine, for every place that offers scenarios: call `load` once, then read `scenarios`.
 * What is kept is checked like any file before it is offered.
 */
export const useOwnEyes = create<OwnEyesState>((set, get) => ({
  scenarios: [],
  problems: [],
  loaded: false,
  load: async () => {
    const host = window.rimwardHost;
    if (host === undefined) return set({ loaded: true });
    try {
      const checked = (await host.listOwnScenarios()).map((data) => checkScenario(data, nameOf(data)));
      set({
        scenarios: byTitle(checked.flatMap((result) => (result.ok ? [result.value] : []))),
        problems: checked.flatMap((result) => (result.ok ? [] : result.problems.map(problemWords))),
        loaded: true,
      });
    } catch (fault) {
      set({ problems: [fault instanceof Error ? fault.message : String(fault)], loaded: true });
    }
  },
  save: async (scenario) => {
    const host = window.rimwardHost;
    if (host === undefined) throw new Error(t('common.keeping.noProgram'));
    await host.saveOwnScenario(scenario);
    const others = get().scenarios.filter(({ id }) => id !== scenario.id);
    set({ scenarios: byTitle([...others, scenario]) });
  },
  remove: async (id) => {
    await window.rimwardHost?.removeOwnScenario(id);
    set({ scenarios: get().scenarios.filter((one) => one.id !== id) });
  },
}));

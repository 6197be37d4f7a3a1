import { useMemo } from 'react';
import { create } from 'zustand';
import type { Scenario } from '../../../physics/index.ts';
import { t, useLanguage } from '../../i18n/text.ts';
import { useOwnEyes } from '../../stores/own-eyes.ts';
import { offeredScenarios, scenarioOfFile } from './offered-scenarios.ts';

interface ScenarioState {
  readonly shipped: readonly Scenario[];
  /** From files that the person opened since the start. */
  readonly opened: readonly Scenario[];
  readonly problems: readonly string[];
}

const { scenarios: shipped, problems } = offeredScenarios();

export const useScenarios = create<ScenarioState>(() => ({ shipped, opened: [], problems }));

/** A heading and the scenarios under it. */
export interface ScenarioGroup {
  readonly heading: string;
  readonly scenarios: readonly Scenario[];
}

/** Upper ages of the groups, years. */
const INFANT_years = 2;
const CHILD_years = 18;

function groupsOf(
  { shipped: ours, opened }: Pick<ScenarioState, 'shipped' | 'opened'>,
  own: readonly Scenario[],
): readonly ScenarioGroup[] {
  const aged = (from: number, to: number) => ours.filter(({ eye }) => eye.age_years >= from && eye.age_years < to);
  return [
    { heading: t('bench.chooser.infants'), scenarios: aged(0, INFANT_years) },
    { heading: t('bench.chooser.children'), scenarios: aged(INFANT_years, CHILD_years) },
    { heading: t('bench.chooser.adults'), scenarios: aged(CHILD_years, Number.POSITIVE_INFINITY) },
    { heading: t('bench.chooser.madeHere'), scenarios: own },
    { heading: t('bench.chooser.fromFiles'), scenarios: opened },
  ].filter(({ scenarios }) => scenarios.length > 0);
}

/** Everything that can be worked on, by age; then what was made on this machine and what came from files. */
export function useScenarioGroups(): readonly ScenarioGroup[] {
  const state = useScenarios();
  const own = useOwnEyes((eyes) => eyes.scenarios);
  const language = useLanguage((one) => one.language);
  // the headings are in the language
  return useMemo(() => groupsOf(state, own), [state, own, language]);
}

/** The scenario of that id, the person's own before a shipped one; null where there is none. */
export function scenarioById(id: string): Scenario | null {
  const state = useScenarios.getState();
  const all = [...state.opened, ...useOwnEyes.getState().scenarios, ...state.shipped];
  return all.find((scenario) => scenario.id === id) ?? null;
}

/** Offers a scenario from a file's text from now on. Null, and every problem as a line in the store, where it has faults. */
export function offerFile(text: string, file: string): Scenario | null {
  const { scenario, problems: found } = scenarioOfFile(text, file);
  useScenarios.setState({ problems: found });
  if (scenario !== null) {
    useScenarios.setState(({ opened }) => ({ opened: [...opened.filter(({ id }) => id !== scenario.id), scenario] }));
  }
  return scenario;
}

/** Lets the person choose a scenario file. Null when they chose none or it has problems. */
export async function openScenarioFile(): Promise<Scenario | null> {
  try {
    const file = await window.rimwardHost?.openTextFile();
    return file === undefined || file === null ? null : offerFile(file.text, file.name);
  } catch (fault) {
    useScenarios.setState({ problems: [fault instanceof Error ? fault.message : t('bench.chooser.notOpened')] });
    return null;
  }
}

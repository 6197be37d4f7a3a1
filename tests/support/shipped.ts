/** Eyes and hands that ship, checked as any file is, for tests that play them. */
import {
  type AttemptResult,
  type Hand,
  parseHand,
  parseScenario,
  type Result,
  runHand,
  type Scenario,
} from '../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS, type ShippedFile } from '../../scenarios/shipped.ts';

const sound = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

function dataOf(files: readonly ShippedFile[], id: string): ShippedFile {
  const known = files.find((file) => file.id === id);
  if (known === undefined) throw new Error(`no shipped file: ${id}`);
  return known;
}

/** An eye, changed as asked and checked after that. */
export function scenarioOf(id: string, change: (data: Scenario) => Scenario = (data) => data): Scenario {
  const { data, file } = dataOf(SHIPPED_SCENARIOS, id);
  return sound(parseScenario(JSON.stringify(change(data as Scenario)), file));
}

export const shippedScenarios = (): readonly Scenario[] => SHIPPED_SCENARIOS.map(({ id }) => scenarioOf(id));

export function handOf(id: string): Hand {
  const { data, file } = dataOf(SHIPPED_HANDS, id);
  return sound(parseHand(JSON.stringify(data), file));
}

export const play = (scenario: string, hand: string): AttemptResult => runHand(scenarioOf(scenario), handOf(hand));

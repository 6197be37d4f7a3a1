/** Eyes and hands, shipped ones and drafts, checked as any file is, for tests that play them. */
import { existsSync, readFileSync } from 'node:fs';
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

/** A shipped file, or a draft of that id. */
function dataOf(files: readonly ShippedFile[], id: string): ShippedFile {
  const known = files.find((file) => file.id === id);
  if (known !== undefined) return known;
  const draft = new URL(`../../scenarios/drafts/${id}.json`, import.meta.url);
  if (!existsSync(draft)) throw new Error(`neither a shipped file nor a draft: ${id}`);
  return { id, file: `scenarios/drafts/${id}.json`, data: JSON.parse(readFileSync(draft, 'utf8')) };
}

/** An eye, changed as asked and checked after that. */
export function scenarioOf(id: string, change: (data: Scenario) => Scenario = (data) => data): Scenario {
  const { data, file } = dataOf(SHIPPED_SCENARIOS, id);
  return sound(parseScenario(JSON.stringify(change(data as Scenario)), file));
}

export function handOf(id: string): Hand {
  const { data, file } = dataOf(SHIPPED_HANDS, id);
  return sound(parseHand(JSON.stringify(data), file));
}

export const play = (scenario: string, hand: string): AttemptResult => runHand(scenarioOf(scenario), handOf(hand));

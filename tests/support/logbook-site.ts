import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  type AttemptResult,
  checkHand,
  checkScenario,
  type HandCommand,
  MODEL_VERSION,
  runHand,
  type Scenario,
} from '../../physics/index.ts';
import type { Person, RimwardHost } from '../../src-main/ipc/contract.ts';

const ROOT = join(import.meta.dirname, '..', '..');

/** An attempt that the model computed: its commands, played again, give its digest. */
export interface RealAttempt {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly commands: readonly HandCommand[];
  readonly result: AttemptResult;
}

const shipped = (path: string): unknown => JSON.parse(readFileSync(join(ROOT, 'scenarios', `${path}.json`), 'utf8'));

/** Plays a shipped hand in a shipped scenario; seconds of computing. Seeds differ in tremor only. */
export function playReal(scenarioId: string, handId: string, seed?: number): RealAttempt {
  const scenario = checkScenario(shipped(scenarioId), scenarioId);
  const hand = checkHand(shipped(`hands/${handId}`), handId);
  if (!scenario.ok || !hand.ok) throw new Error(`a shipped file is not sound: ${scenarioId}, ${handId}`);
  const commands: HandCommand[] = [];
  const used = seed ?? scenario.value.seed;
  const result = runHand(scenario.value, hand.value, { seed: used, onCommand: (command) => commands.push(command) });
  return { scenario: scenario.value, seed: used, commands, result };
}

/** Puts an attempt into a store as the page does. @returns its id; with `cut` it is left unfinished there */
export async function putAttempt(
  host: Partial<RimwardHost>,
  person: Person,
  { scenario, seed, commands, result }: RealAttempt,
  place: 'bench' | 'trial' = 'trial',
  cut: number | null = null,
): Promise<string> {
  const started = await must(host.beginAttempt)({
    personId: person.id,
    place,
    scenario,
    seed,
    modelVersion: MODEL_VERSION,
  });
  await must(host.appendCommands)(started, 0, cut === null ? commands : commands.slice(0, cut));
  if (cut === null) await must(host.finishAttempt)(started, result);
  return started;
}

/** A call that this shell is expected to offer. */
export function must<T>(call: T | undefined): T {
  if (call === undefined) throw new Error('the shell under test does not offer this call');
  return call;
}

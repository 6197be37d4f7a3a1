import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import {
  bad,
  checkHand,
  checkScenario,
  type Hand,
  parseHand,
  parseScenario,
  type Result,
  type Scenario,
} from '../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS, type ShippedFile } from '../../scenarios/shipped.ts';
import { phrase } from '../words/problem-words.ts';
import { readTextFile } from './read-text-file.ts';

function find<T>(
  name: string,
  shipped: readonly ShippedFile[],
  check: (data: unknown, file: string) => Result<T>,
  parse: (text: string, file: string) => Result<T>,
): Result<T> {
  const known = shipped.find((one) => one.id === name);
  if (known !== undefined) return check(known.data, known.file);
  if (!existsSync(name) && basename(name) === name) {
    const allowed = phrase('fileOrId', { text: shipped.map((one) => one.id).join(', ') });
    return bad([{ file: name, path: '', found: phrase('noSuchId'), allowed }]);
  }
  const text = readTextFile(name);
  return text.ok ? parse(text.value, name) : text;
}

/** A shipped scenario by its id, else a scenario file. */
export const findScenario = (name: string): Result<Scenario> =>
  find(name, SHIPPED_SCENARIOS, checkScenario, parseScenario);

/** A shipped hand by its id, else a hand file. */
export const findHand = (name: string): Result<Hand> => find(name, SHIPPED_HANDS, checkHand, parseHand);

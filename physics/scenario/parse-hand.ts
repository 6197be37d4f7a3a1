import { bad, ok, type Problem, type Result } from '../core/result.ts';
import type { Hand } from './hand.ts';
import { handSchema } from './hand-schema.ts';
import { capProblems, parseJsonText, problemsOf, valueAt, versionProblem } from './json-problems.ts';
import type { Scenario } from './scenario.ts';

/**
 * Reads a hand file of version 1, a recorded track or a guided program.
 *
 * @param text the whole file, at most 20 million characters and 200,000 samples
 * @param file name as the person gave it, for the problems
 * @returns the hand, every number finite; or all problems at once (the first 200). Never throws.
 */
export function parseHand(text: string, file: string): Result<Hand> {
  const json = parseJsonText(text, file);
  return json.ok ? checkHand(json.value, file) : json;
}

/** As parseHand, for JSON that is parsed already, such as a shipped hand inside a bundle. Does not change it. */
export function checkHand(value: unknown, file: string): Result<Hand> {
  const version = versionProblem(value, 'rimwardHand', file);
  if (version !== null) return bad([version]);
  const parsed = handSchema.safeParse(value);
  const single = parsed.success ? [] : problemsOf(parsed.error.issues, value, file);
  const problems = [...single, ...ruleProblems(value, file)];
  if (!parsed.success || problems.length > 0) return bad(capProblems(problems, file));
  const { $schema: _forEditors, ...hand } = parsed.data;
  return ok(hand);
}

function ruleProblems(root: unknown, file: string): Problem[] {
  const problems = [
    ...risingProblems(valueAt(root, ['samples']), 'samples', 't_s', file),
    ...risingProblems(valueAt(root, ['pullAngle_deg']), 'pullAngle_deg', 0, file),
  ];
  const low = valueAt(root, ['follow', 'minAngle_deg']);
  const high = valueAt(root, ['follow', 'maxAngle_deg']);
  if (typeof low === 'number' && typeof high === 'number' && low > high) {
    problems.push({ file, path: 'follow.minAngle_deg', found: `${low}`, allowed: `at most maxAngle_deg, ${high}` });
  }
  return problems;
}

/** Each item's key must be larger than that of the item before it. */
function risingProblems(list: unknown, name: string, key: string | number, file: string): Problem[] {
  if (!Array.isArray(list)) return [];
  const problems: Problem[] = [];
  for (let index = 1; index < list.length; index++) {
    const before = valueAt(list[index - 1], [key]);
    const here = valueAt(list[index], [key]);
    if (typeof before !== 'number' || typeof here !== 'number' || here > before) continue;
    const path = typeof key === 'number' ? `${name}[${index}][${key}]` : `${name}[${index}].${key}`;
    problems.push({ file, path, found: `${here}`, allowed: `above ${before}, the one before it` });
  }
  return problems;
}

/**
 * Whether a hand can be played in a scenario: its incisions exist, and a guided hand begins as the scenario does.
 *
 * @param file the hand's file name, for the problems
 * @returns all problems (the first 200); empty when it fits
 */
export function handMisfits(hand: Hand, scenario: Scenario, file: string): readonly Problem[] {
  if (hand.kind === 'guided') {
    if (hand.start === scenario.start.kind) return [];
    const allowed = `${JSON.stringify(scenario.start.kind)}, as scenario ${scenario.id} begins`;
    return [{ file, path: 'start', found: JSON.stringify(hand.start), allowed }];
  }
  const last = scenario.incisions.length - 1;
  const problems = hand.samples.flatMap(({ incision }, index) => {
    if (incision <= last) return [];
    const allowed = `0 to ${last}, the incisions of scenario ${scenario.id}`;
    return [{ file, path: `samples[${index}].incision`, found: `${incision}`, allowed }];
  });
  return capProblems(problems, file);
}

import { bad, ok, type Result } from '../core/result.ts';
import { zonuleFreeDiameterAt } from '../eye/age.ts';
import { capProblems, parseJsonText, problemsOf, versionProblem } from './json-problems.ts';
import type { Scenario } from './scenario.ts';
import { scenarioRuleProblems, type ZonuleFreeDiameterAt } from './scenario-rules.ts';
import { scenarioSchema } from './scenario-schema.ts';

/**
 * Reads a scenario file of version 1.
 *
 * @param text the whole file, at most 20 million characters
 * @param file name as the person gave it, for the problems
 * @param freeAt age in years and stiffness preset to the zonule-free diameter, mm; target, line and start must lie inside.
 *   The model's own when left out
 * @returns the scenario with defaults filled in, every number finite; or all problems at once (the first 200). Never throws.
 */
export function parseScenario(
  text: string,
  file: string,
  freeAt: ZonuleFreeDiameterAt = zonuleFreeDiameterAt,
): Result<Scenario> {
  const json = parseJsonText(text, file);
  return json.ok ? checkScenario(json.value, file, freeAt) : json;
}

/** As parseScenario, for JSON that is parsed already, such as a shipped scenario inside a bundle. Does not change it. */
export function checkScenario(
  value: unknown,
  file: string,
  freeAt: ZonuleFreeDiameterAt = zonuleFreeDiameterAt,
): Result<Scenario> {
  const version = versionProblem(value, 'rimwardScenario', file);
  if (version !== null) return bad([version]);
  const parsed = scenarioSchema.safeParse(value);
  const single = parsed.success ? [] : problemsOf(parsed.error.issues, value, file);
  const problems = [...single, ...scenarioRuleProblems(value, single, file, freeAt)];
  if (!parsed.success || problems.length > 0) return bad(capProblems(problems, file));
  const { $schema: _forEditors, ...scenario } = parsed.data;
  return ok(scenario);
}

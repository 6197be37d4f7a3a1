import { checkScenario, formatProblem, parseScenario, type Scenario } from '../../../physics/index.ts';
import { SHIPPED_SCENARIOS } from '../../../scenarios/shipped.ts';

/** The shipped scenarios through the same check as any other file. One that does not pass is left out and named. */
export function offeredScenarios(): { readonly scenarios: readonly Scenario[]; readonly problems: readonly string[] } {
  const checked = SHIPPED_SCENARIOS.map(({ data, file }) => checkScenario(data, file));
  return {
    scenarios: checked.flatMap((result) => (result.ok ? [result.value] : [])),
    problems: checked.flatMap((result) => (result.ok ? [] : result.problems.map(formatProblem))),
  };
}

/** A scenario from a file that the person chose: either the scenario, or every problem of the file as a line. */
export function scenarioOfFile(
  text: string,
  file: string,
): { readonly scenario: Scenario | null; readonly problems: readonly string[] } {
  const result = parseScenario(text, file);
  return result.ok
    ? { scenario: result.value, problems: [] }
    : { scenario: null, problems: result.problems.map(formatProblem) };
}

import { checkScenario, eyeAt, formatProblem, parseScenario, type Scenario } from '../../../physics/index.ts';
import { SHIPPED_SCENARIOS } from '../../../scenarios/shipped.ts';

const zonuleFreeDiameterAt: Parameters<typeof checkScenario>[2] = (age_years, stiffnessPreset) =>
  eyeAt(age_years, { stiffnessPreset, dyed: false }).zonuleFreeDiameter_mm;

/** The shipped scenarios through the same check as any other file. One that does not pass is left out and named. */
export function offeredScenarios(): { readonly scenarios: readonly Scenario[]; readonly problems: readonly string[] } {
  const checked = SHIPPED_SCENARIOS.map(({ data, file }) => checkScenario(data, file, zonuleFreeDiameterAt));
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
  const result = parseScenario(text, file, zonuleFreeDiameterAt);
  return result.ok
    ? { scenario: result.value, problems: [] }
    : { scenario: null, problems: result.problems.map(formatProblem) };
}

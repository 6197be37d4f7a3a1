import { checkScenario, eyeAt, formatProblem, type Scenario } from '../../../physics/index.ts';
import { SHIPPED_SCENARIOS } from '../../../scenarios/shipped.ts';

/** The shipped scenarios through the same check as any other file. One that does not pass is left out and named. */
export function offeredScenarios(): { readonly scenarios: readonly Scenario[]; readonly problems: readonly string[] } {
  const zonuleFreeDiameterAt: Parameters<typeof checkScenario>[2] = (age_years, stiffnessPreset) =>
    eyeAt(age_years, { stiffnessPreset, dyed: false }).zonuleFreeDiameter_mm;
  const checked = SHIPPED_SCENARIOS.map(({ data, file }) => checkScenario(data, file, zonuleFreeDiameterAt));
  return {
    scenarios: checked.flatMap((result) => (result.ok ? [result.value] : [])),
    problems: checked.flatMap((result) => (result.ok ? [] : result.problems.map(formatProblem))),
  };
}

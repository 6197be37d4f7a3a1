import type { StoredAttempt } from '../ipc/contract.ts';
import { scenarioDigest } from '../store/seal.ts';
import type { ReadAttempt } from './attempt-file.ts';

/** An attempt from a file in the form in which the store gives it; it has no id of its own. */
export function storedFromFile(read: ReadAttempt): StoredAttempt {
  const { person, place, startedAt, endedAt, scenario, seed, modelVersion, commands, result, seal } = read;
  const { ended, passed, opening, work, graded, digest } = result;
  return {
    summary: {
      id: '',
      personId: person.id,
      personName: person.name,
      place,
      scenarioId: scenario.id,
      scenarioTitle: scenario.title,
      scenarioDigest: scenarioDigest(scenario),
      seed,
      modelVersion,
      startedAt,
      endedAt,
      steps: commands.length,
      ended,
      passed,
      opening,
      work,
      graded,
      digest,
      seal,
      replay: 'not-tried',
      fromBundle: null,
    },
    scenario,
    commands,
    result,
  };
}

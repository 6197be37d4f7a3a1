/** Gathers from the store what a person's report is made of. */
import { Refusal } from '../ipc/answer.ts';
import { listAttempts, openingShapes } from '../store/attempt-list.ts';
import { loadAttempt } from '../store/attempts.ts';
import { findPerson } from '../store/people.ts';
import type { Database } from '../store/sqlite.ts';
import type { PersonReport } from './person-report.ts';

/**
 * One person's attempts in one scenario, with the eye as it was played last. Refuses a person who is not here and a scenario that
 * the person has not played.
 */
export function personReportData(
  database: Database,
  personId: string,
  scenarioId: string,
): Pick<PersonReport, 'personName' | 'scenario' | 'attempts' | 'shapes'> {
  const person = findPerson(database, personId);
  if (person === null) throw new Refusal('There is no such person here.');
  const filter = { personId, scenarioId };
  const attempts = listAttempts(database, filter);
  const [last] = attempts;
  if (last === undefined) throw new Refusal(`${person.name} has no attempt in ${scenarioId}.`);
  const { scenario } = loadAttempt(database, last.id);
  return { personName: person.name, scenario, attempts, shapes: openingShapes(database, filter) };
}

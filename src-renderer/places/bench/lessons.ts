import { LESSONS } from '../../../scenarios/lessons.ts';

/** What a scenario teaches, Markdown; null where it has no lesson. */
export const lessonOf = (scenarioId: string): string | null =>
  Object.hasOwn(LESSONS, scenarioId) ? (LESSONS[scenarioId] ?? null) : null;

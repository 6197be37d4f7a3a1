/** What a scenario teaches, Markdown; null where it has no lesson. */
export const lessonOf = (_scenarioId: string): string | null => null;

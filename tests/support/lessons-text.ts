/** The lessons as one module that page, command line and tests can load alike, made from the Markdown files. */
import { readdirSync, readFileSync } from 'node:fs';

const folder = new URL('../../scenarios/lessons/', import.meta.url);

/** Text of scenarios/lessons.ts for the lessons as they stand on disk, in the order of their names. */
export function lessonsModule(): string {
  const names = readdirSync(folder).filter((name) => name.endsWith('.md'));
  const entries = names.sort().map((name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const id = name.slice(0, -3);
    const key = /^[a-z]+$/.test(id) ? id : `'${id}'`;
    return `  ${key}: \`${text.replace(/[\\`$]/g, '\\$&')}\`,\n`;
  });
  return `/** Lessons by the id of their scenario, Markdown. Made from lessons/*.md by tests/support/write-lessons.ts. */
export const LESSONS: Readonly<Record<string, string>> = {
${entries.join('')}};
`;
}

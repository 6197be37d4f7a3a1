/** Writes scenarios/lessons.ts from the Markdown files beside it. Run from the project's root after a change of a lesson. */
import { writeFileSync } from 'node:fs';
import { lessonsModule } from './lessons-text.ts';

writeFileSync(new URL('../../scenarios/lessons.ts', import.meta.url), lessonsModule());
console.log('scenarios/lessons.ts');

/** Writes the JSON Schemas beside the scenarios. Run from the project's root after a change of a schema. */
import { writeFileSync } from 'node:fs';
import { jsonSchemaFiles } from '../../physics/scenario/json-schema.ts';

for (const [name, text] of Object.entries(jsonSchemaFiles())) {
  writeFileSync(new URL(`../../scenarios/${name}`, import.meta.url), text);
  console.log(`scenarios/${name}`);
}

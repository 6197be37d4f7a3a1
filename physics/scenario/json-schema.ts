import { z } from 'zod';
import { handSchema } from './hand-schema.ts';
import { scenarioSchema } from './scenario-schema.ts';

/** File name to JSON Schema text (draft 2020-12) of the files this program reads, for editors and other programs. */
export function jsonSchemaFiles(): Readonly<Record<'scenario.schema.json' | 'hand.schema.json', string>> {
  // `input`: keys with a default may be absent from a file.
  const text = (schema: z.ZodType) => `${JSON.stringify(z.toJSONSchema(schema, { io: 'input' }), null, 2)}\n`;
  return { 'scenario.schema.json': text(scenarioSchema), 'hand.schema.json': text(handSchema) };
}

import { z } from 'zod';
import { MOST_COMMANDS, modelVersion, place, result, scenario, seed } from '../ipc/attempt-schema.ts';
import { person } from '../ipc/store-messages.ts';

/**
 * A bundle: gzip over lines of JSON, one thing a line. First the header, then people, scenarios and attempts, a person
 * and a scenario before the attempts that name them; last the end, without which the bundle is cut short.
 */
export const BUNDLE_ENDING = 'rimward-bundle';
export const BUNDLE_VERSION = 1;

/** What is refused before it is read whole. Assumed: a class of 40 with 500 attempts each, and room for long ones. */
export interface BundleLimits {
  readonly file_bytes: number;
  /** After decompression. */
  readonly text_bytes: number;
  readonly line_bytes: number;
  /** Decompressed over compressed, once the text is longer than `ratioFrom_bytes`; ours is about 3. */
  readonly ratio: number;
  readonly ratioFrom_bytes: number;
  readonly attempts: number;
  readonly people: number;
  readonly scenarios: number;
}

export const BUNDLE_LIMITS: BundleLimits = {
  file_bytes: 400_000_000,
  text_bytes: 2_000_000_000,
  line_bytes: 16_000_000,
  ratio: 50,
  ratioFrom_bytes: 20_000_000,
  attempts: 20_000,
  people: 2000,
  scenarios: 2000,
};

const sha = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in hexadecimal');
const time = z.iso.datetime();

export const header = z.object({
  rimwardBundle: z.literal(BUNDLE_VERSION),
  program: z.string().max(60),
  madeAt: time,
  attempts: z.int().min(0),
});

const personLine = z.strictObject({ kind: z.literal('person'), ...person.shape });
const scenarioLine = z.strictObject({ kind: z.literal('scenario'), digest: sha, scenario });
const attemptLine = z.strictObject({
  kind: z.literal('attempt'),
  id: z.uuid(),
  personId: z.uuid(),
  place,
  scenarioDigest: sha,
  seed,
  modelVersion,
  startedAt: time,
  endedAt: time,
  steps: z.int().min(0).max(MOST_COMMANDS),
  /** Packed as in the store, base64. */
  commands: z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/, 'base64'),
  result,
  seal: sha,
});
const endLine = z.strictObject({ kind: z.literal('end'), attempts: z.int().min(0) });

export const bundleLine = z.discriminatedUnion('kind', [personLine, scenarioLine, attemptLine, endLine]);

export type PersonLine = z.infer<typeof personLine>;
export type ScenarioLine = z.infer<typeof scenarioLine>;
export type AttemptLine = z.infer<typeof attemptLine>;

import { deflateSync, inflateSync } from 'node:zlib';
import type { AttemptResult, HandCommand, Scenario } from '../../physics/index.ts';
import { result as resultSchema, scenario as scenarioSchema } from '../ipc/attempt-schema.ts';
import { entryFits, summaryText } from './entry.ts';
import { packOutline, thinned } from './outline.ts';
import { unpackCommands } from './pack-commands.ts';
import { canonicalJson, sealOfTexts, sha256 } from './seal.ts';
import type { Database, Row } from './sqlite.ts';

/** Largest text of a result, bytes. */
const LARGEST_RESULT = 32_000_000;

export const packResult = (result: AttemptResult): Uint8Array => deflateSync(canonicalJson(result));

/** Everything that is stored of one attempt besides its line; what cannot be read is null, or the commands up to there. */
export interface AttemptContent {
  readonly scenario: Scenario | null;
  readonly commands: readonly HandCommand[];
  readonly commandsWhole: boolean;
  readonly result: AttemptResult | null;
  readonly resultText: string | null;
  /** Digest over the bytes of commands, result and outline as they lie in the file. */
  readonly storedDigest: string;
}

/** Digest over bytes as they are stored. */
export const storedDigestOf = (
  commands: readonly Uint8Array[],
  result: Uint8Array | null,
  outline: Uint8Array | null,
): string =>
  sha256(
    JSON.stringify([...commands, result, outline].map((bytes) => bytes?.length ?? null)),
    ...commands,
    result ?? '',
    outline ?? '',
  );

function readScenario(text: unknown): Scenario | null {
  try {
    const data: unknown = JSON.parse(String(text));
    return scenarioSchema.safeParse(data).success ? (data as Scenario) : null;
  } catch {
    return null;
  }
}

function readResult(packed: Uint8Array | null): { result: AttemptResult | null; resultText: string | null } {
  if (packed === null) return { result: null, resultText: null };
  try {
    const resultText = inflateSync(packed, { maxOutputLength: LARGEST_RESULT }).toString('utf8');
    const data: unknown = JSON.parse(resultText);
    return { result: resultSchema.safeParse(data).success ? (data as AttemptResult) : null, resultText };
  } catch {
    return { result: null, resultText: null };
  }
}

function readCommands(chunks: readonly Row[]): { commands: HandCommand[]; commandsWhole: boolean } {
  const commands: HandCommand[] = [];
  for (const { from_step, packed } of chunks) {
    // A gap: what comes after it cannot be played.
    if (from_step !== commands.length) return { commands, commandsWhole: false };
    try {
      for (const command of unpackCommands(packed as Uint8Array)) commands.push(command);
    } catch {
      return { commands, commandsWhole: false };
    }
  }
  return { commands, commandsWhole: true };
}

const bytesOrNull = (value: Row[string] | undefined): Uint8Array | null => (value instanceof Uint8Array ? value : null);

/** Reads an attempt by its row number; `digest` names its scenario. */
export function readContent(database: Database, number: number, digest: string): AttemptContent {
  const chunks = database.all('SELECT from_step, packed FROM commands WHERE attempt = ? ORDER BY from_step', number);
  const result = bytesOrNull(database.value('SELECT packed FROM results WHERE attempt = ?', number));
  const outline = bytesOrNull(database.value('SELECT outline FROM shapes WHERE attempt = ?', number));
  return {
    scenario: readScenario(database.value('SELECT text FROM scenarios WHERE digest = ?', digest)),
    ...readCommands(chunks),
    ...readResult(result),
    storedDigest: storedDigestOf(
      chunks.map((chunk) => chunk.packed as Uint8Array),
      result,
      outline,
    ),
  };
}

/** The outline as it is stored beside a result, null when the opening is not complete. */
export const shapeOf = (result: AttemptResult): Uint8Array | null =>
  result.outline_mm === null ? null : packOutline(thinned(result.outline_mm));

/**
 * Whether everything stored of a sealed attempt still fits: its line, the bytes, the scenario's digest, the line's
 * agreement with the result, and the seal over it all.
 */
export function sealFits(row: Row, content: AttemptContent): boolean {
  const { scenario, commands, commandsWhole, result, resultText, storedDigest } = content;
  if (!entryFits(row) || storedDigest !== row.stored_digest) return false;
  if (scenario === null || result === null || !commandsWhole || commands.length !== row.steps) return false;
  try {
    const scenarioText = canonicalJson(scenario);
    if (sha256(scenarioText) !== row.scenario_digest || row.scenario_id !== scenario.id) return false;
    if (row.title !== scenario.title) return false;
    if (resultText !== canonicalJson(result) || row.summary !== summaryText(result)) return false;
    const about = {
      personId: String(row.person_id),
      place: String(row.place),
      startedAt: String(row.started_at),
      endedAt: String(row.ended_at),
      seed: Number(row.seed),
      modelVersion: String(row.model_version),
      commands,
    };
    return sealOfTexts(about, scenarioText, resultText) === row.seal;
  } catch {
    return false;
  }
}

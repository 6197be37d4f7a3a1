import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { AttemptResult, HandCommand, Scenario } from '../../physics/index.ts';

/** SHA-256, hexadecimal. */
export function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
}

/** True for numbers and lists of them, however deep: their text in canonical JSON is what `JSON.stringify` makes of it. */
const isNumbers = (value: unknown): boolean =>
  Array.isArray(value) ? value.every(isNumbers) : typeof value === 'number' && Number.isFinite(value);

/**
 * Canonical JSON after RFC 8785: one text per content, whoever wrote it. Throws for NaN, infinities, half characters and
 * nothing at all. Lists of numbers, most of what an attempt is, are written in one go; the library takes ten times as
 * long over them.
 */
export function canonicalJson(value: unknown): string {
  if (isNumbers(value)) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).filter(([, one]) => one !== undefined);
    entries.sort(([one], [other]) => (one < other ? -1 : 1));
    return `{${entries.map(([key, one]) => `${canonicalJson(key)}:${canonicalJson(one)}`).join(',')}}`;
  }
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('nothing to write as JSON');
  return text;
}

/** Digest of a scenario as it was played. */
export const scenarioDigest = (scenario: Scenario): string => sha256(canonicalJson(scenario));

/** What the seal is over: everything that says who did what in which eye, and what came of it. */
export interface SealedContent {
  readonly personId: string;
  readonly place: string;
  readonly startedAt: string;
  readonly endedAt: string;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly modelVersion: string;
  readonly commands: readonly HandCommand[];
  readonly result: AttemptResult;
}

/** A command as a list, in the order in which files and seals have it. */
export const commandRow = ({ x_mm, y_mm, lift_mm, jaws, instrument, incision }: HandCommand) =>
  [x_mm, y_mm, lift_mm, jaws, instrument, incision] as const;

/** The commands' part, a list per step; numbers as canonical JSON has them, which is how `JSON.stringify` writes them. */
const commandsText = (commands: readonly HandCommand[]): string => JSON.stringify(commands.map(commandRow));

/**
 * The seal of a finished attempt: SHA-256 over the canonical JSON of its content, each part on a line of its own.
 * It shows that something was changed; it is no signature, and whoever changes an attempt can make a new one.
 * Playing the commands again is what proves the result.
 *
 * @returns hexadecimal
 */
export const sealOf = (content: SealedContent): string =>
  sealOfTexts(content, canonicalJson(content.scenario), canonicalJson(content.result));

/** As `sealOf`, where the canonical JSON of the scenario and of the result is at hand: making it is most of the work. */
export function sealOfTexts(
  content: Omit<SealedContent, 'scenario' | 'result'>,
  scenarioText: string,
  resultText: string,
): string {
  const { personId, place, startedAt, endedAt, seed, modelVersion, commands } = content;
  return sha256(
    canonicalJson({ rimwardSeal: 1, personId, place, startedAt, endedAt, seed, modelVersion }),
    '\n',
    scenarioText,
    '\n',
    commandsText(commands),
    '\n',
    resultText,
    '\n',
  );
}

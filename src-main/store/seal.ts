import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { AttemptResult, HandCommand, Scenario } from '../../physics/index.ts';

/** SHA-256, hexadecimal. */
export function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
}

/** Canonical JSON after RFC 8785: one text per content, whoever wrote it. Throws for NaN, infinities and half characters. */
export function canonicalJson(value: unknown): string {
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

/** The commands' part, a list per step; numbers as canonical JSON has them, which is how `JSON.stringify` writes them. */
const commandsText = (commands: readonly HandCommand[]): string =>
  JSON.stringify(
    commands.map(({ x_mm, y_mm, lift_mm, jaws, instrument, incision }) => [
      x_mm,
      y_mm,
      lift_mm,
      jaws,
      instrument,
      incision,
    ]),
  );

/**
 * The seal of a finished attempt: SHA-256 over the canonical JSON of its content, each part on a line of its own.
 * It shows that something was changed; it is no signature, and whoever changes an attempt can make a new one.
 * Playing the commands again is what proves the result.
 *
 * @returns hexadecimal
 */
export function sealOf(content: SealedContent): string {
  const { personId, place, startedAt, endedAt, scenario, seed, modelVersion, commands, result } = content;
  return sha256(
    canonicalJson({ rimwardSeal: 1, personId, place, startedAt, endedAt, seed, modelVersion }),
    '\n',
    canonicalJson(scenario),
    '\n',
    commandsText(commands),
    '\n',
    canonicalJson(result),
    '\n',
  );
}

/**
 * One finished attempt as a file: everything that is needed to play it again and to print its report. The text is written in one
 * way only, so that any changed byte shows: either the file cannot be read, or it is not the text that its content would give.
 */
import { z } from 'zod';
import {
  type AttemptResult,
  bad,
  checkScenario,
  type HandCommand,
  ok,
  type Problem,
  type Result,
  type Scenario,
} from '../../physics/index.ts';
import * as schema from '../ipc/attempt-schema.ts';
import type { AttemptPlace, SealState } from '../ipc/contract.ts';
import { canonicalJson, commandRow, sealOf, sha256 } from '../store/seal.ts';
import { phrase } from '../words/problem-words.ts';

/** A finished attempt on its own, outside the store. */
export interface AttemptFile {
  readonly person: { readonly id: string; readonly name: string };
  readonly place: AttemptPlace;
  /** ISO 8601, UTC. */
  readonly startedAt: string;
  readonly endedAt: string;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly modelVersion: string;
  readonly commands: readonly HandCommand[];
  readonly result: AttemptResult;
}

export interface ReadAttempt extends AttemptFile {
  readonly seal: SealState;
}

/** Versions of the file that can be read. 1 is the form in which the bench keeps an attempt: it has no seal and no result. */
const SEALED_VERSION = 2;

/** The text of an attempt's file: one value a line, one line per command, the digest of all before it at the end. */
export function attemptFileText(attempt: AttemptFile): string {
  const { person, place, startedAt, endedAt, scenario, seed, modelVersion, commands, result } = attempt;
  const seal = sealOf({ ...attempt, personId: person.id });
  const head = { person, place, startedAt, endedAt, seed, modelVersion, seal };
  const lines = Object.entries(head).map(([key, value]) => `"${key}":${canonicalJson(value)},`);
  const body = [
    `{"rimwardAttempt":${SEALED_VERSION},`,
    ...lines,
    `"scenario":${canonicalJson(scenario)},`,
    `"result":${canonicalJson(result)},`,
    '"commands":[',
    `${commands.map((command) => JSON.stringify(commandRow(command))).join(',\n')}],`,
  ].join('\n');
  return `${body}\n"fileDigest":"${sha256(body)}"}\n`;
}

const commandRowSchema = z.tuple([
  schema.command.shape.x_mm,
  schema.command.shape.y_mm,
  schema.command.shape.lift_mm,
  schema.command.shape.jaws,
  schema.command.shape.instrument,
  schema.command.shape.incision,
]);

const hexadecimal = z.string().regex(/^[0-9a-f]{64}$/, phrase('hexadecimal'));

const fileSchema = z.strictObject({
  rimwardAttempt: z.literal(SEALED_VERSION),
  person: z.strictObject({ id: z.string().max(80), name: z.string().min(1).max(80) }),
  place: schema.place,
  startedAt: z.iso.datetime(),
  endedAt: z.iso.datetime(),
  seed: schema.seed,
  modelVersion: schema.modelVersion,
  seal: hexadecimal,
  scenario: z.looseObject({}),
  result: schema.result,
  commands: z.array(commandRowSchema).max(schema.MOST_COMMANDS),
  fileDigest: hexadecimal,
});

const MOST_PROBLEMS = 20;

function parsedJson(text: string, file: string): Result<unknown> {
  try {
    return ok(JSON.parse(text));
  } catch (fault) {
    const message = fault instanceof Error ? fault.message.split('\n')[0].slice(0, 120) : 'unreadable';
    return bad([{ file, path: '', found: `no JSON (${message})`, allowed: phrase('attemptFile') }]);
  }
}

const versionOf = (json: unknown): unknown =>
  typeof json === 'object' && json !== null ? (json as Record<string, unknown>).rimwardAttempt : undefined;

function shapeProblems(fault: z.ZodError, file: string): readonly Problem[] {
  return fault.issues.slice(0, MOST_PROBLEMS).map((issue) => ({
    file,
    path: issue.path.join('.'),
    found: phrase(issue.code === 'invalid_type' ? 'otherKind' : 'notAllowed'),
    allowed: issue.message,
  }));
}

/** What must agree inside one file; an attempt that names two eyes is none. */
function inside({ scenario, result, seed, modelVersion, commands }: AttemptFile, file: string): readonly Problem[] {
  const pairs: readonly (readonly [string, unknown, unknown])[] = [
    ['result.scenario', result.scenario, scenario.id],
    ['result.seed', result.seed, seed],
    ['result.modelVersion', result.modelVersion, modelVersion],
    ['result.steps', result.steps, commands.length],
  ];
  return pairs.flatMap(([path, found, allowed]) =>
    found === allowed
      ? []
      : [{ file, path, found: String(found), allowed: phrase('asTheRest', { text: String(allowed) }) }],
  );
}

/**
 * Reads an attempt's file. A file that can be read but is not, to the byte, what its content gives has a broken seal.
 *
 * @returns the attempt with the state of its seal, or all problems (at most 20). Never throws.
 */
export function readAttemptFile(text: string, file: string): Result<ReadAttempt> {
  const json = parsedJson(text, file);
  if (!json.ok) return json;
  const version = versionOf(json.value);
  if (version !== SEALED_VERSION) {
    const found = version === undefined ? phrase('noAttemptKey') : `version ${JSON.stringify(version)?.slice(0, 40)}`;
    return bad([{ file, path: 'rimwardAttempt', found, allowed: phrase('sealedAttempt', { limit: SEALED_VERSION }) }]);
  }
  const parsed = fileSchema.safeParse(json.value);
  const checked = checkScenario((json.value as { scenario?: unknown }).scenario, `${file}, scenario`);
  if (!parsed.success || !checked.ok) {
    const shape = parsed.success ? [] : shapeProblems(parsed.error, file);
    return bad([...shape, ...(checked.ok ? [] : checked.problems)].slice(0, MOST_PROBLEMS));
  }
  const { data } = parsed;
  const attempt: AttemptFile = {
    person: data.person,
    place: data.place,
    startedAt: data.startedAt,
    endedAt: data.endedAt,
    // The scenario as it stands in the file: defaults that were filled in would be other content.
    scenario: data.scenario as unknown as Scenario,
    seed: data.seed,
    modelVersion: data.modelVersion,
    commands: data.commands.map(([x_mm, y_mm, lift_mm, jaws, instrument, incision]) => {
      return { x_mm, y_mm, lift_mm, jaws, instrument, incision };
    }),
    result: data.result as unknown as AttemptResult,
  };
  const problems = inside(attempt, file);
  if (problems.length > 0) return bad(problems);
  return ok({ ...attempt, scenario: checked.value, seal: attemptFileText(attempt) === text ? 'fits' : 'broken' });
}

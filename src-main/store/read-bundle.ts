import { deflateSync } from 'node:zlib';
import type { z } from 'zod';
import {
  type AttemptResult,
  checkScenario,
  formatProblem,
  type HandCommand,
  type Scenario,
} from '../../physics/index.ts';
import { problemLines } from '../ipc/messages.ts';
import { shapeOf, storedDigestOf } from './attempt-content.ts';
import { misfitOf } from './attempts.ts';
import {
  type AttemptLine,
  type BundleLimits,
  bundleLine,
  header,
  type PersonLine,
  type ScenarioLine,
} from './bundle-format.ts';
import { bundleLines } from './bundle-lines.ts';
import { summaryText } from './entry.ts';
import { BadFile, type JobControl } from './jobs.ts';
import { Unpackable, unpackCommands } from './pack-commands.ts';
import { canonicalJson, sealOfTexts, sha256 } from './seal.ts';
import type { Database } from './sqlite.ts';
import { stageAttempt } from './stage-bundle.ts';

/** More lines than this help nobody. */
const MOST_LINES = 20;

/** What has been read so far of one bundle. */
interface Reading {
  readonly database: Database;
  readonly limits: BundleLimits;
  readonly people: Set<string>;
  readonly scenarios: Map<string, { readonly id: string; readonly text: string }>;
  readonly attempts: Set<string>;
  /** Attempts that are whole and still not taken: one line each. */
  readonly left: string[];
  ended: boolean;
}

function parsed<T>(schema: z.ZodType<T>, line: string, number: number): T {
  let data: unknown;
  try {
    data = JSON.parse(line);
  } catch {
    throw new BadFile([`Line ${number} is not JSON.`]);
  }
  const found = schema.safeParse(data);
  if (found.success) return found.data;
  throw new BadFile(
    problemLines(found.error)
      .slice(0, MOST_LINES)
      .map((one) => `Line ${number}: ${one}.`),
  );
}

function claim(
  known: { readonly size: number; has(key: string): boolean },
  key: string,
  most: number,
  what: string,
): void {
  if (known.has(key)) throw new BadFile([`Found ${what} ${key} twice.`]);
  if (known.size >= most) throw new BadFile([`Found more than ${most} ${what}s.`]);
}

function takePerson(reading: Reading, { id, name, colour }: PersonLine): void {
  claim(reading.people, id, reading.limits.people, 'person');
  reading.people.add(id);
  reading.database.run('INSERT INTO temp.staged_people (id, name, colour) VALUES (?, ?, ?)', id, name, colour);
}

/** Makes canonical JSON of what came in; a text with half characters, or nested too deep, has none. */
function canonical(number: number, make: () => string): string {
  try {
    return make();
  } catch {
    throw new BadFile([`Line ${number} has no canonical form.`]);
  }
}

function takeScenario(reading: Reading, line: ScenarioLine, number: number): void {
  claim(reading.scenarios, line.digest, reading.limits.scenarios, 'scenario');
  const text = canonical(number, () => canonicalJson(line.scenario));
  if (sha256(text) !== line.digest)
    throw new BadFile([`Line ${number}: the scenario does not have the digest given for it.`]);
  const checked = checkScenario(line.scenario, `line ${number}`);
  if (!checked.ok) throw new BadFile(checked.problems.slice(0, MOST_LINES).map(formatProblem));
  const scenario = line.scenario as unknown as Scenario;
  reading.scenarios.set(line.digest, { id: scenario.id, text });
  reading.database.run(
    'INSERT INTO temp.staged_scenarios (digest, scenario_id, title, text) VALUES (?, ?, ?, ?)',
    ...[line.digest, scenario.id, scenario.title, text],
  );
}

function commandsOf(packed: Uint8Array, number: number): HandCommand[] {
  try {
    return unpackCommands(packed);
  } catch (fault) {
    if (!(fault instanceof Unpackable)) throw fault;
    throw new BadFile([`Line ${number}: the commands cannot be read (${fault.message}).`]);
  }
}

/** Takes an attempt in if everything in it belongs together; an attempt whose seal does not fit is left out and named. */
function takeAttempt(reading: Reading, line: AttemptLine, number: number): void {
  claim(reading.attempts, line.id, reading.limits.attempts, 'attempt');
  reading.attempts.add(line.id);
  const scenario = reading.scenarios.get(line.scenarioDigest);
  if (scenario === undefined) throw new BadFile([`Line ${number}: the attempt's scenario is not before it.`]);
  if (!reading.people.has(line.personId)) throw new BadFile([`Line ${number}: the attempt's person is not before it.`]);
  const commands = Buffer.from(line.commands, 'base64');
  const unpacked = commandsOf(commands, number);
  const result = line.result as unknown as AttemptResult;
  const resultText = canonical(number, () => canonicalJson(result));
  const { id, personId, place, seed, modelVersion, startedAt, endedAt } = line;
  const about = { personId, place, startedAt, endedAt, seed, modelVersion, commands: unpacked };
  const seal = canonical(number, () => sealOfTexts(about, scenario.text, resultText));
  const expected = { scenario_id: scenario.id, seed, model_version: modelVersion };
  const misfit =
    line.steps === unpacked.length ? misfitOf(expected, unpacked.length, result) : 'not the steps it names';
  if (seal !== line.seal || misfit !== null) {
    reading.left.push(`Left out: attempt ${id}, ${misfit ?? 'its seal does not fit what is in it'}.`);
    return;
  }
  const packedResult = deflateSync(resultText, { level: 1 });
  const outline = shapeOf(result);
  stageAttempt(reading.database, {
    id,
    person_id: personId,
    place,
    scenario_digest: line.scenarioDigest,
    seed,
    model_version: modelVersion,
    started_at: startedAt,
    ended_at: endedAt,
    steps: line.steps,
    passed: result.passed ? 1 : 0,
    summary: summaryText(result),
    seal,
    stored_digest: storedDigestOf([commands], packedResult, outline),
    commands,
    result: packedResult,
    outline,
  });
}

function takeLine(reading: Reading, text: string, number: number): void {
  if (reading.ended) throw new BadFile([`Line ${number} comes after the end.`]);
  const line = parsed(bundleLine, text, number);
  if (line.kind === 'person') takePerson(reading, line);
  else if (line.kind === 'scenario') takeScenario(reading, line, number);
  else if (line.kind === 'attempt') takeAttempt(reading, line, number);
  else if (line.attempts === reading.attempts.size) reading.ended = true;
  else throw new BadFile([`Found ${reading.attempts.size} attempts where the end speaks of ${line.attempts}.`]);
}

/**
 * Reads and checks a whole bundle into the stage. Throws `BadFile` at the first thing that does not fit the format.
 *
 * @returns lines on attempts that are left out
 */
export async function readBundle(
  database: Database,
  path: string,
  limits: BundleLimits,
  control: JobControl,
): Promise<readonly string[]> {
  const reading: Reading = {
    database,
    limits,
    people: new Set(),
    scenarios: new Map(),
    attempts: new Set(),
    left: [],
    ended: false,
  };
  let number = 0;
  let promised = 0;
  for await (const text of bundleLines(path, limits)) {
    number += 1;
    await control.pause();
    if (number > 1) {
      takeLine(reading, text, number);
      control.progress(Math.min(reading.attempts.size, promised), promised);
      continue;
    }
    promised = parsed(header, text, number).attempts;
    if (promised > limits.attempts)
      throw new BadFile([`It has ${promised} attempts; at most ${limits.attempts} are read.`]);
    control.progress(0, promised);
  }
  if (!reading.ended)
    throw new BadFile([number === 0 ? 'The file is empty.' : 'The file is cut short: its end is missing.']);
  return reading.left;
}

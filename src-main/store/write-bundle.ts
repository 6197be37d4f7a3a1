import { createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import { writeBeside } from '../files/atomic-write.ts';
import type { Person } from '../ipc/contract.ts';
import { readContent, sealFits } from './attempt-content.ts';
import { BUNDLE_VERSION } from './bundle-format.ts';
import { ENTRY_SQL, ENTRY_TABLES } from './entry.ts';
import type { JobControl, JobOutcome } from './jobs.ts';
import { packCommands } from './pack-commands.ts';
import { findPerson } from './people.ts';
import type { Database, Row } from './sqlite.ts';

interface Written {
  readonly people: Set<string>;
  readonly scenarios: Set<string>;
  attempts: number;
  readonly left: string[];
}

/** The line of an attempt with the lines it needs before it; null, with a reason noted, where it cannot be sent. */
function linesOf(database: Database, id: string, written: Written): readonly object[] | null {
  const leave = (why: string): null => {
    written.left.push(`Left out: attempt ${id}, ${why}.`);
    return null;
  };
  const row: Row | undefined = database.one(`SELECT ${ENTRY_SQL} FROM ${ENTRY_TABLES} WHERE a.id = ?`, id);
  if (row === undefined) return leave('which is not here any more');
  if (row.seal === null) return leave('which is not finished or has no measurements');
  const content = readContent(database, Number(row.number), String(row.scenario_digest));
  if (!sealFits(row, content)) return leave('whose seal is broken');
  const person = findPerson(database, String(row.person_id)) as Person;
  const lines: object[] = [];
  const once = (kept: Set<string>, key: string, line: object): void => {
    if (!kept.has(key)) lines.push(line);
    kept.add(key);
  };
  once(written.people, person.id, { kind: 'person', ...person });
  const digest = String(row.scenario_digest);
  once(written.scenarios, digest, { kind: 'scenario', digest, scenario: content.scenario });
  written.attempts += 1;
  lines.push({
    kind: 'attempt',
    id,
    personId: person.id,
    place: row.place,
    scenarioDigest: digest,
    seed: row.seed,
    modelVersion: row.model_version,
    startedAt: row.started_at,
    endedAt: row.ended_at,
    steps: row.steps,
    commands: Buffer.from(packCommands(content.commands)).toString('base64'),
    result: content.result,
    seal: row.seal,
  });
  return lines;
}

/** The text of a bundle, attempt by attempt. */
async function* bundleText(
  database: () => Database,
  ids: readonly string[],
  program: string,
  control: JobControl,
  written: Written,
): AsyncGenerator<string> {
  const text = (line: object): string => `${JSON.stringify(line)}\n`;
  yield text({ rimwardBundle: BUNDLE_VERSION, program, madeAt: new Date().toISOString(), attempts: ids.length });
  for (const [done, id] of ids.entries()) {
    control.progress(done, ids.length);
    await control.pause();
    for (const line of linesOf(database(), id, written) ?? []) yield text(line);
  }
  yield text({ kind: 'end', attempts: written.attempts });
  control.progress(ids.length, ids.length);
}

/**
 * Writes attempts, with their people and scenarios, as a bundle. Unfinished ones and those with a broken seal are left
 * out and named. The file is whole or not there.
 *
 * @param database asked for anew each time: the store may have been opened anew in between
 */
export async function writeBundle(
  database: () => Database,
  ids: readonly string[],
  path: string,
  program: string,
  control: JobControl,
): Promise<JobOutcome> {
  const wanted = [...new Set(ids)];
  const written: Written = { people: new Set(), scenarios: new Set(), attempts: 0, left: [] };
  const text = bundleText(database, wanted, program, control, written);
  await writeBeside(path, control.id, (part) =>
    pipeline(text, createGzip(), createWriteStream(part, { mode: 0o600, flags: 'wx', flush: true })),
  );
  return { lines: [`Written: ${written.attempts} of ${wanted.length} attempts.`, ...written.left] };
}

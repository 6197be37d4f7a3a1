import type { AttemptResult } from '../../physics/index.ts';
import { digest as digestSchema, ended, graded, opening, work } from '../ipc/attempt-schema.ts';
import type { AttemptSummary, ReplayState, SealState } from '../ipc/contract.ts';
import { canonicalJson, sha256 } from './seal.ts';
import type { Row } from './sqlite.ts';

/** What a line of the logbook shows of the result. */
type Outcome = Pick<AttemptSummary, 'ended' | 'passed' | 'opening' | 'work' | 'graded' | 'digest'>;

const NOTHING_KNOWN: Outcome = { ended: null, passed: null, opening: null, work: null, graded: [], digest: null };

/** The part of a result that a logbook's line is made of, as the text that is stored. */
export function summaryText(result: AttemptResult): string {
  const { ended, passed, opening, work, graded, digest } = result;
  return canonicalJson({ ended, passed, opening, work, graded, digest });
}

/** The line of an attempt whose result is not known, only the digest it once had. */
export const bareSummaryText = (digest: string | null): string => canonicalJson({ ...NOTHING_KNOWN, digest });

/** Columns that the digest of a line is over. */
export type EntryColumns = Readonly<
  Record<
    | 'id'
    | 'person_id'
    | 'place'
    | 'scenario_digest'
    | 'seed'
    | 'model_version'
    | 'started_at'
    | 'ended_at'
    | 'steps'
    | 'passed'
    | 'summary'
    | 'seal'
    | 'stored_digest',
    unknown
  >
>;

/** Digest over a line of the logbook as it is stored: lists show a changed line without reading the whole attempt. */
export function entryDigest(columns: EntryColumns): string {
  const { id, person_id, place, scenario_digest, seed, model_version, started_at, ended_at } = columns;
  const { steps, passed, summary, seal, stored_digest } = columns;
  const who = [id, person_id, place, scenario_digest, seed, model_version, started_at, ended_at];
  return sha256(JSON.stringify([...who, steps, passed, summary, seal, stored_digest]));
}

/** Null for a text that is not what we wrote. */
function outcomeOf(text: unknown): Outcome | null {
  try {
    const data = JSON.parse(String(text)) as Record<string, unknown>;
    const known = {
      ended: ended.nullable().safeParse(data.ended),
      opening: opening.nullable().safeParse(data.opening),
      work: work.nullable().safeParse(data.work),
      graded: graded.safeParse(data.graded),
      digest: digestSchema.nullable().safeParse(data.digest),
    };
    if (!Object.values(known).every((one) => one.success)) return null;
    return { ...data, passed: typeof data.passed === 'boolean' ? data.passed : null } as unknown as Outcome;
  } catch {
    return null;
  }
}

const REPLAY_STATES: readonly ReplayState[] = ['not-tried', 'same', 'different'];
const textOrNull = (value: Row[string] | undefined): string | null => (typeof value === 'string' ? value : null);

/** Columns that `summaryOf` needs, to be selected with the tables `attempts a`, `people p`, `scenarios s`. */
export const ENTRY_SQL = `
  a.number, a.id, a.person_id, a.place, a.scenario_digest, a.seed, a.model_version, a.started_at, a.ended_at, a.passed,
  a.summary, a.seal, a.stored_digest, a.entry_digest, a.seal_state, a.replay_state, a.from_bundle, a.steps,
  p.name AS person_name, s.scenario_id, s.title,
  CASE WHEN a.ended_at IS NULL
    THEN (SELECT coalesce(sum(c.count), 0) FROM commands c WHERE c.attempt = a.number) ELSE a.steps END AS steps_so_far`;

export const ENTRY_TABLES = `
  attempts a JOIN people p ON p.id = a.person_id JOIN scenarios s ON s.digest = a.scenario_digest`;

/** True when a finished attempt's line is as it was written. */
export const entryFits = (row: Row): boolean => entryDigest(row as EntryColumns) === row.entry_digest;

/** A line that was changed says nothing of its result: a number that cannot be trusted is not shown. */
export function summaryOf(row: Row): AttemptSummary {
  const finished = row.ended_at !== null;
  const outcome = finished && entryFits(row) ? outcomeOf(row.summary) : null;
  const broken = finished && outcome === null;
  const kept: SealState = row.seal === null ? 'unsealed' : row.seal_state === 'fits' ? 'fits' : 'broken';
  return {
    id: String(row.id),
    personId: String(row.person_id),
    personName: String(row.person_name),
    place: row.place === 'trial' ? 'trial' : 'bench',
    scenarioId: String(row.scenario_id),
    scenarioTitle: String(row.title),
    scenarioDigest: String(row.scenario_digest),
    seed: Number(row.seed),
    modelVersion: String(row.model_version),
    startedAt: String(row.started_at),
    endedAt: textOrNull(row.ended_at),
    steps: Number(row.steps_so_far ?? 0),
    ...(outcome ?? NOTHING_KNOWN),
    seal: broken ? 'broken' : kept,
    replay: REPLAY_STATES.find((state) => state === row.replay_state) ?? 'not-tried',
    fromBundle: textOrNull(row.from_bundle),
  };
}

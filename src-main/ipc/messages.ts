import { z } from 'zod';
import { command, digest, MOST_COMMANDS, modelVersion, scenario, seed } from './attempt-schema.ts';
import type { HostMethod, KeptAttempt } from './contract.ts';
import { bareName, storeArguments } from './store-messages.ts';

/** Largest text in a message, characters: the largest file that may be opened. */
export const LARGEST_TEXT = 20_000_000;
/** Largest picture or recording that is saved, bytes. */
export const LARGEST_BINARY = 200_000_000;

/** A file of an earlier version. */
export const keptAttempt = z.strictObject({
  rimwardAttempt: z.literal(1),
  scenario,
  seed,
  modelVersion,
  commands: z.array(command).max(MOST_COMMANDS),
  digest: digest.nullable(),
});

const scenarioId = z.string().regex(/^[a-z0-9-]{1,64}$/);
/** As inside a kept attempt: plain JSON of the right version, whatever else it holds. */
const ownScenario = z.looseObject({ rimwardScenario: z.literal(1), id: scenarioId });
/** Largest text of the editor's unsaved work, characters: hundreds of drafts. */
const LARGEST_DRAFTS = 2_000_000;
/** Largest text of the Lecture's boards, characters: some recorded hands among them. */
const LARGEST_BOARDS = 10_000_000;

const preferenceKey = z.string().regex(/^[a-z][A-Za-z0-9.]{0,59}$/);
const preferenceValue = z.union([z.string().max(1000), z.number(), z.boolean()]);
export const preferences = z.record(preferenceKey, preferenceValue);

/** What each call may carry. The page is not trusted: a call that does not fit is refused as a whole. */
export const callArguments = {
  hostInfo: z.tuple([]),
  openTextFile: z.tuple([]),
  saveTextFile: z.tuple([bareName, z.string().max(LARGEST_TEXT)]),
  saveBinaryFile: z.tuple([
    bareName,
    z.instanceof(Uint8Array).refine(({ byteLength }) => byteLength <= LARGEST_BINARY, 'at most 200 MB'),
  ]),
  takeHandedFile: z.tuple([]),
  loadPreferences: z.tuple([]),
  savePreference: z.tuple([preferenceKey, preferenceValue]),
  listOwnScenarios: z.tuple([]),
  saveOwnScenario: z.tuple([ownScenario]),
  removeOwnScenario: z.tuple([scenarioId]),
  loadEyeDrafts: z.tuple([]),
  saveEyeDrafts: z.tuple([z.string().max(LARGEST_DRAFTS)]),
  loadBoards: z.tuple([]),
  saveBoards: z.tuple([z.string().max(LARGEST_BOARDS)]),
  ...storeArguments,
} satisfies Record<HostMethod, z.ZodType>;

/** zod's words in ours. */
const inPlainWords = (message: string): string =>
  message
    .replace(/^Invalid input: /, '')
    .replace(/received undefined$/, 'found nothing')
    .replace(/received /, 'found ');

/** Lines for a person: where, what is wrong. */
export function problemLines(fault: z.ZodError): readonly string[] {
  return fault.issues
    .slice(0, 20)
    .map((issue) => `${issue.path.join('.') || 'message'}: ${inPlainWords(issue.message)}`);
}

/** Reads a kept attempt from unknown data; throws ZodError. */
export function asKeptAttempt(data: unknown): KeptAttempt {
  return keptAttempt.parse(data) as unknown as KeptAttempt;
}
